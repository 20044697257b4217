import { describe, expect, test } from "vitest";
import { checkSheet } from "../../../src/formulas/index.ts";
import { accessFor } from "../../../src/models/periphery/access.ts";
import { defaults } from "../../../src/models/periphery/defaults.ts";
import { pumpOutput } from "../../../src/models/periphery/macro/pump.ts";
import { partsFor, sharedSheets } from "../../../src/models/periphery/periphery.ts";
import { decoderAlternatives } from "../../../src/models/periphery/tile/decoder.ts";
import { evaluate } from "./fixture.ts";
import { instancesOf, STRUCTURES } from "./structures.ts";

const sheets = new Map(
  [
    ...STRUCTURES.flatMap(([, structure]) => [
      ...partsFor(structure).map((part) => part.sheet),
      ...sharedSheets(structure).map((one) => one.of),
      accessFor(structure),
    ]),
    pumpOutput,
    decoderAlternatives,
  ].map((sheet) => [`${sheet.name}: ${sheet.title}`, sheet]),
);

describe("the sheets of the periphery", () => {
  for (const [name, sheet] of sheets) {
    test(`${name}: every formula parses and has the dimension of its unit`, () => {
      expect(checkSheet(sheet)).toEqual([]);
    });
  }

  test("each part gives transistors, area, leakage and both energies", () => {
    for (const [, structure] of STRUCTURES) {
      for (const { sheet, prefix } of partsFor(structure)) {
        const names = Object.keys(sheet.kind === "sheet" ? sheet.formulas : {});
        for (const wanted of ["transistors", "area", "leakage", "read_energy", "write_energy"]) {
          expect(names, prefix).toContain(wanted);
        }
      }
    }
  });

  test("each parameter has a unit, a source, a meaning, and a range around its value", () => {
    for (const { name, unit, value, low, high, source, meaning } of defaults) {
      for (const text of [name, unit, source, meaning]) expect(text, name).not.toBe("");
      expect(low, name).toBeLessThanOrEqual(value);
      expect(high, name).toBeGreaterThanOrEqual(value);
    }
    expect(new Set(defaults.map(({ name }) => name)).size).toBe(defaults.length);
  });
});

describe("a whole periphery", () => {
  for (const [name, structure] of STRUCTURES) {
    test(`${name}: assembles, and no count, area, energy, leakage or delay is negative`, () => {
      const several = structure.levels === undefined ? {} : { bits_per_cell: 2 };
      const spares = { spare_rows: 4, spare_columns: 8 };
      const values = evaluate(instancesOf(structure), { ...spares, ...several });
      for (const { prefix } of partsFor(structure)) {
        for (const quantity of ["transistors", "area", "leakage", "read_energy", "write_energy"]) {
          expect(values[`${prefix}${quantity}`], `${prefix}${quantity}`).toBeGreaterThanOrEqual(0);
        }
        // Global columns are wires above the arrays.
        if (prefix !== "global_column_") {
          expect(values[`${prefix}area`], prefix).toBeGreaterThan(0);
        }
        expect(values[`${prefix}delay`] ?? 0, prefix).toBeGreaterThanOrEqual(0);
      }
      expect(values["read_latency"]).toBeGreaterThan(0);
      expect(values["write_latency"]).toBeGreaterThan(50e-9);
    });
  }

  test("a tile of one row and one column needs no decoder", () => {
    const [, structure] = STRUCTURES[0]!;
    const small = { rows: 1, columns: 1, column_share: 1, sense_amplifiers: 1 };
    const values = evaluate(instancesOf(structure), small);
    expect(values["row_decoder_transistors"]).toBe(0);
    expect(values["row_decoder_delay"]).toBe(0);
    expect(values["column_multiplexer_transistors"]).toBe(0);
  });
});
