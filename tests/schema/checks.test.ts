import { describe, expect, it } from "vitest";
import type { Parameter } from "../../src/quantities/parameter.ts";
import {
  checkOrganisation,
  checkSelector,
  checkStudySupply,
  checkSupply,
  checkSwitch,
} from "../../src/schema/checks.ts";

function figure(value: number, unit: string): Parameter {
  const spread = { value, low: value, high: value, distribution: "exact" } as const;
  return { name: "x", unit, ...spread, source: "a test", basis: "user", key: "x" };
}
const locate = (name: string) => ({ path: `/${name}` });
const ohm = (value: number) => figure(value, "ohm");
const volt = (value: number) => figure(value, "V");

describe("what no circuit can be", () => {
  it("equal resistances are refused, a ratio of 1.0001 is not", () => {
    const codes = (on: number, off: number) =>
      checkSwitch({ on_resistance: ohm(on), off_resistance: ohm(off) }, locate).map((p) => p.code);
    expect(codes(1e3, 1e3)).toEqual(["off-below-on"]);
    expect(codes(1e3, 999)).toEqual(["off-below-on"]);
    expect(codes(1e3, 1000.1)).toEqual([]);
    expect(checkSwitch({ on_resistance: ohm(1) }, locate)).toEqual([]);
    expect(checkSwitch({ on_off_ratio: figure(1, "1") }, locate)).toHaveLength(1);
    expect(checkSwitch({ on_off_ratio: figure(1.01, "1") }, locate)).toEqual([]);
  });

  it("a hold voltage equal to the threshold is allowed, one above is not", () => {
    const count = (hold: number) =>
      checkSelector({ threshold_voltage: volt(1), hold_voltage: volt(hold) }, locate).length;
    expect([count(0.5), count(1), count(1.001)]).toEqual([0, 0, 1]);
  });

  it("a supply at the threshold voltage is refused", () => {
    const count = (supply: number) => checkSupply(volt(supply), volt(0.4), locate).length;
    expect([count(0.3), count(0.4), count(0.41)]).toEqual([1, 1, 0]);
    expect(checkSupply(undefined, volt(0.4), locate)).toEqual([]);
  });

  it("a study's supply may be below the threshold, down to a fifth of a volt", () => {
    const count = (supply: number) => checkStudySupply(volt(supply), volt(0.4), locate).length;
    expect([count(0.19), count(0.2), count(0.21), count(0.3), count(1)]).toEqual([1, 1, 0, 0, 0]);
    // A threshold below that is the limit itself.
    expect(checkStudySupply(volt(0.15), volt(0.1), locate)).toEqual([]);
  });

  it("a row that just holds a word is allowed, with several bits to a cell too", () => {
    const codes = (columns: number, bits: number) =>
      checkOrganisation({ word: 32, columns, bits, transistors: false }, locate).map((p) => p.code);
    expect(codes(32, 1)).toEqual([]);
    expect(codes(31, 1)).toEqual(["word-too-wide"]);
    expect(codes(16, 2)).toEqual([]);
    expect(codes(15, 2)).toEqual(["word-too-wide"]);
  });

  it("`auto` is no reason to refuse", () => {
    const design = { word: 32, columns: "auto", column_share: "auto", transistors: true } as const;
    expect(checkOrganisation(design, locate)).toEqual([]);
  });

  it("a word fills the macro at most, and a whole number of words fills it", () => {
    const codes = (capacity: number, word: number) =>
      checkOrganisation({ capacity, word, transistors: false }, locate).map((p) => p.code);
    expect(codes(32, 32)).toEqual([]);
    expect(codes(31, 32)).toEqual(["word-too-wide"]);
    expect(codes(33, 32)).toEqual(["not-whole"]);
  });

  it("decks are refused for cells with a transistor only", () => {
    const count = (decks: number, transistors: boolean) =>
      checkOrganisation({ decks, transistors }, locate).length;
    expect([count(1, true), count(2, true), count(2, false)]).toEqual([0, 1, 0]);
  });
});
