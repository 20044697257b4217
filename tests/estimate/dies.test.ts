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
