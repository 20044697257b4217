import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { CODES } from "../../src/errors/codes.ts";
import { TenfoldError } from "../../src/errors/problem.ts";
import { problemsText } from "../../src/errors/wording.ts";
import { read, STUDY } from "./tables.ts";

const SEED = 20261125;
const lines = STUDY.split("\n");

/** Reads, and checks that whatever is refused is refused with places inside of the text. */
function readsOrRefuses(text: string): void {
  try {
    read(text);
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    expect(error.problems.length).toBeGreaterThan(0);
    const textLines = text.split(/\r\n|\r|\n/);
    let last = 0;
    for (const { code, place, what } of error.problems) {
      expect(Object.keys(CODES)).toContain(code);
      expect(what).not.toMatch(/undefined|NaN|\[object/);
      if (code === "too-many-problems") continue;
      expect(place, what).toBeDefined();
      expect(place!.line).toBeGreaterThanOrEqual(last);
      last = place!.line;
      expect(place!.line).toBeLessThanOrEqual(textLines.length);
      expect(place!.column).toBeGreaterThanOrEqual(1);
      expect(place!.column).toBeLessThanOrEqual(textLines[place!.line - 1]!.length + 1);
    }
    expect(problemsText(error.problems)).toContain("study.yaml:");
  }
}

const splice = fc.tuple(
  fc.nat(STUDY.length),
  fc.nat(12),
  fc.oneof(
    fc.constantFrom(
      "{",
      "}",
      "[",
      "]",
      ":",
      "-",
      "\t",
      "&a ",
      "*a",
      "!t ",
      "'",
      '"',
      "\n",
      "#",
      "|",
      ">",
      "~",
      "<<: ",
    ),
    fc.constantFrom(
      "__proto__",
      "constructor",
      "toString",
      "auto",
      "1e999",
      "-0",
      ".nan",
      "µ",
      "Ω",
      "\ud800",
      "\u0007",
    ),
    fc.string({ maxLength: 8, unit: "binary" }),
  ),
);

describe("a good study with random damage", () => {
  it("is read or refused with places, never a crash: characters replaced", () => {
    fc.assert(
      fc.property(fc.array(splice, { minLength: 1, maxLength: 4 }), (cuts) => {
        const text = cuts.reduce(
          (t, [at, n, put]) => t.slice(0, at) + put + t.slice(at + n),
          STUDY,
        );
        readsOrRefuses(text);
      }),
      { seed: SEED, numRuns: 1500 },
    );
  });

  it("is read or refused with places, never a crash: lines shuffled, doubled and lost", () => {
    fc.assert(
      fc.property(fc.array(fc.nat(lines.length - 1), { maxLength: 40 }), (order) => {
        readsOrRefuses(order.map((i) => lines[i]).join("\n"));
      }),
      { seed: SEED, numRuns: 700 },
    );
  });

  it("is read or refused with places, never a crash: any value in place of any other", () => {
    const leaf = fc.oneof(
      fc.string({ maxLength: 6 }),
      fc.double(),
      fc.boolean(),
      fc.constant(null),
    );
    const { tree } = fc.letrec((tie) => ({
      tree: fc.oneof(
        { maxDepth: 3 },
        leaf,
        fc.array(tie("tree"), { maxLength: 3 }),
        fc.dictionary(
          fc.constantFrom("value", "low", "from", "cell", "kind", "switch", "x"),
          tie("tree"),
          { maxKeys: 3 },
        ),
      ),
    }));
    const places = [...STUDY.matchAll(/(?<=: )[^\n{][^\n]*/g)].map(
      (m) => [m.index, m[0].length] as const,
    );
    fc.assert(
      fc.property(fc.nat(places.length - 1), tree, (which, value) => {
        const [at, length] = places[which]!;
        readsOrRefuses(STUDY.slice(0, at) + JSON.stringify(value) + STUDY.slice(at + length));
      }),
      { seed: SEED, numRuns: 1500 },
    );
  });
});
