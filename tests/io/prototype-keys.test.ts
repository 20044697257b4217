import { afterEach, expect, test } from "vitest";
import { readEntry } from "../../src/catalogue/index.ts";
import { TenfoldError } from "../../src/errors/problem.ts";
import { openText } from "../../src/io/study.ts";
import { parseHead } from "../../src/io/sweep/form.ts";
import { readPlan } from "../../src/studies/evidence/plan.ts";
import { solveFile } from "../../src/studies/solve/file.ts";
import { readMeasured } from "../../src/studies/switch/measured.ts";

/** Keys by which an object of another reader would change what every object inherits. */
const KEYS = ["__proto__", "constructor", "prototype", "toString", "hasOwnProperty", "valueOf"];

const evil = (key: string): unknown =>
  JSON.parse(`{${JSON.stringify(key)}: {"polluted": 1, "prototype": {"polluted": 1}}}`);

/** Every kind of input, with the key at its top and further within. */
const INPUTS: Readonly<Record<string, (key: string) => Promise<unknown>>> = {
  "a study": (key) => study({ title: "x", ...named(key, evil(key)) }),
  "a design's name": (key) => study({ title: "x", designs: evil(key) }),
  "a design": (key) => study({ title: "x", designs: { a: evil(key) } }),
  "a cell": (key) => study({ title: "x", designs: { a: { cell: evil(key) } } }),
  overrides: (key) =>
    study({ title: "x", designs: { a: { cell: "sram-6t", overrides: named(key, "1 V") } } }),
  "the catalogue of a study": (key) =>
    study({ title: "x", designs: {}, catalogue: { switches: evil(key) } }),
  "a setting": (key) =>
    openText({ file: "s", text: "title: x\ndesigns: {}\n" }, "s", [
      { path: `${key}.polluted`, value: "1" },
    ]),
  "a setting within a design": (key) =>
    openText({ file: "s", text: "title: x\ndesigns: {a: {cell: sram-6t}}\n" }, "s", [
      { path: `designs.a.${key}.polluted`, value: "1" },
    ]),
  "an entry": async (key) =>
    readEntry(JSON.stringify({ format: "tenfold.switch/1", name: "x", ...named(key, evil(key)) }), {
      file: "e",
    }),
  "values of an entry": async (key) =>
    readEntry(JSON.stringify({ format: "tenfold.switch/1", name: "x", values: evil(key) }), {
      file: "e",
    }),
  "a plan of evidence": async (key) =>
    readPlan(JSON.stringify({ format: "tenfold.evidence/1", chips: evil(key) }), "p"),
  "a case": async (key) => {
    const solved = solveFile(JSON.stringify({ rows: 1, ...named(key, evil(key)) }), "c");
    for (const one of solved.answers) if ("error" in one) throw one.error;
  },
  "measured points": async (key) => readMeasured(`${key},time\n1,2\n2,3\n3,4\n`, "m"),
};

/** Own, even where the key means the prototype in a literal. */
function named(key: string, value: unknown): object {
  return Object.defineProperty({}, key, { value, enumerable: true });
}

function study(value: object): Promise<unknown> {
  return openText({ file: "s", text: JSON.stringify(value) }, "s");
}

afterEach(() => {
  expect(({} as Record<string, unknown>)["polluted"]).toBeUndefined();
  expect(Object.keys(Object.prototype)).toEqual([]);
});

test.each(Object.keys(INPUTS).flatMap((kind) => KEYS.map((key) => [kind, key] as const)))(
  "in %s the key %s is a mistake like any other, or a name like any other",
  async (kind, key) => {
    const read = INPUTS[kind]!(key);
    await expect(
      read.then(
        () => undefined,
        (error: unknown) => {
          if (!(error instanceof TenfoldError)) throw error;
          expect(error.exitCode).toBe(2);
        },
      ),
    ).resolves.toBeUndefined();
  },
);

test("the first line of a sweep is read without its prototype keys meaning anything", () => {
  const head = parseHead(`{"format": "tenfold.sweep/1", "__proto__": {"polluted": 1}}`);
  expect(Object.getPrototypeOf(head)).toBe(Object.prototype);
});
