import { expect, test } from "vitest";
import { TenfoldError } from "../../../src/errors/problem.ts";
import { Draws } from "../../../src/estimate/draws.ts";
import { BOUNDARIES } from "../../../src/estimate/ledger.ts";
import { parseFormula } from "../../../src/formulas/parse.ts";
import { claimDocument } from "../../../src/report/documents/claim.ts";
import { claimData } from "../../../src/report/documents/claim-data.ts";
import { claimTable } from "../../../src/report/documents/claim-table.ts";
import { renderCsv } from "../../../src/report/renderers/csv.ts";
import { renderText } from "../../../src/report/renderers/text/text.ts";
import { capacityChange, capacityLimits, runOf } from "../../../src/studies/claim/capacity.ts";
import { testClaims } from "../../../src/studies/claim/claims.ts";
import { isAsClaimed, shareOf } from "../../../src/studies/claim/holding.ts";
import { catalogue, sidesOf, studyOf } from "./study.ts";

function tested(claims: string) {
  return testClaims(studyOf(`claims:\n${claims}`), catalogue, parseFormula);
}

function problemsOf(run: () => unknown) {
  try {
    run();
  } catch (error) {
    if (error instanceof TenfoldError) return error.problems;
    throw error;
  }
  return [];
}

test("at least, at most and about mean what they say, ends included", () => {
  const wanted = { number: 10, within: 0.2 };
  const all = (saved: number) =>
    (["at least", "about", "at most"] as const).map((comparison) =>
      isAsClaimed(saved, { ...wanted, comparison }),
    );
  expect(all(10)).toEqual([true, true, true]);
  expect(all(8)).toEqual([false, true, true]);
  expect(all(7.99)).toEqual([false, false, true]);
  expect(all(12)).toEqual([true, true, false]);
  expect(all(12.01)).toEqual([true, false, false]);
  expect(all(Number.NaN)).toEqual([false, false, false]);
});

test("a draw without a number counts against a claim", () => {
  const wanted = { number: 1, comparison: "at least", within: 0 } as const;
  expect(shareOf(Float64Array.of(2, Number.NaN, 0, 1), wanted)).toBe(0.5);
});

test("five per switch holds in a memory cell, ten fails, and two bits in a switch would do it", () => {
  const { claims } =
    tested(`  five: {subject: hybrid, function: memory-sram-6t, number: 5, boundary: cell}
  ten: {subject: hybrid, function: memory-sram-6t, number: 10}`);
  const [five, ten] = claims;
  expect(five!.overall).toBe("holds");
  expect(five!.verdicts[0]!.saved.value).toBe(5);
  expect(ten!.overall).toBe("fails");
  expect(ten!.verdicts.map(({ boundary }) => boundary)).toEqual(BOUNDARIES);
  const bits = ten!.remedies.find(({ crossing }) => crossing.parameter.name === "bits_per_cell");
  expect(bits!.crossing.value).toBe(2);
});

test("a claim that a small memory breaks holds from a capacity on, and stops below it", () => {
  const { claims } = tested(
    "  c: {subject: hybrid, function: memory-sram-6t, number: 4.5, boundary: macro, capacity: 1 kib}",
  );
  const [verdict] = claims[0]!.verdicts;
  expect(verdict!.verdict).toBe("holds when");
  expect(verdict!.when!.kind).toBe("capacity");
  const { from } = verdict!.capacities!;
  const again = (capacity: number) =>
    tested(
      `  c: {subject: hybrid, function: memory-sram-6t, number: 4.5, boundary: macro, capacity: ${capacity} bit}`,
    ).claims[0]!.overall;
  expect(again(from!)).toBe("holds");
  expect(again(from! / 2)).not.toBe("holds");
});

test("the value that a claim asks for makes the number true on one side of it and not on the other", () => {
  const { claims } = tested(
    "  c: {subject: hybrid, function: memory-sram-6t, number: 4.9, boundary: function, capacity: 64 kib, solve_for: [verify_gates]}",
  );
  const { sides, verdicts } = claims[0]!;
  const { value, parameter } = verdicts[0]!.asked[0]!;
  const at = (factor: number) => sides.saved("function", { parameter, value: value! * factor });
  expect(at(0.999)).toBeGreaterThan(4.9);
  expect(at(1.001)).toBeLessThan(4.9);
});

test("saved per switch tends to the limit, which lies within its tolerance of ever larger functions", () => {
  for (const name of ["memory-sram-6t", "ternary-match", "weight", "register"]) {
    const sides = sidesOf(name);
    const limits = capacityLimits(sides, BOUNDARIES, new Draws(1, 16), 0.95);
    for (const boundary of ["cell", "tile", "function"] as const) {
      const { value, tolerance } = limits.get(boundary)!;
      const far = [30, 40, 50].map((exponent) =>
        Math.abs(sides.saved(boundary, capacityChange(sides, 2 ** exponent)) - value),
      );
      expect(far[1]!, `${name} ${boundary}`).toBeLessThanOrEqual(far[0]! + 1e-12);
      expect(far[2]!, `${name} ${boundary}`).toBeLessThanOrEqual(far[1]! + 1e-12);
      expect(tolerance, `${name} ${boundary}`).toBeLessThan(1e-6);
      const beyond = sides.saved(boundary, capacityChange(sides, 2 ** 90));
      expect(Math.abs(beyond - value), `${name} ${boundary}`).toBeLessThanOrEqual(tolerance);
    }
  }
});

test("at the tile the limit is the closed form: one tile's transistors over its switches", () => {
  const sides = sidesOf("memory-sram-6t");
  const limits = capacityLimits(sides, ["tile"], new Draws(1, 16), 0.95);
  const whole = (side: typeof sides.hybrid) => {
    const values = side.everything();
    return values.get("tile_boundary_transistors")! / values.get("tiles")!;
  };
  const closed = (whole(sides.baseline) - whole(sides.hybrid)) / (256 * 256);
  expect(Math.abs(limits.get("tile")!.value / closed - 1)).toBeLessThan(1e-13);
});

test("a crossbar without transistors in its cells saves more in the cell and pays at the tile", () => {
  const sides = sidesOf("memory-sram-6t", { subject: "crossbar" });
  expect(sides.saved("cell")).toBe(6);
  expect(sides.saved("tile")).toBeLessThan(6);
});

test("at the cell only switches with data count: a half-empty last tile changes nothing", () => {
  const sides = sidesOf("memory-sram-6t", { capacity: 98304 });
  expect(sides.hybrid.everything().get("tiles")).toBe(2);
  expect(sides.saved("cell")).toBe(5);
  expect(sides.hybrid.at().get("data_switches")).toBe(98304);
  expect(sides.hybrid.at().get("function_switches")).toBe(131072);
});

test("a small memory has a small square tile whose amplifiers give one word", () => {
  const values = sidesOf("memory-sram-6t", { capacity: 4096 }).hybrid.everything();
  const names = ["rows", "columns", "column_share", "tiles", "sense_amplifiers"];
  expect(names.map((name) => values.get(name))).toEqual([64, 64, 2, 1, 32]);
});

test("a switch that could hold eight bits is still one routing point, symbol or table bit", () => {
  for (const name of ["routing-switch", "ternary-match", "lookup-table", "state-machine"]) {
    const plain = sidesOf(name).saved("function");
    expect(sidesOf(name, { subject: "eight-bits" }).saved("function"), name).toBe(plain);
  }
});

test("a claim may ask for another process", () => {
  const claim = "subject: hybrid, function: ternary-match, number: 7, boundary: area";
  const { claims } = tested(`  a: {${claim}}\n  b: {${claim}, technology: cmos-28}`);
  const [a, b] = claims.map(({ sides }) => sides.hybrid.at().get("function_area")!);
  // Transistors for a stated current shrink less than a process does.
  expect(b!).toBeLessThan(a! * 0.75);
});

test("the capacities of a claim are an unbroken run: its own, else the last", () => {
  const holds = [false, true, true, false, true, false, true, true];
  expect(runOf(holds, 2)).toEqual([1, 2]);
  expect(runOf(holds, 3)).toEqual([6, 7]);
  expect(runOf(holds, 4)).toEqual([4, 4]);
  expect(runOf([false, false], 1)).toBeUndefined();
});

test("a match cell of two switches without transistors is denser, and pays around the array", () => {
  const dense = sidesOf("ternary-match", { subject: "crossbar" });
  expect(dense.saved("cell")).toBe(16 / 2);
  expect(sidesOf("ternary-match").saved("cell")).toBe((16 - 2) / 2);
  expect(dense.saved("tile")).toBeLessThan(dense.saved("cell"));
});

test("hybrid and baseline share the draws of what they share: a cell's saving has no spread", () => {
  const sides = sidesOf("memory-sram-6t");
  const saved = sides.savedSamples("cell", sides.sample(new Draws(3, 64)));
  for (const one of saved) expect(Number.isNaN(one) || one === 5).toBe(true);
});

test("the table of a claim fits 80 columns, and the caution and what is left out are printed", () => {
  const result = tested(
    "  c: {subject: hybrid, function: ternary-match, number: 10, capacity: 4 kib}",
  );
  const text = renderText(claimDocument(result, { ledger: false }), { width: 80 });
  for (const line of text.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  expect(text).toContain("write endurance");
  expect(text).toContain("access transistor");
  expect(text).toContain("not sign-off");
});

test("a claim names the source of the circuit that it takes from the catalogue", () => {
  const { references } = tested("  c: {subject: hybrid, function: ternary-match, number: 7}");
  const keys = references.map(({ key }) => key);
  expect(keys).toContain("tcam16");
  expect(keys).toContain("counting");
  expect(references.filter(({ type }) => type === "user").map(({ key }) => key)).toEqual([
    "this study",
  ]);
});

test("data has the verdict of each boundary, and says the same each time", () => {
  const once = () =>
    JSON.stringify(
      claimData(tested("  c: {subject: hybrid, function: routing-switch, number: 6}"), {
        sha256: "",
        version: "",
      }),
    );
  const first = once();
  expect(once()).toBe(first);
  expect(JSON.parse(first).claims[0].boundaries).toHaveLength(BOUNDARIES.length);
});

test("as CSV all claims stand in one table, with a row for each boundary and capacity", () => {
  const result = tested(`  a: {subject: hybrid, function: ternary-match, number: 7}
  b: {subject: hybrid, function: all, number: 10, capacities: [1 kib, 1 Mib]}`);
  const [head, ...lines] = renderCsv(claimTable(result)).trim().split("\r\n");
  expect(head).toMatch(/^claim,function,capacity,/);
  expect(lines).toHaveLength(BOUNDARIES.length + 2 * 16);
});

test("a claim about all functions has a row for each, at each capacity", () => {
  const { surveys } = tested(
    "  c: {subject: hybrid, function: all, number: 10, boundary: macro, capacities: [1 kib, 1 Mib]}",
  );
  expect(surveys[0]!.rows.length).toBe(16);
  for (const { points } of surveys[0]!.rows) {
    expect(points).toHaveLength(2);
    for (const { saved } of points) expect(saved.low).toBeLessThanOrEqual(saved.high);
  }
});

test.each([
  ["  c: {subject: hybrid, function: ternary-mach, number: 10}", "unknown-word", "ternary-match"],
  ["  c: {subject: hybird, function: ternary-match, number: 10}", "unknown-design", "hybrid"],
  ["  c: {subject: static, function: ternary-match, number: 10}", "no-switch", undefined],
  ["  c: {subject: hybrid, function: ternary-match}", "missing-key", undefined],
  [
    "  c: {subject: hybrid, function: weight, number: 1, solve_for: [converter_transistor]}",
    "unknown-word",
    "converter_transistors",
  ],
])("%s is refused with its place and the nearest right word", (claims, code, nearest) => {
  const [problem] = problemsOf(() => tested(claims));
  expect(problem!.code).toBe(code);
  expect(problem!.nearest).toBe(nearest);
  expect(problem!.place?.line).toBeGreaterThan(15);
});

test("a study without claims is refused", () => {
  const [problem] = problemsOf(() => testClaims(studyOf(), catalogue, parseFormula));
  expect(problem!.code).toBe("no-claims");
});
