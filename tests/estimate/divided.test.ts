// Lines that tiles share: counted by hand beside the counts of the program.
import { describe, expect, test } from "vitest";
import { quantitiesOf } from "./study.ts";

const at = (lines: string, more = {}) =>
  quantitiesOf({
    cell: "dram-1t1c",
    technology: "cmos-180",
    capacity: "16 Mib",
    word: "16 bit",
    tile: { rows: 512, columns: 512, column_share: 4, lines },
    ...more,
  });

describe("divided lines", () => {
  const q = at("divided");

  test("64 tiles stand eight by eight, with one decoder of 128 outputs for each row of tiles", () => {
    expect(q("tiles_per_bank")).toBe(64);
    expect([q("tiles_along_row"), q("tiles_along_column")]).toEqual([8, 8]);
    expect(q("main_rows")).toBe(128);
    expect(q("all_row_decoder_instances")).toBe(8);
    expect(q("all_row_main_driver_instances")).toBe(8 * 128);
  });

  test("each row of each tile has three transistors of its own, and as many drive the select lines", () => {
    expect(q("all_row_driver_transistors")).toBe(3 * 64 * (512 + 4));
  });

  test("amplifiers stand between tiles: nine stripes of half a tile's columns for eight tiles", () => {
    expect(q("all_sense_amplifier_instances")).toBeCloseTo(8 * 9 * 256, 9);
    expect(q("all_precharge_instances")).toBeCloseTo(8 * 9 * 256, 9);
  });

  test("a column of tiles shares write drivers and the ends of its global data lines", () => {
    expect(q("all_write_driver_instances")).toBeCloseTo(8 * 128, 9);
    expect(q("all_data_driver_instances")).toBeCloseTo(8 * 128, 9);
  });

  test("they need less area and fewer transistors than whole ones, and no less time to the row", () => {
    const whole = at("whole");
    expect(q("macro_area")).toBeLessThan(whole("macro_area"));
    expect(q("transistors")).toBeLessThan(whole("transistors"));
    expect(q("row_main_driver_delay")).toBeGreaterThan(0);
    expect(q("decode_delay")).toBeCloseTo(q("row_decoder_delay") + q("row_main_driver_delay"), 18);
  });

  test("a column of tiles may share alone: rows then have their own decoders", () => {
    const c = at("columns");
    expect(c("all_row_decoder_instances")).toBe(64);
    expect(c("all_write_driver_instances")).toBe(8 * 128);
    expect(() => c("row_main_driver_delay")).toThrow();
  });

  test("counts are whole numbers where tiles fill no square", () => {
    // 20 tiles: four along the rows, five along the columns; 21 leave a sixth row for one of them.
    for (const [tiles, rows, columns] of [
      [20, 5, 4],
      [21, 6, 4],
    ] as const) {
      const odd = at("divided", { capacity: `${tiles * 256} Kib` });
      expect(odd("all_row_decoder_instances")).toBe(rows);
      expect(odd("all_write_driver_instances")).toBe(columns * 128);
      expect(Number.isInteger(odd("transistors"))).toBe(true);
    }
  });

  test("memory processes have them unless the tile says otherwise, logic processes do not", () => {
    const logic = { cell: "sram-6t", technology: "cmos-65", capacity: "1 Mib" };
    expect(() => quantitiesOf(logic)("main_rows")).toThrow();
    expect(quantitiesOf({ ...logic, tile: { lines: "divided" } })("main_rows")).toBe(64);
    expect(quantitiesOf({ cell: "nor-flash", capacity: "16 Mib" })("main_rows")).toBe(128);
  });

  test("a row raised beyond every supply has a pump, whose loss comes on top of its charge", () => {
    const p = at("divided", { supply: "2.5 V" });
    const charge = p("tiles_active") * p("row_capacitance") * p("row_swing") ** 2;
    expect(p("row_pump_stages")).toBeGreaterThan(0);
    // 3.3 V of the input-output supply feed it.
    const taken = 3.3 * p("row_pump_input_current") * p("read_cycle");
    expect((charge + p("row_pump_read_energy")) / taken).toBeCloseTo(1, 9);
  });
});

describe("a whole die", () => {
  const keys = { cell: "sram-6t", technology: "cmos-180", capacity: "4 Mib", word: "16 bit" };
  const die = (pads: string | number) => quantitiesOf({ ...keys, die: { pads } });

  test("has a pad for each pin of the standard package of its interface, and few more", () => {
    // An asynchronous memory of 256 K by 16 in its standard package (JEDEC, 44 leads): 16 data, 18
    // address, 5 control, 4 supplies.
    const pads = die("auto")("pads_count");
    expect(pads).toBeGreaterThanOrEqual(16 + 18 + 5 + 4);
    expect(pads).toBeLessThan(1.5 * 44);
  });

  test("has the pads that a study states, each with its pitch by its depth", () => {
    expect(die(100)("pads_count")).toBe(100);
    expect(die(100)("all_pads_area")).toBeCloseTo(100 * 80e-6 * 200e-6, 15);
  });

  test("is larger, slower and hungrier than its macro by its own parts alone", () => {
    // Of spare lines as many as a die has of its own.
    const macro = quantitiesOf({ ...keys, spare_rows: 4, spare_columns: 4 });
    const whole = die("auto");
    const parts = ["pads", "die_interface", "die_test", "die_supplies", "die_rails", "die_edges"];
    const sum = (what: string) =>
      parts.reduce((total, part) => total + whole(`all_${part}_${what}`), 0);
    for (const [total, what] of [
      ["macro_area", "area"],
      ["transistors", "transistors"],
      ["active_read_energy", "read_energy"],
      ["standby_power", "leakage"],
    ] as const) {
      expect((whole(total) - macro(total)) / sum(what), total).toBeCloseTo(1, 9);
    }
    const delay = whole("pads_input_delay") + whole("pads_delay");
    expect((whole("read_latency") - macro("read_latency")) / delay).toBeCloseTo(1, 9);
  });

  test("has an edge of four sides of a square", () => {
    const q = die("auto");
    const side = q("die_edges_side");
    const around = (side + 2 * 40e-6) ** 2 - side ** 2;
    expect(q("all_die_edges_area") / around).toBeCloseTo(1, 12);
  });
});
