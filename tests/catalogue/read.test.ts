import { describe, expect, test } from "vitest";
import { readEntry } from "../../src/catalogue/index.ts";
import { TenfoldError } from "../../src/errors/problem.ts";

const HEAD = `format: tenfold.switch/1
name: thing
title: A thing
about: It claims nothing.
`;
const OF = { file: "switches/thing.yaml", kind: "switch", name: "thing" } as const;

function problemsOf(text: string) {
  try {
    readEntry(text, OF);
  } catch (error) {
    if (error instanceof TenfoldError) return error.problems;
    throw error;
  }
  return [];
}

describe("a catalogue file", () => {
  test("is read into SI with its range, source, basis and key", () => {
    const entry = readEntry(
      `${HEAD}values:
  on_resistance: {value: 6 kohm, low: 1 kohm, high: 20 kohm, source: dic, basis: read, note: x}
`,
      OF,
    );
    expect(entry.values["on_resistance"]).toEqual({
      name: "on_resistance",
      unit: "ohm",
      value: 6000,
      low: 1000,
      high: 20000,
      distribution: "two-piece lognormal",
      source: "dic",
      basis: "read",
      note: "x",
      key: "switch/thing/on_resistance",
    });
  });

  test("reports every mistake at once, each at its line", () => {
    const problems = problemsOf(`${HEAD}values:
  on_resistanze: {value: 6 kohm, low: 1 kohm, high: 20 kohm, source: dic, basis: read}
  off_resistance: {value: 6 V, low: 1 kohm, high: 20 kohm, source: dic, basis: read}
  read_voltage: {value: 1 V, low: 2 V, high: 3 V, source: dic, basis: read}
colour: red
`);
    expect(problems.map(({ code, place }) => [code, place?.line])).toEqual([
      ["unknown-key", 6],
      ["wrong-dimension", 7],
      ["bad-spread", 8],
      ["unknown-key", 9],
    ]);
    expect(problems[0]!.nearest).toBe("on_resistance");
  });

  test("must name a source with every value", () => {
    const [problem] = problemsOf(`${HEAD}values:
  read_voltage: {value: 1 V, low: 1 V, high: 1 V, basis: read}
`);
    expect(problem).toMatchObject({ code: "missing-key", place: { line: 6 } });
  });

  test("of a user need not: the file itself is the source then", () => {
    const entry = readEntry(`${HEAD}values:\n  read_voltage: 1 V\n`, {
      file: "mine.yaml",
      source: "mine.yaml",
    });
    expect(entry.values["read_voltage"]).toMatchObject({ source: "mine.yaml", basis: "user" });
  });

  test("is refused where its kind, name or selector kind isn't what it must be", () => {
    expect(problemsOf(HEAD.replace("switch/1", "selector/1"))[0]).toMatchObject({
      code: "unknown-format",
      expected: "tenfold.switch/1",
      place: { line: 1 },
    });
    expect(() => readEntry("format: letter\n", { file: "thing.yaml" })).toThrow("unknown-format");
    expect(problemsOf(HEAD.replace("name: thing", "name: other"))[0]?.code).toBe("bad-name");
    const selector = HEAD.replace("switch/1", "selector/1");
    expect(() => readEntry(`${selector}kind: magic\n`, { file: "thing.yaml" })).toThrow(
      "unknown-word",
    );
    expect(() => readEntry(selector, { file: "thing.yaml" })).toThrow("missing-key");
  });

  test("without values of its own may be laid over another entry", () => {
    const entry = readEntry(`${HEAD}from: oxide-bilayer\n`, OF);
    expect(entry.from).toBe("oxide-bilayer");
    expect(entry.values).toEqual({});
  });
});
