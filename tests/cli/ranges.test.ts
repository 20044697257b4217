import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { scratch, tenfold } from "./run.ts";

const STUDY = `title: Ranged
baseline: static
samples: 64
defaults: {capacity: 64 Kib, word: 32 bit}
designs:
  static: {cell: sram-6t}
  resistive: {cell: {switch: oxide-bilayer, selector: transistor}}
uncertainty:
  quantities: [macro_area]
  most_draws: 16384
  correlations:
    - {between: [on_resistance, off_resistance], rank: 0.6}
  targets:
    - {want: macro_area <= 0.5 * baseline_macro_area, confidence: 80 %, change: [reset_voltage]}
organise:
  vary: {rows: [64, 128, 256], columns: [64, 128], column_share: [2, 4]}
  minimise: [macro_area, read_latency]
standby: {period: 10 min, active_time: 2 s, save_to: resistive}
`;
const run = (text: string, ...args: string[]) => tenfold(args, { input: text });

test("uncertainty prints intervals, what carries them, and what a target needs", () => {
  const { code, out, err } = run(STUDY, "uncertainty", "-");
  expect({ code, err }).toEqual({ code: 0, err: "" });
  expect(out).toMatch(/macro area +[\d.]+ \([\d.]+ – [\d.]+\) mm²/);
  expect(out).toMatch(/sram_6t_/);
  expect(out).toMatch(/Target: macro_area <= 0\.5 \* baseline_macro_area/);
  expect(out).toMatch(/reset_voltage/);
});

test("uncertainty --format json has the distribution, the indices and the swings, and the same bytes again", () => {
  const args = [
    "uncertainty",
    "-",
    "--format",
    "json",
    "--design",
    "static",
    "--quantity",
    "read_latency",
  ];
  const once = run(STUDY, ...args).out;
  const { format, designs } = JSON.parse(once);
  expect(format).toBe("tenfold.uncertainty/1");
  const { read_latency: one } = designs[0].quantities;
  expect(one.low).toBeLessThan(one.median);
  expect(one.median).toBeLessThan(one.high);
  const totals = one.influences.map(({ total }: { total: { value: number } }) => total.value);
  expect(Math.max(...totals)).toBeGreaterThan(0.3);
  expect(one.swings[0].atLow).not.toBe(one.swings[0].atHigh);
  expect(run(STUDY, ...args).out).toBe(once);
  expect(run(STUDY, ...args, "--seed", "2").out).not.toBe(once);
});

test("organise prints the front, marks the winner and says why it wins", () => {
  const { code, out, err } = run(STUDY, "organise", "-");
  expect({ code, err }).toEqual({ code: 0, err: "" });
  expect(out).toMatch(/Trade-off front/);
  expect(out).toMatch(/^winner /m);
  expect(out).toMatch(/12 organisations: \d+ computed/);
  expect(out).toMatch(/Why the winner wins[\s\S]*in all/);
  const csv = run(STUDY, "organise", "-", "--format", "csv").out;
  expect(csv).toMatch(/rows,.*columns,.*macro_area/);
  const chart = join(scratch(), "front.svg");
  expect(run(STUDY, "organise", "-", "--chart", chart).code).toBe(0);
  expect(readFileSync(chart, "utf8")).toMatch(/^<svg[\s\S]*Trade-off front of resistive/);
});

test("organise says what stands in the way where nothing is found, and refuses a key that is none", () => {
  const none = STUDY.replace("organise:", 'organise:\n  where: ["read_latency < 1 ps"]');
  expect(run(none, "organise", "-").out).toMatch(/No organisation[\s\S]*read_latency < 1 ps +\d+/);
  const wrong = STUDY.replace("column_share: [2, 4]}", "cell.selector.widht_ratio: [1, 2]}");
  const { code, err } = run(wrong, "organise", "-");
  expect(code).toBe(2);
  expect(err).toMatch(/standard input:\d+:\d+: `widht_ratio` isn't a key[\s\S]*width_ratio/);
});

test("standby prints the break-even of saving and switching off", () => {
  const { code, out, err } = run(STUDY, "standby", "-");
  expect({ code, err }).toEqual({ code: 0, err: "" });
  expect(out).toMatch(/break-even standby +\S+ +[\d.]+/);
  expect(out).toMatch(/static: saved and switched off/);
});

test.each([
  ["uncertainty", "reset_voltage]", "reset_voltag]", /did you mean: reset_voltage/],
  ["uncertainty", "rank: 0.6", "rank: 1.6", /at most 0\.999/],
  ["uncertainty", "off_resistance]", "off_resistence]", /did you mean: off_resistance/],
  ["organise", "minimise: [macro_area", "minimise: [macro_aera", /did you mean: macro_area/],
  ["organise", "vary: {rows", "vary: {rowz", /did you mean: rows/],
  ["standby", "save_to: resistive", "save_to: static", /loses its data without a supply/],
])("%s tells a mistake with its place and remedy: %s", (command, right, wrong, message) => {
  expect(STUDY).toContain(right);
  const { code, err } = run(STUDY.replace(right, wrong), command, "-");
  expect(code).toBe(2);
  expect(err).toMatch(/standard input:\d+:\d+/);
  expect(err).toMatch(message);
});
