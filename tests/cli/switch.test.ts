import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import width from "string-width";
import { expect, test } from "vitest";
import { scratch, tenfold } from "./run.ts";

/** Invented, from textbook ranges. */
const FILM = `format: tenfold.switch/1
name: film
title: A film
about: Invented.
values:
  film_thickness: 3 nm
  electrode_area: 100 nm^2
  least_gap: 0.3 nm
  most_gap: 0.9 nm
  barrier_height: 1 eV
  conductive_resistivity: 5e-5 ohm m
  hop_distance: 0.3 nm
  hop_energy: 1.1 eV
  set_voltage: 2.6 V
  reset_voltage: 2.6 V
  read_voltage: 0.2 V
`;

/** Runs the program on the film in a directory of its own, with a table of measured points. */
function film(args: readonly string[], table = "", text = FILM) {
  const cwd = scratch();
  writeFileSync(join(cwd, "film.yaml"), text);
  writeFileSync(join(cwd, "points.csv"), table);
  return { ...tenfold(["switch", "film.yaml", ...args], { cwd }), cwd };
}

/** The loop as rows of time-ordered [voltage, current] in SI. */
function loopOf(...args: readonly string[]): number[][] {
  const { out, err } = film(["--part", "loop", "--format", "csv", ...args]);
  expect(err).toBe("");
  const rows = out.trim().split(/\r?\n/).slice(1);
  return rows.map((row) => [Number(row.split(",")[0]), Number(row.split(",")[2])]);
}

const largest = (rows: readonly number[][]) => Math.max(...rows.map(([, i]) => Math.abs(i!)));

test("switch prints its tables in 80 columns, and a chart on request", () => {
  const { code, out, err, cwd } = film(["--chart", "times.svg"]);
  expect(err).toBe("");
  expect(code).toBe(0);
  expect(out).toMatch(/\n260 mV|\n 260 mV/);
  expect(out).toContain("Current-voltage loop, triangle of 1 s");
  expect(Math.max(...out.split("\n").map((line) => width(line)))).toBeLessThanOrEqual(80);
  expect(readFileSync(join(cwd, "times.svg"), "utf8")).toMatch(/^<svg/);
});

test.each(["triangle", "sine", "pulse"])("a %s drives a passive loop, pinched at 0 V", (drive) => {
  const rows = loopOf("--drive", drive, "--period", "1 ms", "--amplitude", "2.5 V");
  expect(rows.length).toBeGreaterThan(50);
  for (const [voltage, current] of rows) {
    expect(Math.abs(voltage!)).toBeLessThanOrEqual(2.5);
    expect(voltage! * current!).toBeGreaterThanOrEqual(0);
    if (voltage === 0) expect(current).toBe(0);
  }
});

test("--current-limit and --series-resistance bound the current of the loop", () => {
  expect(largest(loopOf())).toBeGreaterThan(1e-4);
  expect(largest(loopOf("--current-limit", "20 uA"))).toBeCloseTo(20e-6, 12);
  // Ohm's law: the whole voltage across the resistance alone.
  expect(largest(loopOf("--series-resistance", "1 Mohm"))).toBeLessThan(2.6e-6);
});

test.each([
  [["--period", "0 s"], "period"],
  [["--period", "3 V"], "--period: `3 V` is in V"],
  [["--drive", "pulse", "--width", "0.9 s"], "--period near four times --width"],
  [["--current-limit", "0 A"], "--current-limit above 0"],
])("%j is refused with what to do", (args, words) => {
  const { code, err, out } = film(args);
  expect(code).toBe(2);
  expect(out).toBe("");
  expect(err).toContain(words);
});

test("a bad line of a measured table is named by file, line and column", () => {
  const { code, err } = film(["--fit", "points.csv"], "voltage,time (ns)\n2,300\n2.2,fast\n");
  expect(code).toBe(2);
  expect(err).toContain("points.csv:3:5");
  expect(err).toContain("`fast` is no number");
});

test("a loop that the program wrote, fitted from another film, gives barrier and hop energy", () => {
  const data = JSON.parse(film(["--format", "json"]).out);
  const points: { time: number; voltage: number; current: number }[] = data.loop.points;
  const table = points.map(({ time, voltage, current }) => `${time},${voltage},${current}`);
  const text = `time,voltage,current\n${table.join("\n")}\n`;
  const start = FILM.replace("1 eV", "0.97 eV").replace("1.1 eV", "1.12 eV");
  const { code, out, err } = film(["--fit", "points.csv", "--format", "json"], text, start);
  expect(err).toBe("");
  expect(code).toBe(0);
  const { parameters } = JSON.parse(out) as { parameters: { name: string; value: number }[] };
  const electronvolts = parameters.map(({ value }) => value / 1.602176634e-19);
  expect(parameters.map(({ name }) => name)).toEqual(["barrier_height", "hop_energy"]);
  expect(electronvolts[0]).toBeCloseTo(1, 6);
  expect(electronvolts[1]).toBeCloseTo(1.1, 6);
});
