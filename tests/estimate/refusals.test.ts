import { describe, expect, test } from "vitest";
import { TenfoldError } from "../../src/errors/problem.ts";
import { resolveDesign } from "../../src/estimate/design.ts";
import { parseFormula } from "../../src/formulas/parse.ts";
import { estimateStudy } from "../../src/studies/estimate.ts";
import { CATALOGUE, type Keys, modelOf, OXIDE_TRANSISTOR, quantitiesOf, studyOf } from "./study.ts";

/** Code and JSON pointer of what a design is refused for; the place is always known. */
function refusal(keys: Keys): string[] {
  try {
    modelOf(keys);
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    return error.problems.map(({ code, path, place }) => {
      expect(place?.line, `place of ${code}`).toBeGreaterThan(0);
      return `${code} ${path}`;
    });
  }
  return [];
}

describe("once names have a meaning", () => {
  test("a stated threshold above the technology's supply is refused where it is stated", () => {
    expect(refusal({ cell: "sram-6t", overrides: { threshold_voltage: "2 V" } })).toEqual([
      "supply-below-threshold /designs/one/overrides/threshold_voltage",
    ]);
  });

  test("a supply below the technology's threshold is refused where it is stated", () => {
    expect(refusal({ cell: "sram-6t", supply: "0.2 V" })).toEqual([
      "supply-below-threshold /designs/one/supply",
    ]);
  });

  test("decks of a selector that is only named, and turns out to be a transistor, are refused", () => {
    const cell = { switch: "oxide-bilayer", selector: "transistor" };
    expect(refusal({ cell, tile: { decks: 2 } })).toEqual([
      "decks-with-transistor /designs/one/tile/decks",
    ]);
  });

  test("an off resistance below the catalogue's on resistance is refused", () => {
    const device = { from: "oxide-bilayer", off_resistance: "1 kohm" };
    expect(refusal({ cell: { ...OXIDE_TRANSISTOR, switch: device } })[0]).toContain("off-below-on");
  });

  test("columns that are no whole number of groups are refused", () => {
    expect(refusal({ cell: "sram-6t", tile: { columns: 128, column_share: 12 } })).toEqual([
      "not-whole /designs/one/tile/column_share",
    ]);
  });

  test("a bank with fewer tiles than an access wakes is refused, one with as many is not", () => {
    // 128 columns at 8 to an amplifier give 16 bits: 128 bits need 8 tiles of 8 Kib.
    const tile = { rows: 64, columns: 128, column_share: 8 };
    const wide = { cell: "sram-6t", word: "128 bit", tile };
    expect(refusal({ ...wide, capacity: "56 Kib" })).toEqual(["word-too-wide /designs/one/tile"]);
    expect(refusal({ ...wide, capacity: "64 Kib" })).toEqual([]);
    expect(refusal({ ...wide, capacity: "64 Kib", banks: 2 })).toEqual([
      "word-too-wide /designs/one/tile",
    ]);
  });
});

describe("by default", () => {
  const layout = (keys: Keys) => {
    const study = studyOf({ one: { cell: "sram-6t", word: "32 bit", ...keys } });
    const { organised } = resolveDesign(study, "one", CATALOGUE);
    return [organised.rows, organised.columns, organised.columnShare, organised.chosen.length];
  };

  test("a tile is as square as a bank allows, up to 256 lines, and one tile gives a word", () => {
    expect(layout({ capacity: "1 Mib" })).toEqual([256, 256, 8, 4]);
    expect(layout({ capacity: "4 Kib" })).toEqual([64, 64, 2, 4]);
    expect(layout({ capacity: "1 Kib" })).toEqual([32, 32, 1, 4]);
    expect(layout({ capacity: "4 Kib", word: "512 bit" })).toEqual([8, 512, 1, 4]);
    expect(layout({ capacity: "64 Kib", banks: 4 })).toEqual([128, 128, 4, 3]);
  });

  test("a row holds whole words with their check bits, and no amplifier stands idle", () => {
    // Hamming: 6 check bits correct one of 32 and a seventh detects two; (63, 51) corrects two, shortened to 32 + 12.
    for (const [error_correction, coded] of [
      ["single", 38],
      ["single-double", 39],
      [{ corrects: 2 }, 44],
    ] as const) {
      const [, columns, share] = layout({ capacity: "1 Mib", error_correction });
      const words = coded === 44 ? 4 : 8;
      expect(columns).toBe(coded * words);
      expect(columns! / share!).toBe(coded);
      const q = quantitiesOf({
        cell: "sram-6t",
        capacity: "1 Mib",
        word: "32 bit",
        error_correction,
      });
      expect(q("coded_word")).toBe(coded);
      expect(q("tiles_active")).toBe(1);
    }
  });

  test("what is stated of a tile is kept", () => {
    expect(layout({ capacity: "1 Mib", tile: { rows: 96, columns: 80 } })).toEqual([96, 80, 2, 2]);
  });
});

describe("cells that give their charge away", () => {
  const tile = { rows: 128, columns: 256, column_share: 8, lines: "whole" };
  const q = quantitiesOf({ cell: "dram-1t1c", tile });

  test("have an amplifier at every column and their multiplexer behind", () => {
    expect(q("sense_amplifiers")).toBe(256);
    expect(q("data_ports")).toBe(32);
    expect(q("all_output_multiplexer_transistors")).toBe(2 * 32 * 2 * 8);
    expect(q("all_write_driver_instances")).toBe(2 * 32);
    expect(() => q("column_multiplexer_transistors")).toThrow();
  });

  test("are sensed and restored in a write, and in a cycle", () => {
    expect(q("write_latency")).toBeGreaterThan(q("sense_delay") + q("write_time"));
    expect(q("read_cycle")).toBeGreaterThan(q("sense_delay") + q("write_time"));
    expect(q("rewrite_energy")).toBeCloseTo(256 * q("stored_energy"), 20);
  });

  test("boost their rows and leave columns and supply alone", () => {
    const { writeSupply, rowSupply } = modelOf({ cell: "dram-1t1c", tile }).structure.periphery;
    expect([writeSupply, rowSupply]).toEqual(["core", "input-output"]);
  });
});

describe("a stated offset", () => {
  const offset = (millivolt: number) => ({
    cell: "sram-6t",
    sense: { offset: `${millivolt} mV`, sigmas: "6" },
  });

  test("takes the place of the pair that is sized for the signal", () => {
    const q = quantitiesOf(offset(5));
    expect(q("sense_amplifier_offset")).toBeCloseTo(0.03, 12);
    // Area of the pair by the matching law: (A / sigma)^2 = (2.8 mV um / 5 mV)^2.
    const area = q("sense_amplifier_pair_width") * q("sense_amplifier_pair_length");
    expect(area / 0.3136e-12).toBeCloseTo(1, 9);
  });

  test("that exceeds the signal is a reason why a design does not work", () => {
    const study = studyOf({ one: { capacity: "4 Kib", word: "32 bit", ...offset(25) } });
    const [design] = estimateStudy(study, CATALOGUE, parseFormula).designs;
    expect(design!.broken.map(({ fails }) => fails)).toEqual([
      "the offset of the sense amplifiers exceeds the signal",
    ]);
    expect(design!.figures.size).toBe(0);
    expect(design!.breakdown.size).toBe(0);
  });
});

test("what a design states and nothing reads is said", () => {
  const keys = { cell: "sram-6t", overrides: { set_voltage: "1 V", bitline_swing: "0.1 V" } };
  expect(modelOf(keys).unread).toEqual(["set_voltage"]);
  expect(modelOf({ cell: OXIDE_TRANSISTOR, write: { verify_pulses: "2" } }).unread).toEqual([]);
});

test("one cell that needs more current than all writes may draw does not work", () => {
  const keys = { cell: OXIDE_TRANSISTOR, write: { current_limit: "50 uA" } };
  expect(quantitiesOf(keys)("write_current_left")).toBeLessThan(0);
});
