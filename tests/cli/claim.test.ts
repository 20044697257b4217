import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { scratch, tenfold } from "./run.ts";

const STUDY = `title: t
samples: 64
defaults: {capacity: 64 kib, word: 32 bit, tile: {rows: 128, columns: 128}}
designs:
  hybrid: {cell: {switch: oxide-bilayer, selector: {kind: transistor}}}
claims:
`;
const FIVE = "  five: {subject: hybrid, function: memory-sram-6t, number: 5, boundary: cell}\n";
const TEN = "  ten: {subject: hybrid, function: memory-sram-6t, number: 10, boundary: cell}\n";
const ALL = "  all: {subject: hybrid, function: all, number: 10, capacities: [4 kib, 1 Mib]}\n";

test("--require ends with 1 unless every claim holds, and still prints the verdicts", () => {
  const holds = tenfold(["claim", "-", "--require"], { input: STUDY + FIVE });
  expect(holds.code).toBe(0);
  const fails = tenfold(["claim", "-", "--require"], { input: STUDY + FIVE + TEN });
  expect(fails.code).toBe(1);
  expect(fails.out).toContain("fails");
  expect(fails.err).toBe("");
  expect(tenfold(["claim", "-"], { input: STUDY + TEN }).code).toBe(0);
});

test("every format tells the verdict", () => {
  for (const format of ["table", "markdown", "csv", "json", "latex", "html"]) {
    const { code, out } = tenfold(["claim", "-", "--format", format], { input: STUDY + TEN });
    expect(code, format).toBe(0);
    expect(out, format).toContain("fails");
  }
});

test("the chart of a claim about all functions is drawn once, and the same each time", () => {
  const folder = scratch();
  const chart = join(folder, "chart.svg");
  const draw = (...more: string[]) =>
    tenfold(["claim", "-", "--format", "json", "--chart", chart, ...more], { input: STUDY + ALL });
  expect(draw().code).toBe(0);
  const first = readFileSync(chart, "utf8");
  expect(first).toMatch(/^<svg[^>]*role="img"/);
  expect(first).toContain("<title>");
  for (const name of ["memory-sram-6t", "ternary-match", "weight", "register"]) {
    expect(first).toContain(`>${name}</text>`);
  }
  expect(draw().code).not.toBe(0);
  writeFileSync(chart, "");
  expect(draw("--force").code).toBe(0);
  expect(readFileSync(chart, "utf8")).toBe(first);
});

test("a chart without a claim about all functions is refused", () => {
  const chart = join(scratch(), "chart.svg");
  const { code, err } = tenfold(["claim", "-", "--chart", chart], { input: STUDY + TEN });
  expect(code).toBe(2);
  expect(err).toContain("function: all");
});

test("--explain derives a count to the last inverter, and knows the nearest quantity", () => {
  const args = ["claim", "-", "--explain", "tile_boundary_transistors", "--depth", "9"];
  const { code, out } = tenfold(args, { input: STUDY + TEN });
  expect(code).toBe(0);
  expect(out).toContain("row_decoder_address_inverter_transistors");
  const wrong = tenfold(["claim", "-", "--explain", "tile_boundary_transistor"], {
    input: STUDY + TEN,
  });
  expect(wrong.code).toBe(2);
  expect(wrong.err).toContain("tile_boundary_transistors");
});

test("a study without claims is refused with an example", () => {
  const { code, err } = tenfold(["claim", "-"], { input: STUDY.replace("claims:\n", "") });
  expect(code).toBe(2);
  expect(err).toContain("claims:");
});
