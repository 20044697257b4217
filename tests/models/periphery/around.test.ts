/** Parts around the cells, counted and sized by hand from the fixture's figures. */
import { describe, expect, it } from "vitest";
import { partsFor, sharedSheets } from "../../../src/models/periphery/periphery.ts";
import { evaluate } from "./fixture.ts";
import { instancesOf, STRUCTURES } from "./structures.ts";

const structure = (name: string) => STRUCTURES.find(([one]) => one === name)![1];

/** Sizes of the inverters of a chain, the last an eighth of its load, the first the smallest. */
function chainTo(load: number, smallest: number): number[] {
  const sizes: number[] = [];
  for (let size = load / 8; size > smallest * (1 + 1e-12); size /= 8) sizes.unshift(size);
  return [smallest, ...sizes];
}
const sum = (of: readonly number[]) => of.reduce((all, one) => all + one, 0);

describe("logic by count and its clock", () => {
  // Source: textbook circuit theory; two fifths of what logic switches are wires (see `logic-wires`).
  it("a pair of logic devices has the average width and its wires", () => {
    const shared = sharedSheets(structure("static cells")).filter(
      ({ of }) => of.name === "logic_energy",
    );
    const pair = evaluate(shared)["logic_pair_energy"]!;
    // Twice the smallest width of 0.12 um: 1.22 fJ of gates and drains, 0.81 fJ of wires.
    expect(pair / (1.22e-15 + (1.22e-15 * 2) / 3)).toBeCloseTo(1, 12);
  });

  it("a clock is two wires of a millimetre and a chain that drives them, charged once", () => {
    const v = evaluate(instancesOf(structure("static cells")), { macro_side: 1e-3 });
    const wires = 2 * 0.1945e-9 * 1e-3;
    // 15 address bits of 32768 words, two of the command, 32 bits in and 32 out; 4 banks.
    const load = wires + (15 + 2 + 64 + 4) * 0.338e-15;
    const chain = chainTo(load, 0.338e-15);
    expect(v["clock_transistors"]).toBe(2 * chain.length);
    const width = sum(chain) / 1e-9;
    const energy = wires + 4 * 0.338e-15 + width * 1.8e-9;
    expect(v["clock_read_energy"]! / energy).toBeCloseTo(1, 9);
    expect(v["clock_write_energy"]).toBe(v["clock_read_energy"]);
    expect(v["clock_leakage"]! / ((width / 2) * 0.05)).toBeCloseTo(1, 9);
  });
});

describe("source lines of cells that are written with two polarities", () => {
  const name = "cells with a transistor at the core supply, one amplifier for each column";
  const at = (replaced: Readonly<Record<string, number>>) =>
    evaluate(instancesOf(structure(name)), { column_share: 1, write_voltage: 0.9, ...replaced });

  it("a column of the core supply has a pair of 540 nm, a holder of 1.08 um and a share of a select line", () => {
    const v = at({});
    // Ohm's law: 100 uA may lose 5 % of 1 V, 30 uA 5 % of 0.15 V, with 0.27 kohm um.
    const pair = (0.27e-3 * 100e-6) / (0.05 * 1);
    const hold = (0.27e-3 * 30e-6) / (0.05 * 0.15);
    expect(v["source_line_switch_width"]! / pair).toBeCloseTo(1, 12);
    expect(v["source_line_hold_width"]! / hold).toBeCloseTo(1, 12);
    const load = 0.1945e-9 * 256e-6 + 32 * (2 * pair + hold) * 1e-9;
    const chain = chainTo(load, 0.338e-15);
    expect(v["source_line_transistors"]).toBe(256 * 3 + 2 * chain.length);
    const select = load + (sum(chain) / 1e-9) * 1.8e-9;
    expect(v["source_line_write_energy"]! / select).toBeCloseTo(1, 9);
    // Each device beside four gate pitches of isolation, wells and wires two and a half times as much.
    const room = 4 * 220e-9 * 286e-9;
    const lines = 256 * (2 * pair + hold) * 286e-9 + 768 * room;
    const drivers = (sum(chain) / 1e-9) * 286e-9 + 2 * chain.length * room;
    expect(v["source_line_area"]! / (2.5 * lines + drivers)).toBeCloseTo(1, 9);
  });

  it("neighbours that share a line have half as many, and one polarity has none", () => {
    const [own, shared, none] = [
      at({}),
      at({ source_lines_per_cell: 0.5 }),
      at({ write_polarities: 1 }),
    ];
    expect(shared["source_line_lines"]! / own["source_line_lines"]!).toBe(0.5);
    for (const what of ["transistors", "area", "leakage", "write_energy"])
      expect(none[`source_line_${what}`], what).toBe(0);
  });

  it("stands only where columns have source lines", () => {
    const prefixes = (one: string) => partsFor(structure(one)).map(({ prefix }) => prefix);
    expect(prefixes(name)).toContain("source_line_");
    for (const one of ["static cells", "crossbar at one half", "field-written cells"])
      expect(prefixes(one), one).not.toContain("source_line_");
  });
});

describe("lines whose field writes", () => {
  const at = (replaced: Readonly<Record<string, number>> = {}) =>
    evaluate(instancesOf(structure("field-written cells")), replaced);

  it("carry 6 mA at half of what three quarters of the saturation current are: 16 um", () => {
    const width = 6e-3 / (0.5 * 0.75 * 1000);
    expect(at()["row_digit_line_switch_width"]! / width).toBeCloseTo(1, 12);
    expect(at()["bit_line_return_switch_width"]! / width).toBeCloseTo(1, 12);
  });

  it("have two switches at the far end of a bit line, one of which works, and one where cells toggle", () => {
    const [both, toggling] = [at(), at({ field_polarities: 1 })];
    for (const what of ["transistors", "width", "area", "leakage"]) {
      const name = `bit_line_return_${what}`;
      expect(both[name]! / toggling[name]!, what).toBeCloseTo(2, 12);
    }
    for (const name of ["bit_line_return_write_energy", "row_digit_line_area"])
      expect(both[name], name).toBe(toggling[name]);
  });
});

describe("rows that may rise slowly", () => {
  const at = (row_time: number) =>
    evaluate(instancesOf(structure("cells with array transistors, lines divided, rows pumped")), {
      row_time,
    });

  it("have a device through which the row is three quarters up in the stated time", () => {
    for (const time of [2e-9, 5e-9]) {
      const v = at(time);
      const resistance = 6e-3 / 0.55 / v["row_driver_pull_width"]!;
      // One minus a quarter is two halvings.
      expect(1 - Math.exp(-time / (resistance * 200e-15))).toBeCloseTo(0.75, 12);
    }
    expect(at(5e-9)["row_driver_area"]).toBeLessThan(at(2e-9)["row_driver_area"]!);
  });

  it("have the least device from a few nanoseconds on, and the one of before where nothing is stated", () => {
    expect(at(1e-7)["row_driver_pull_width"]).toBe(0.3e-6);
    expect(at(1e-6)["row_driver_area"]).toBe(at(1e-7)["row_driver_area"]);
    expect(at(0)["row_driver_pull_width"]! / (200e-15 / (8 * 1.7e-9))).toBeCloseTo(1, 12);
  });
});

describe("an idle amplifier", () => {
  it("leaks through two paths of devices in series, each through its narrowest", () => {
    const [, current] = STRUCTURES.find(([one]) => one === "cells with a transistor, pumped")!;
    for (const signal_current of [25e-6, 5e-6]) {
      const v = evaluate(instancesOf(current), { signal_current });
      const [pair, latch] = [v["sense_amplifier_pair_width"]!, v["sense_amplifier_latch_width"]!];
      const leak = v["sense_amplifier_leakage"]! - (v["sense_amplifier_transistors"]! - 6) * 6e-9;
      expect(leak / (2 * Math.min(pair, latch) * 0.05)).toBeCloseTo(1, 9);
    }
  });
});

describe("writes of a word in a crossbar", () => {
  const at = (replaced: Readonly<Record<string, number>>) =>
    evaluate(instancesOf(structure("crossbar at one half")), replaced);

  it("take a set pulse and a reset pulse where cells of one row are written together", () => {
    expect(at({})["polarity_share"]).toBe(1.5);
    expect(at({ write_polarities: 1 })["polarity_share"]).toBe(1);
    // One cell at a time has its own polarity; of four groups of eight one may be of both: five pulses.
    expect(at({ groups: 32 })["polarity_share"]).toBe(1);
    expect(at({ groups: 4 })["polarity_share"]).toBe(1.125);
    const reads = 2 * (at({})["bit_line_delay"]! + at({})["sense_delay"]!);
    expect(at({})["pulse_time"]! / (75e-9 + reads)).toBeCloseTo(1, 12);
  });

  it("are one pulse of each polarity and no read where nothing is verified", () => {
    const v = at({ write_verified: 0 });
    expect(v["verified_share"]).toBe(0);
    // The fixture's write time has two pulses.
    expect(v["pulse_time"]! / (1.5 * 25e-9)).toBeCloseTo(1, 12);
  });
});
