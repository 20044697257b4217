// What a part reads is what stands in front of it or behind it: the lines of a structure's own parts, by hand.
import { expect, test } from "vitest";
import type { Structure } from "../../../src/models/periphery/structure.ts";
import { evaluate } from "./fixture.ts";
import { instancesOf, MEMORY, STRUCTURES } from "./structures.ts";

const named = (name: string): Structure => STRUCTURES.find(([own]) => own === name)![1];
const valuesOf = (structure: Structure, more: Readonly<Record<string, number>> = {}) => {
  const values = evaluate(instancesOf(structure), more);
  return (name: string) => values[name]!;
};

test("bits of a cell that are written together are each compared", () => {
  const several = valuesOf(
    named("cells of several bits with a transistor, by successive approximation"),
    {
      bits_per_cell: 2,
    },
  );
  // 32 data bits and their check bits in pairs: as many comparisons as bits, six gates of four devices each.
  const bits = several("cells_written") * 2;
  expect(several("verify_logic_bit_transistors")).toBe(bits * 6 * 4);
  const single = valuesOf(named("cells with a transistor, pumped"));
  expect(single("verify_logic_bit_transistors")).toBe(single("cells_written") * 6 * 4);
});

test("a pump starts from its own supply, and its regulator from what it gives", () => {
  // From 1 V or 2.5 V to 1.5 V and the regulator's headroom, less one diode.
  const core = valuesOf(named("cells with a transistor, pumped"));
  const target = core("charge_pump_target_voltage");
  expect(core("charge_pump_rise") / (target - 1 + 0.1)).toBeCloseTo(1, 12);
  // What the regulator loses is the difference, and its own current's share of what is in front of it.
  expect(core("write_regulator_lost_voltage") / (target * 1.05 - 1.5)).toBeCloseTo(1, 12);
  const other = valuesOf({ ...named("cells with a transistor, pumped"), pumpFrom: "input-output" });
  expect(other("charge_pump_rise")).toBe(0);
  const plain = valuesOf({
    ...named("cells with a transistor, pumped"),
    writeSupply: "input-output",
  });
  expect(plain("write_regulator_lost_voltage") / (2.5 * 1.05 - 1.5)).toBeCloseTo(1, 12);
});

test("row and erase pumps start from the supply that feeds pumps", () => {
  const rows = valuesOf(MEMORY, { write_row_swing: 3.4 });
  expect(rows("row_pump_rise") / (3.4 - 1 + 0.1)).toBeCloseTo(1, 12);
  const io = valuesOf({ ...MEMORY, pumpFrom: "input-output" }, { write_row_swing: 3.4 });
  expect(io("row_pump_rise") / (3.4 - 2.5 + 0.1)).toBeCloseTo(1, 12);
  const flash = valuesOf(named("floating gates, erased by block"));
  expect(flash("erase_pump_rise") / (10 - 1 + 0.1)).toBeCloseTo(1, 12);
});
