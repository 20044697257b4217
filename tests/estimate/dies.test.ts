import { describe, expect, it } from "vitest";
import { modelOf, quantitiesOf } from "./study.ts";

const DIE = { cell: "dram-1t1c", capacity: "16 Mib", die: { pads: "auto" } };

describe("spare lines of a die", () => {
  it("are one for every 64 rows and one for every 64 columns, unless the study says", () => {
    const q = quantitiesOf({ ...DIE, tile: { rows: 512, columns: 256 } });
    expect([q("spare_rows"), q("spare_columns")]).toEqual([8, 4]);
    const none = quantitiesOf({ ...DIE, spare_rows: 0, spare_columns: 0 });
    expect([none("spare_rows"), none("spare_columns")]).toEqual([0, 0]);
    expect(quantitiesOf({ cell: "dram-1t1c" })("spare_rows")).toBe(0);
  });

  it("are said among what was chosen for the user", () => {
    const { chosen } = modelOf(DIE).design.organised;
    const told = chosen.filter((text) => text.startsWith("spare "));
    expect(told).toEqual([
      "spare rows of a tile: 8, by default: a die has one for every 64",
      "spare columns of a tile: 8, by default: a die has one for every 64",
    ]);
  });

  it("are compared with once for a row of tiles where lines are divided, else in each tile", () => {
    const divided = quantitiesOf(DIE);
    expect(divided("tiles")).toBe(64);
    // Eight rows of eight tiles.
    expect(divided("all_spare_steering_instances")).toBe(8);
    const whole = quantitiesOf({ ...DIE, tile: { lines: "whole" } });
    expect(whole("all_spare_steering_instances")).toBe(64);
    expect(whole("spare_steering_row_transistors")).toBe(divided("spare_steering_row_transistors"));
  });
});

describe("a memory process", () => {
  it("has no fast devices beside its arrays: what leaks below threshold is that of high thresholds", () => {
    const [memory, logic] = [
      quantitiesOf({ cell: "dram-1t1c" }),
      quantitiesOf({ cell: "sram-6t" }),
    ];
    // 65 nm at 1 V: 50 nA/um below threshold, a tenth of it in high ones, and 5 nA/um whatever the threshold.
    expect(memory("standing_current") / (0.1 * 0.05 + 0.005)).toBeCloseTo(1, 9);
    expect(logic("standing_current") / ((0.3 + 0.7 * 0.1) * 0.05 + 0.005)).toBeCloseTo(1, 9);
    expect(memory("on_current")).toBe(logic("on_current"));
  });

  it("may have some where a study says so", () => {
    const some = { cell: "dram-1t1c", overrides: { array_low_threshold_share: 0.1 } };
    const current = quantitiesOf(some)("standing_current");
    expect(current / ((0.1 + 0.9 * 0.1) * 0.05 + 0.005)).toBeCloseTo(1, 9);
  });
});
