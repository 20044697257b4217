import { expect, test } from "vitest";
import { macroModelOf } from "../../../src/estimate/crossbar/auto.ts";
import { parseFormula } from "../../../src/formulas/parse.ts";
import { reopener } from "../../../src/io/sweep/open.ts";
import { CHUNK, chunksOf, SweepChunks, sweepRows } from "../../../src/studies/sweep/chunk.ts";
import { planSweep } from "../../../src/studies/sweep/plan.ts";
import { rowsOf as rowsOfTable, type SweepRow } from "../../../src/studies/sweep/table.ts";

function plan(section: string) {
  const text = `title: Rows
defaults: {capacity: 64 Kib, word: 32 bit}
designs:
  static: {cell: sram-6t}
  resistive: {cell: {switch: oxide-bilayer, selector: transistor}}
sweep:
${section}`;
  const named = { text, file: "rows.yaml" };
  return planSweep(reopener({ named, set: [], entries: [] }), parseFormula);
}

async function rowsOf(section: string): Promise<SweepRow[]> {
  const rows: SweepRow[] = [];
  for await (const row of sweepRows(plan(section))) rows.push(row);
  return rows;
}

test("rows come in the order of the points, the last name the fastest, each design in turn", async () => {
  const rows = await rowsOf(
    "  vary: {rows: [64, 128], banks: [1, 2, 4]}\n  quantities: [macro_area]\n",
  );
  expect(
    rows.map(({ point, design, rows: lines, banks }) => [point, design, lines, banks]),
  ).toEqual(
    [64, 128].flatMap((lines, r) =>
      [1, 2, 4].flatMap((banks, b) =>
        ["static", "resistive"].map((design) => [3 * r + b, design, lines, banks]),
      ),
    ),
  );
  expect(rows.every(({ works, macro_area: area }) => works === true && Number(area) > 0)).toBe(
    true,
  );
});

test("a logarithmic range has its ends exactly and equal ratios between", async () => {
  const section =
    "  designs: [resistive]\n  vary: {on_resistance: {from: 1 kohm, to: 100 kohm, points: 5, spacing: logarithmic}}\n";
  const values = (await rowsOf(section)).map((row) => row["on_resistance"] as number);
  expect([values[0], values[4]]).toEqual([1e3, 1e5]);
  for (let i = 1; i < 5; i++) expect(values[i]! / values[i - 1]!).toBeCloseTo(Math.sqrt(10), 12);
});

test("a range with a step holds its last value where the step meets it", async () => {
  const rows = await rowsOf(
    "  designs: [static]\n  vary: {temperature: {from: 0 degC, to: 1 degC, step: 0.1 K}}\n",
  );
  expect(rows).toHaveLength(11);
  const wrong = "  vary: {temperature: {from: 0 degC, to: 10 degC, step: 1 degC}}\n";
  expect(() => plan(wrong)).toThrow(/a step is a difference of temperatures/);
});

test("points are taken one by one, and combined with what varies", async () => {
  const rows = await rowsOf(
    "  designs: [static]\n  points: [{rows: 64, columns: 128}, {rows: 128, columns: 64}]\n  vary: {banks: [1, 2]}\n",
  );
  expect(rows.map((row) => ["rows", "columns", "banks"].map((name) => row[name]))).toEqual([
    [64, 128, 1],
    [64, 128, 2],
    [128, 64, 1],
    [128, 64, 2],
  ]);
});

test("a point that can't be has no figures but a reason; conditions leave rows out", async () => {
  const section = "  designs: [static]\n  vary: {rows: [64, 2.5]}\n  quantities: [macro_area]\n";
  const [good, bad] = await rowsOf(section);
  expect(good).not.toHaveProperty("reason");
  expect(bad).toEqual({
    point: 1,
    design: "static",
    rows: 2.5,
    works: false,
    reason: "rows must be a whole number",
  });
  expect(await rowsOf(`${section}  where: ["macro_area > 0 mm^2"]\n`)).toHaveLength(1);
  expect(await rowsOf(`${section}  where: ["macro_area > 1 m^2 or rows > 100"]\n`)).toHaveLength(0);
});

test("chunks are a pure function of their number: made again or out of order they are the same", () => {
  const made = plan(
    `  designs: [static]\n  vary: {temperature: {from: 0 degC, to: 80 degC, points: ${2 * CHUNK + 7}}}\n  quantities: [standby_power]\n`,
  );
  expect(chunksOf(made)).toBe(3);
  const chunks = new SweepChunks(made);
  const rows = (chunk: number) => [...rowsOfTable(chunks.table(chunk))];
  const [last, first] = [rows(2), rows(0)];
  expect(last).toHaveLength(7);
  expect(first).toHaveLength(CHUNK);
  expect(rows(2)).toEqual(last);
  expect(last[0]!["point"]).toBe(2 * CHUNK);
});

test("points with draws have the ends of a coverage interval and the share that works", async () => {
  const rows = await rowsOf(
    "  designs: [resistive]\n  samples: 64\n  vary: {on_resistance: [5 kohm, 500 ohm], rows: [64, 128]}\n  quantities: [read_latency]\n",
  );
  for (const row of rows) {
    if (row["works"] !== true) continue;
    expect(row["read_latency_low"]).toBeLessThan(row["read_latency"] as number);
    expect(row["read_latency_high"]).toBeGreaterThan(row["read_latency"] as number);
    expect(row["working_share"]).toBeGreaterThan(0);
  }
  expect(rows[0]!["works"]).toBe(true);
});

// The estimate looks for the largest tile that works with the values of each point.
test("a tile that is left to the tool is the largest that works at each point", async () => {
  const text = (drive: number) => `title: Rows
defaults: {capacity: 64 Kib, word: 32 bit}
designs:
  resistive:
    cell: {switch: oxide-bilayer, selector: transistor}
    tile: {rows: auto, columns: auto, column_share: 4}
    overrides: {drive_effort: ${drive}}
sweep: {vary: {drive_effort: [4, 7], banks: [1, 4]}, quantities: [macro_area, rows]}
`;
  const open = (drive: number) =>
    reopener({ named: { text: text(drive), file: "rows.yaml" }, set: [], entries: [] });
  const rows: SweepRow[] = [];
  for await (const row of sweepRows(planSweep(open(5), parseFormula))) rows.push(row);
  expect(rows).toHaveLength(4);
  for (const { drive_effort: drive, banks, macro_area: area } of rows) {
    const set = [{ path: "designs.resistive.banks", value: String(banks) }];
    const { study, catalogue } = open(drive as number)(set);
    const model = macroModelOf(study, "resistive", catalogue, parseFormula);
    expect(area).toBe(model.nominal().get("macro_area"));
  }
});
