import { load } from "js-yaml";
import { describe, expect, test } from "vitest";
import { figureText, withFigure } from "../../src/explorer/text/edit.ts";

/** Lines that one text has and the other hasn't. */
function changed(before: string, after: string): { gone: string[]; come: string[] } {
  const [a, b] = [before.split("\n"), after.split("\n")];
  return { gone: a.filter((x) => !b.includes(x)), come: b.filter((x) => !a.includes(x)) };
}

const STUDY = `# a study
title: 'It''s: "one"'   # of two
temperature: {value: 10 degC, low: 2 degC, high: 22 degC, source: "a } b", basis: user} # cold
defaults:
  capacity: 1 Mib # enough
  word: 32 bit

designs:
  static:
    cell: sram-6t # six
    tile: {rows: 256,
      columns: 256}
  hybrid:
    cell:
      switch: oxide-bilayer
      selector: {kind: transistor}
    overrides: {}
  last:
    cell: {switch: {from: metal-bridge, on_resistance: {value: 1 kohm}}}
    tile: auto`;

const RANGE = { low: "1 kohm", high: "9 kohm" };

describe("a value in a study's text", () => {
  const at = (path: readonly string[], value: string, range?: typeof RANGE) => {
    const text = withFigure(STUDY, path, value, range);
    return { ...changed(STUDY, text), read: load(text) as Record<string, never>, text };
  };

  test("is replaced where it stands, with all of its line kept, comments too", () => {
    expect(at(["defaults", "capacity"], "2 Mib")).toMatchObject({
      gone: ["  capacity: 1 Mib # enough"],
      come: ["  capacity: 2 Mib # enough"],
    });
  });

  test("in long form keeps its range, source and basis, and no range is added", () => {
    const line = STUDY.split("\n")[2]!;
    expect(at(["temperature"], "4 degC", RANGE)).toMatchObject({
      gone: [line],
      come: [line.replace("10 degC", "4 degC")],
    });
  });

  test("is replaced in braces that go over lines", () => {
    expect(at(["designs", "static", "tile", "columns"], "512").come).toEqual([
      "      columns: 512}",
    ]);
  });

  test("is added in braces, also in empty ones", () => {
    expect(at(["designs", "static", "tile", "column_share"], "8").read).toMatchObject({
      designs: { static: { tile: { rows: 256, columns: 256, column_share: 8 } } },
    });
    expect(at(["designs", "hybrid", "overrides", "x"], "3", RANGE).come).toEqual([
      "    overrides: {x: {value: 3, low: 1 kohm, high: 9 kohm}}",
    ]);
  });

  test("is added behind quotes that hold quotes and brackets", () => {
    const text = `designs: {a: {note: 'it''s } odd', more: "\\"}"}}\n`;
    expect(load(withFigure(text, ["designs", "a", "x"], "3"))).toEqual({
      designs: { a: { note: "it's } odd", more: '"}', x: 3 } },
    });
  });

  test("is added behind the last line of its mapping, as far in as its neighbours", () => {
    const { gone, come, read } = at(["defaults", "overrides", "x"], "3");
    expect(gone).toEqual([]);
    expect(come).toEqual(["  overrides:", "    x: 3"]);
    expect(read).toMatchObject({ defaults: { word: "32 bit", overrides: { x: 3 } } });
  });

  test("is laid over a name, which becomes what it starts from", () => {
    expect(
      at(["designs", "hybrid", "cell", "switch", "on_resistance"], "3 kohm", RANGE).come,
    ).toEqual([
      "      switch: {from: oxide-bilayer, on_resistance: {value: 3 kohm, low: 1 kohm, high: 9 kohm}}",
    ]);
    expect(at(["designs", "static", "cell", "baseline", "x"], "3").come).toEqual([
      "    cell: {baseline: {from: sram-6t, x: 3}} # six",
    ]);
    expect(at(["designs", "last", "tile", "rows"], "64").come).toEqual(["    tile: {rows: 64}"]);
  });

  test("is added at the end of a text without a last line break", () => {
    expect(at(["seed"], "3").read).toMatchObject({ seed: 3, designs: { last: { tile: "auto" } } });
  });

  test("deep in braces is replaced alone", () => {
    const path = ["designs", "last", "cell", "switch", "on_resistance"];
    expect(at(path, "2 kohm", RANGE).text).toBe(STUDY.replace("value: 1 kohm", "value: 2 kohm"));
    expect(figureText(STUDY, path)).toBe("1 kohm");
    expect(figureText(STUDY, ["designs", "last", "nothing"])).toBeUndefined();
  });

  test("behind a block of text is added below the block", () => {
    const text = "title: x\ndefaults:\n  note: >\n    two\n    lines\nabout: |\n  all\n";
    expect(load(withFigure(text, ["defaults", "word"], "8 bit"))).toEqual({
      title: "x",
      defaults: { note: "two lines\n", word: "8 bit" },
      about: "all\n",
    });
    expect(load(withFigure(text, ["seed"], "8"))).toMatchObject({ about: "all\n", seed: 8 });
  });

  test("in a text with the line breaks of Windows leaves it readable", () => {
    const text = STUDY.replaceAll("\n", "\r\n");
    const read = load(withFigure(text, ["defaults", "overrides", "x"], "3"));
    expect(read).toMatchObject({ defaults: { word: "32 bit", overrides: { x: 3 } } });
  });

  test("is refused where the text is no YAML", () => {
    expect(() => withFigure("a: [", ["b"], "1")).toThrow(/yaml-syntax/);
  });
});
