import { describe, expect, test } from "vitest";
import {
  assemble,
  collectTrees,
  parseFormula,
  parserFrom,
  valuesOf,
} from "../../src/formulas/index.ts";
import * as circuits from "./fixtures/circuits.ts";

const { GIVEN_QUANTITIES, GIVEN_VALUES, INSTANCES } = circuits;
const table = collectTrees(
  INSTANCES.map(({ of }) => of),
  parseFormula,
);

describe("formulas parsed ahead of time", () => {
  test("survive JSON and give the same program and the same bits", () => {
    const stored = JSON.parse(JSON.stringify(table));
    const prepared = assemble(INSTANCES, GIVEN_QUANTITIES, parserFrom(stored));
    const parsed = assemble(INSTANCES, GIVEN_QUANTITIES, parseFormula);
    expect(prepared.steps).toEqual(parsed.steps);
    expect([...valuesOf(prepared, GIVEN_VALUES)]).toEqual([...valuesOf(parsed, GIVEN_VALUES)]);
  });

  test("hold each text once", () => {
    const texts = [circuits.strip, circuits.device, circuits.chain, circuits.energy, circuits.noise]
      .flatMap(({ formulas }) => Object.values(formulas))
      .map(({ formula }) => formula);
    expect(Object.keys(table).sort()).toEqual([...new Set(texts)].sort());
  });

  test(
    "fail loudly for a text that was not prepared, unless there is a fallback, asked " + "once",
    () => {
      expect(() => parserFrom(table)("a + b")).toThrow(/formula-not-prepared/);
      expect(() => parserFrom(table)("constructor")).toThrow(/formula-not-prepared/);
      let asked = 0;
      const parse = parserFrom(table, (text) => {
        asked++;
        return parseFormula(text);
      });
      expect(parse("a + b")).toEqual(parseFormula("a + b"));
      expect(parse("a + b")).toBe(parse("a + b"));
      expect(asked).toBe(1);
    },
  );
});
