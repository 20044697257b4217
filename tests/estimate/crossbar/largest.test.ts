// The search for the largest tile: by itself, and in designs whose lines decide.
import { expect, test } from "vitest";
import { macroModelOf } from "../../../src/estimate/crossbar/auto.ts";
import { largestLines } from "../../../src/estimate/crossbar/largest.ts";
import { faultOf } from "../../../src/estimate/crossbar/works.ts";
import { parseFormula } from "../../../src/formulas/parse.ts";
import { CATALOGUE, type Keys, modelOf, studyOf } from "../study.ts";

const upTo = (limit: number) => (lines: number) =>
  lines <= limit ? undefined : `more than ${limit} lines`;

test("the search stops at the last power of two that works and finds what lies between", () => {
  const got = largestLines(8, 4096, upTo(300), upTo(300));
  expect(got.lines).toBe(256);
  expect(got.beyond).toEqual({ lines: 512, fault: "more than 300 lines" });
  expect(got.about).toBeGreaterThanOrEqual(296);
  expect(got.about).toBeLessThanOrEqual(300);
});

test("the search says so when nothing works, and when its bound does", () => {
  expect(largestLines(8, 4096, upTo(4), upTo(4))).toEqual({
    beyond: { lines: 8, fault: "more than 4 lines" },
  });
  expect(largestLines(8, 128, upTo(1e9), upTo(1e9))).toEqual({ lines: 128 });
});

const CELL = {
  switch: {
    from: "interface-oxide",
    on_resistance: "200 kohm",
    off_resistance: "10 Mohm",
    device_spread: 0.1,
  },
  selector: { kind: "none" },
};
const DESIGN: Keys = {
  cell: CELL,
  bias: { read: "grounded", write: "one-half" },
  wires: { rows: { width: "20 nm", resistivity: "1e-7 ohm m" } },
  capacity: "4 Mib",
  word: "32 bit",
};

const auto = (keys: Keys) => {
  const study = studyOf({ one: { ...keys, tile: "auto" } });
  return macroModelOf(study, "one", CATALOGUE, parseFormula);
};

test("an automatic tile works, and one of twice its lines does not", () => {
  const found = auto(DESIGN);
  const { rows, columns, largest } = found.design.organised;
  expect(rows).toBe(columns);
  expect(faultOf(found)).toBeUndefined();
  const twice = modelOf({ ...DESIGN, tile: { rows: 2 * rows, columns: 2 * columns } });
  const fault = faultOf(twice);
  expect(fault).toBeDefined();
  expect(largest).toContain(`${rows} × ${rows} is the largest tile that works`);
  expect(largest).toContain(fault);
}, 60000);

test("wires of less resistance never make the largest tile smaller", () => {
  const lines = ["4e-7 ohm m", "1e-7 ohm m", "5e-8 ohm m"].map((resistivity) => {
    const wires = { rows: { width: "20 nm", resistivity } };
    return auto({ ...DESIGN, wires }).design.organised.rows;
  });
  expect(lines).toEqual([...lines].sort((a, b) => a - b));
  expect(lines.at(-1)!).toBeGreaterThan(lines[0]!);
}, 60000);

test("an automatic tile of cells with transistors is held by what its lines take", () => {
  const cell = { switch: "oxide-bilayer", selector: { kind: "transistor" } };
  const found = auto({ cell, capacity: "64 Mib", word: "32 bit" });
  expect(faultOf(found)).toBeUndefined();
  const { rows, largest } = found.design.organised;
  expect(rows).toBeGreaterThanOrEqual(256);
  expect(largest).toContain(String(rows));
});

test("other cells keep the organisation's own choice", () => {
  const found = auto({ cell: "sram-6t", capacity: "1 Mib", word: "32 bit" });
  expect(found.design.organised.rows).toBe(256);
  expect(found.design.organised.largest).toBeUndefined();
});
