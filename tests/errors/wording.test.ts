import { describe, expect, it } from "vitest";
import { editDistance, nearestWord } from "../../src/errors/nearest.ts";
import type { Problem } from "../../src/errors/problem.ts";
import { problemData, problemsText, problemText } from "../../src/errors/wording.ts";

const problem: Problem = {
  code: "unknown-key",
  what: "`colums` isn't a key of a tile",
  place: {
    file: "study.yaml",
    line: 12,
    column: 24,
    length: 6,
    text: "    tile: {rows: 512, colums: 512}",
  },
  path: "/designs/static/tile/colums",
  expected: "one of rows, columns, decks, column_share",
  nearest: "columns",
  fix: "rename the key",
};

describe("the text of a problem", () => {
  it("says place, line, mark, what was expected, the nearest word and the fix", () => {
    expect(problemText({ ...problem, place: { ...problem.place!, column: 23 } })).toBe(
      [
        "study.yaml:12:23: `colums` isn't a key of a tile",
        "    12 |     tile: {rows: 512, colums: 512}",
        "                               ^^^^^^",
        "  expected: one of rows, columns, decks, column_share",
        "  did you mean: columns",
        "  to fix: rename the key",
      ].join("\n"),
    );
  });

  it("cuts long lines to 80 columns with the mark under the mistake", () => {
    for (const column of [1, 50, 500, 990]) {
      const text = `${"x".repeat(column - 1)}BAD${"y".repeat(1000)}`;
      const lines = problemText({
        ...problem,
        place: { file: "f", line: 3, column, length: 3, text },
      }).split("\n");
      expect(lines[1]!.length).toBeLessThanOrEqual(80);
      expect(lines[1]!.slice(lines[2]!.indexOf("^"), lines[2]!.lastIndexOf("^") + 1)).toBe("BAD");
    }
  });

  it("breaks long lists between words, and keeps every word", () => {
    const expected = Array.from({ length: 40 }, (_, i) => `quantity_${i}`).join(", ");
    const lines = problemText({ code: "unknown-key", what: "x", expected }).split("\n").slice(1);
    expect(lines.length).toBeGreaterThan(5);
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
    const words = lines.map((line) => line.trim()).join(" ");
    expect(words).toBe(`expected: ${expected}`);
  });

  it("lets no control character of a file reach the terminal", () => {
    const text = "a: \u001b[2J\u0007\u202eb";
    const shown = problemText({
      ...problem,
      what: text,
      place: { file: "f\u001b", line: 1, column: 4, text },
    });
    expect(shown.replaceAll("\n", "")).not.toMatch(/[\p{Cc}\p{Cf}]/u);
  });

  it("colours only when asked to", () => {
    expect(problemText(problem)).not.toContain("\u001b");
    expect(problemText(problem, { color: true })).toContain("\u001b[31m^^^^^^\u001b[0m");
  });

  it("counts the problems", () => {
    expect(problemsText([problem, problem])).toMatch(/\n\n2 problems\n$/);
    expect(problemsText([problem])).toMatch(/\n\n1 problem\n$/);
  });

  it("as data has file, line and column beside the code", () => {
    expect(problemData(problem)).toMatchObject({
      code: "unknown-key",
      file: "study.yaml",
      line: 12,
      column: 24,
    });
    expect(problemData({ code: "file-empty", what: "empty" })).toEqual({
      code: "file-empty",
      what: "empty",
    });
  });
});

describe("the nearest word", () => {
  // The distances that the literature on spelling correction quotes for the swapped, missing, added
  // and wrong letter.
  it.each([
    ["kitten", "sitting", 3],
    ["ca", "ac", 1],
    ["saturday", "sunday", 3],
    ["", "abc", 3],
    ["same", "same", 0],
  ])("%s and %s differ by %d", (a, b, distance) => {
    expect(editDistance(a, b)).toBe(distance);
    expect(editDistance(b, a)).toBe(distance);
  });

  it.each([
    ["colums", "columns"],
    ["roes", "rows"],
    ["Read-Voltage", "read_voltage"],
    ["voltage", "read_voltage"],
    ["zebra", undefined],
    ["x", undefined],
  ])("of `%s` is %s", (word, nearest) => {
    expect(nearestWord(word, ["rows", "columns", "decks", "read_voltage"])).toBe(nearest);
  });
});
