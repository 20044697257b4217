import { describe, expect, it } from "vitest";
import { type Problem, TenfoldError } from "../../src/errors/problem.ts";
import { problemsText } from "../../src/errors/wording.ts";
import type { Parameter } from "../../src/quantities/parameter.ts";
import { group, whole } from "../../src/schema/define.ts";
import { readStudy } from "../../src/schema/read-study.ts";
import { read, STUDY, TABLES } from "./tables.ts";

function problemsOf(text: string): readonly Problem[] {
  try {
    read(text);
  } catch (error) {
    if (error instanceof TenfoldError) return error.problems;
    throw error;
  }
  return [];
}

const places = (text: string) =>
  problemsOf(text).map((p) => `${p.code}@${p.place?.line}:${p.place?.column}`);
const withOne = (line: string) =>
  `title: t\ndesigns:\n  one:\n    cell: sram-6t\n` +
  `    capacity: 1 Mib\n    word: 32 bit\n    ${line}\n`;

describe("a good study", () => {
  const study = read(STUDY);

  it("is read into SI and bits", () => {
    expect(study.temperature?.value).toBe(283.15);
    expect(study.designs["static"]).toMatchObject({
      capacity: 2 ** 20,
      word: 32,
      cell: { baseline: { from: "sram-6t" } },
    });
    expect(study.designs["bare-crossbar"]!.cell!.switch!.values["on_resistance"]).toEqual({
      name: "on_resistance",
      unit: "ohm",
      value: 1e5,
      low: 6e4,
      high: 1.6e5,
      distribution: "two-piece lognormal",
      source: "laboratory notebook",
      basis: "user",
      key: "study:/designs/bare-crossbar/cell/switch/on_resistance",
    });
  });

  it("keeps the order of its designs and fills in seed, samples and coverage", () => {
    expect(Object.keys(study.designs)).toEqual(["static", "one-transistor", "bare-crossbar"]);
    expect([study.seed, study.samples, study.coverage]).toEqual([1, 1024, 0.95]);
  });

  it("finds the place of a value in design, defaults or top, and of what is missing", () => {
    const place = (path: string, of?: "key" | "value") => {
      const { line, column, length } = study.place(path, of);
      return [line, column, length];
    };
    expect(place("/designs/bare-crossbar/tile/decks")).toEqual([24, 44, 1]);
    expect(place("/designs/bare-crossbar/tile/decks", "key")).toEqual([24, 37, 5]);
    expect(place("/designs/static/word")).toEqual([8, 9, 6]);
    expect(place("/designs/static/technology")).toEqual([3, 13, 7]);
    expect(place("/designs/static/tile/rows")).toEqual([10, 3, 6]);
    expect(place("study:/designs/bare-crossbar/cell/switch/on_resistance")[0]).toBe(21);
  });

  it("merges parts over the defaults key by key, and replaces the rest", () => {
    const text = STUDY.replace(
      "  word: 32 bit",
      "  word: 32 bit\n  tile: {rows: 128, column_share: 8}\n  bias: floating",
    );
    const designs = read(text).designs;
    expect(designs["bare-crossbar"]).toMatchObject({
      bias: "one-half",
      tile: { rows: 256, columns: 256, decks: 2, column_share: 8 },
    });
    expect(designs["static"]).toMatchObject({
      bias: "floating",
      tile: { rows: 128, column_share: 8 },
    });
  });

  it("lets `auto` stand for what the tool may choose", () => {
    expect(
      read(withOne("tile: {rows: auto, columns: auto, column_share: auto}")).designs["one"]!.tile,
    ).toEqual({
      rows: "auto",
      columns: "auto",
      column_share: "auto",
    });
  });

  it("reads a section by the definition that its module gives", () => {
    const sections = { sweep: group<{ steps: number }>("a sweep", { steps: whole("steps") }) };
    const text = `${STUDY}sweep: {steps: 5}\n`;
    const study = readStudy(text, "f", { tables: TABLES, sections });
    expect(study.sweep).toEqual({ steps: 5 });
    const wrong = () =>
      readStudy(text.replace("steps: 5", "steps: 5.5"), "f", { tables: TABLES, sections });
    expect(wrong).toThrow(/not-whole/);
  });

  it("keeps sections that no module has claimed as located trees", () => {
    const { claims } = read(`${STUDY}claims:\n  - one switch replaces ten transistors\n`);
    expect(claims).toMatchObject({
      path: "/claims",
      value: ["one switch replaces ten transistors"],
    });
  });
});

describe("mistakes", () => {
  it("are all reported in one run, in file order", async () => {
    const bad = STUDY.replace("10 degC", "10 volt")
      .replace("baseline: static", "baselin: static")
      .replace("decks: 2", "decks: 2.5, colums: 3")
      .replace("low: 60", "low: 600")
      .replace("one-half", "onehalf")
      .replace("1 Mib", "1048576")
      .replace("kind: transistor", "kind: tranzistor")
      .replace("sram-6t", "[1]");
    await expect(problemsText(problemsOf(bad))).toMatchFileSnapshot("golden/mistakes.txt");
  });

  it.each([
    [
      "off resistance below on",
      STUDY.replace("source: laboratory notebook}", "source: x}\n        off_resistance: 2 kohm"),
      "off-below-on@22:25",
    ],
    [
      "an on/off ratio of one",
      withOne("").replace("sram-6t", "{switch: {on_resistance: 1 kohm, on_off_ratio: 1}}"),
      "off-below-on@4:58",
    ],
    [
      "a word wider than a row",
      STUDY.replace("32 bit", "256 bit").replace(
        "rows: 256, columns: 256",
        "rows: 256, columns: 128",
      ),
      "word-too-wide@24:32",
    ],
    ["a word wider than the macro", withOne("").replace("1 Mib", "16 bit"), "word-too-wide@6:11"],
    [
      "a capacity of a broken number of words",
      withOne("").replace("1 Mib", "1000 bit"),
      "not-whole@5:15",
    ],
    [
      "supply below threshold",
      withOne("supply: 0.2 V\n    overrides: {threshold_voltage: 0.4 V}"),
      "supply-below-threshold@7:13",
    ],
    [
      "decks over transistors",
      STUDY.replace("rows: 512,", "rows: 512, decks: 2,"),
      "decks-with-transistor@16:30",
    ],
    ["a negative voltage", withOne("supply: -1 V"), "out-of-range@7:13"],
    ["a voltage of zero", withOne("supply: 0 V"), "out-of-range@7:13"],
    ["an infinite voltage", withOne("supply: .inf"), "number-out-of-range@7:13"],
    ["a huge voltage", withOne("supply: 1e999 V"), "number-out-of-range@7:13"],
    ["low above value", withOne("supply: {value: 1 V, low: 2 V, high: 3 V}"), "bad-spread@7:31"],
    [
      "high below value",
      withOne("supply: {value: 1 V, low: 0.5 V, high: 0.7 V}"),
      "bad-spread@7:44",
    ],
    ["low without high", withOne("supply: {value: 1 V, low: 0.5 V}"), "bad-spread@7:31"],
    ["zero rows", withOne("tile: {rows: 0}"), "out-of-range@7:18"],
    ["half a row", withOne("tile: {rows: 1.5}"), "not-whole@7:18"],
    ["negative rows", withOne("tile: {rows: -4}"), "out-of-range@7:18"],
    ["a share above one", withOne("periphery_beneath: 120 %"), "out-of-range@7:24"],
    ["a temperature below absolute zero", withOne("temperature: -300 degC"), "out-of-range@7:18"],
    [
      "too many columns to a sense amplifier",
      withOne("tile: {columns: 64, column_share: 128}"),
      "out-of-range@7:39",
    ],
    [
      "hold above threshold",
      withOne("").replace(
        "sram-6t",
        "{switch: x, selector: {threshold_voltage: 1 V, hold_voltage: 2 V}}",
      ),
      "out-of-range@4:72",
    ],
    [
      "a bare number where bits are needed",
      withOne("").replace("1 Mib", "1048576"),
      "unit-missing@5:15",
    ],
    ["a wrong dimension", withOne("supply: 3 ohm"), "wrong-dimension@7:13"],
    [
      "a baseline that is no design",
      withOne("").replace("title: t", "title: t\nbaseline: two"),
      "unknown-design@2:11",
    ],
    [
      "an all-CMOS cell with a switch",
      withOne("").replace("sram-6t", "{baseline: sram-6t, switch: x}"),
      "conflicting-keys@4:39",
    ],
    ["a selector alone", withOne("").replace("sram-6t", "{selector: none}"), "missing-key@4:5"],
    [
      "a design without a cell",
      withOne("").replace("cell: sram-6t", "title: x"),
      "missing-key@3:3",
    ],
    ["no title", withOne("").replace("title: t\n", ""), "missing-key@1:1"],
    ["an empty design", "title: t\ndesigns:\n  one:\n", "wrong-kind@3:3"],
    ["no design", "title: t\ndesigns: {}\n", "wrong-kind@2:10"],
    ["a prototype key", withOne("__proto__: {a: 1}"), "unknown-key@7:5"],
    ["a design called __proto__", withOne("").replace("  one:", "  __proto__:"), "bad-name@3:3"],
  ])("%s is refused at its place", (_, text, expected) => {
    expect(places(text)).toEqual([expected]);
  });
});

describe("the forms of a value", () => {
  const supply = (form: string): Parameter =>
    read(withOne(`supply: ${form}`)).designs["one"]!.supply!;
  const spread = (form: string) => {
    const { value, low, high, distribution } = supply(form);
    return [value, low, high, distribution];
  };

  it("text with a unit is exact, said by this study", () => {
    expect(supply("1.2 V")).toMatchObject({
      value: 1.2,
      low: 1.2,
      high: 1.2,
      distribution: "exact",
      source: "this study",
      basis: "user",
    });
  });

  it("low and high of what is positive by nature make a two-piece lognormal", () => {
    expect(spread("{value: 1.2 V, low: 1 V, high: 1.5 V}")).toEqual([
      1.2,
      1,
      1.5,
      "two-piece lognormal",
    ]);
  });

  it("low and high of what may be negative make a two-piece normal", () => {
    const { temperature } = read(
      withOne("temperature: {value: 20 degC, low: -10 degC, high: 60 degC}"),
    ).designs["one"]!;
    expect(temperature).toMatchObject({
      value: 293.15,
      low: 263.15,
      high: 333.15,
      distribution: "two-piece normal",
    });
  });

  // exp(±1.959964 × 0.1) by hand: e^0.2 × e^-0.0040036 = 1.221403 × 0.996004 = 1.21652, its inverse
  // 0.82202.
  it("sigma of a positive figure is that of its logarithm", () => {
    const p = supply("{value: 1 V, sigma: 0.1}");
    expect(p.distribution).toBe("lognormal");
    expect(p.high).toBeCloseTo(1.21652, 5);
    expect(p.low).toBeCloseTo(0.82202, 5);
  });

  it("sigma of a temperature has its unit", () => {
    const { temperature } = read(withOne("temperature: {value: 300 K, sigma: 5 K}")).designs[
      "one"
    ]!;
    expect(temperature).toMatchObject({ distribution: "normal", sigma: 5 });
    expect(temperature!.high).toBeCloseTo(309.8, 2);
  });

  it("samples are a measured distribution with their median", () => {
    expect(supply("{samples: [1.1 V, 1.3 V, 1.2 V]}")).toMatchObject({
      value: 1.2,
      low: 1.1,
      high: 1.3,
      distribution: "measured",
      samples: [1.1, 1.3, 1.2],
    });
  });

  it.each(["rectangular", "triangular", "two-point"])("%s takes low and high as bounds", (kind) => {
    expect(spread(`{value: 1.2 V, low: 1 V, high: 1.5 V, distribution: ${kind}}`)).toEqual([
      1.2,
      1,
      1.5,
      kind,
    ]);
  });

  it.each([
    "{value: 1 V, distribution: rectangular}",
    "{value: 1 V, distribution: normal, low: 0.5 V, high: 2 V}",
    "{value: 1 V, distribution: exact, low: 0.5 V, high: 2 V}",
    "{value: 1 V, sigma: 0.1, low: 0.5 V, high: 2 V}",
    "{value: 1 V, samples: [1 V], sigma: 0.1}",
    "{value: 1 V, distribution: measured}",
    "{value: 1 V, distribution: lognormal}",
  ])("%s is no distribution", (form) => {
    expect(problemsOf(withOne(`supply: ${form}`)).map((p) => p.code)).toEqual(["bad-spread"]);
  });

  it.each([
    ["{low: 1 V, high: 2 V}", "missing-key"],
    ["{value: 1 V, lo: 0.5 V}", "unknown-key"],
    ["{value: 1 V, distribution: gaussian}", "unknown-word"],
    ["{value: 1 V, sigma: -0.1}", "out-of-range"],
    ["{value: 1 V, basis: hearsay}", "unknown-word"],
    ["[1 V]", "wrong-kind"],
    ["true", "wrong-kind"],
    ["auto", "bad-number"],
    ["", "wrong-kind"],
    ["{value: 1 V, samples: []}", "wrong-kind"],
  ])("%s is refused as %s", (form, code) => {
    expect(problemsOf(withOne(`supply: ${form}`)).map((p) => p.code)).toEqual([code]);
  });
});
