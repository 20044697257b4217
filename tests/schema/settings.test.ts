import { describe, expect, it } from "vitest";
import { TenfoldError } from "../../src/errors/problem.ts";
import { readStudy } from "../../src/schema/read-study.ts";
import { STUDY, TABLES } from "./tables.ts";

function withSet(...pairs: [path: string, value: string][]) {
  const set = pairs.map(([path, value]) => ({ path, value }));
  return readStudy(STUDY, "study.yaml", { tables: TABLES, set });
}

function problemOf(path: string, value: string) {
  try {
    withSet([path, value]);
  } catch (error) {
    if (error instanceof TenfoldError) return error.problems[0]!;
    throw error;
  }
  throw new Error("nothing was refused");
}

describe("settings of the command line", () => {
  it("stand in place of what the file says, or beside it", () => {
    const { designs } = withSet(
      ["designs.bare-crossbar.tile.rows", "512"],
      ["defaults.word", "64 bit"],
      ["/designs/static/tile/columns", "128"],
    );
    expect(designs["bare-crossbar"]!.tile).toEqual({ rows: 512, columns: 256, decks: 2 });
    expect(designs["static"]).toMatchObject({ word: 64, tile: { columns: 128 } });
  });

  it("turn a name into `from:` and a figure into its `value` when they go deeper", () => {
    const study = withSet(
      ["technology.supply", "1.1 V"],
      ["temperature.low", "0 degC"],
      ["temperature.high", "30 degC"],
    );
    expect(study.technology).toMatchObject({ from: "cmos-65", values: { supply: { value: 1.1 } } });
    expect(study.temperature).toMatchObject({ low: 273.15, value: 283.15, high: 303.15 });
  });

  it("the last one of a path wins", () => {
    expect(withSet(["seed", "2"], ["seed", "3"]).seed).toBe(3);
  });

  it.each([
    ["designs.static.tile.rows", "1.5", "not-whole", 29],
    ["designs.statc.word", "64 bit", "unknown-design", 1],
    ["designs.static.capacity", "1 Mohm", "wrong-dimension", 28],
    ["designs.static.colour", "red", "unknown-key", 1],
    ["seed", "[1", "yaml-syntax", 11],
    ["seed", "*x", "yaml-alias", 9],
  ])("%s=%s is refused as %s, marked in the setting", (path, value, code, column) => {
    const problem = problemOf(path, value);
    expect(problem.code).toBe(code);
    expect(problem.place).toMatchObject({ file: "--set", line: 1, column });
  });

  it("an empty step of a path is refused", () => {
    expect(problemOf("designs..word", "64 bit").code).toBe("bad-name");
  });
});
