/** A tape of bounds against bounds of trees, which are against points in `interval.test.ts`. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { BoundTape } from "../../src/formulas/bound-tape.ts";
import { assemble, type ExtraFormula, parseFormula, procedure } from "../../src/formulas/index.ts";
import { type Bounds, boundTree } from "../../src/formulas/interval.ts";
import type { Program } from "../../src/formulas/program.ts";
import type { Tree } from "../../src/formulas/tree.ts";
import { GIVEN, GIVEN_QUANTITIES, INSTANCES } from "./fixtures/circuits.ts";
import { giving } from "./fixtures/small.ts";
import { NAMES, plainTree, SEED } from "./fixtures/trees.ts";

const ANYTHING = { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY };
const box = (low: number, high: number): Bounds => ({ low, high });

function program(given: readonly string[], formulas: Record<string, string | Tree>): Program {
  const extra = Object.entries(formulas).map(([name, formula]): ExtraFormula => {
    return { name, formula, unit: "1", meaning: name, source: "this project" };
  });
  const units = Object.fromEntries(given.map((name) => [name, "1"]));
  return assemble([], giving(units), parseFormula, extra);
}

/** Bounds of every quantity, formula by formula. */
function treeByTree({ steps }: Program, boxes: ReadonlyMap<string, Bounds>) {
  const known = new Map(boxes);
  for (const step of steps) {
    if (step.kind !== "formula") continue;
    known.set(
      step.name,
      boundTree(step.tree, (name) => known.get(name) ?? ANYTHING),
    );
  }
  return known;
}

/** The same numbers: zeros of either sign are one, and where a tree's product is known a tape's may not be. */
function expectAgree(tape: BoundTape, known: ReadonlyMap<string, Bounds>): void {
  for (const [name, { low, high }] of known) {
    const found = tape.of(name);
    const where = `${name}: ${JSON.stringify([found, { low, high }])}`;
    const finite = Number.isFinite(low) && Number.isFinite(high);
    if (finite) expect([found.low + 0, found.high + 0], where).toEqual([low + 0, high + 0]);
    else expect(found.low <= low && found.high >= high, where).toBe(true);
  }
}

describe("a tape", () => {
  test("bounds a design's quantities as their formulas do, box after box", () => {
    const design = assemble(INSTANCES, GIVEN_QUANTITIES, parseFormula);
    const tape = new BoundTape(design);
    let finite = 0;
    for (const spread of [0, 1e-6, 0.1, 0.5, 0.02]) {
      const boxes = new Map(
        Object.entries(GIVEN).map(([name, [value]], k) => [
          name,
          box(value * (1 - (spread * (k % 3)) / 2), value * (1 + spread)),
        ]),
      );
      for (const [name, { low, high }] of boxes) tape.set(name, low, high);
      tape.run();
      const known = treeByTree(design, boxes);
      expectAgree(tape, known);
      finite += [...known.values()].filter(({ low }) => Number.isFinite(low)).length;
    }
    expect(finite).toBeGreaterThan(4 * design.steps.length);
  });

  test("agrees for random trees over random boxes", () => {
    const names = Object.keys(NAMES);
    const ends = fc.constantFrom(-2, -0.5, 0, 0.25, 1, 3);
    const side = fc.tuple(ends, ends).map(([p, q]) => box(Math.min(p, q), Math.max(p, q)));
    const sides = fc.array(side, { minLength: names.length, maxLength: names.length });
    fc.assert(
      fc.property(plainTree, sides, (tree, boxes) => {
        const one = program(names, { result: tree });
        const tape = new BoundTape(one);
        names.forEach((name, k) => {
          tape.set(name, boxes[k]!.low, boxes[k]!.high);
        });
        tape.run();
        expectAgree(tape, treeByTree(one, new Map(names.map((name, k) => [name, boxes[k]!]))));
      }),
      SEED,
    );
  });

  test.each([
    "a + b",
    "a - b",
    "a * b",
    "a / b",
    "a ^ b",
    "min(a, b)",
    "max(a, b)",
    "-a",
    "floor(a) * b",
  ])("agrees for %s over all pairs of boxes about zero", (text) => {
    const one = program(["a", "b"], { result: text });
    const tape = new BoundTape(one);
    const ends = [-3, -0.5, 0, 0.5, 2];
    const boxes = ends.flatMap((low, i) => ends.slice(i).map((high) => box(low, high)));
    for (const a of boxes) {
      for (const b of boxes) {
        tape.set("a", a.low, a.high);
        tape.set("b", b.low, b.high);
        tape.run();
        const { low, high } = boundTree(parseFormula(text), (name) => (name === "a" ? a : b));
        const found = tape.of("result");
        expect([found.low + 0, found.high + 0]).toEqual([low + 0, high + 0]);
      }
    }
  });

  test("leaves everything possible where an end has no value", () => {
    const texts = { root: "sqrt(x)", sum: "x + y", least: "x - y", share: "x / y", both: "x * y" };
    const one = program(["x", "y"], texts);
    const tape = new BoundTape(one);
    tape.set("x", Number.NEGATIVE_INFINITY, 4);
    tape.set("y", 0, Number.POSITIVE_INFINITY);
    tape.run();
    const { least, ...others } = texts;
    expect(tape.of("least"), least).toEqual(box(ANYTHING.low, 4));
    for (const name of Object.keys(others)) expect(tape.of(name), name).toEqual(ANYTHING);
    tape.set("x", 0, 4);
    tape.set("y", 1, 2);
    tape.run();
    expect(Object.keys(texts).map((name) => tape.of(name))).toEqual([
      box(0, 2),
      box(1, 6),
      box(-2, 3),
      box(0, 4),
      box(0, 8),
    ]);
  });

  test("knows nothing of names that its program lacks, and anything may come of a procedure", () => {
    const solve = procedure({
      name: "solve",
      title: "A solve",
      about: "For a test.",
      source: "this project",
      inputs: { x: { unit: "1", meaning: "x" } },
      outputs: { found: { unit: "1", meaning: "found" }, other: { unit: "1", meaning: "other" } },
      run: () => {},
    });
    const extra = [
      { name: "capped", formula: "max(found, x)", unit: "1", meaning: "c", source: "this project" },
    ];
    const one = assemble([{ of: solve }], giving({ x: "1" }), parseFormula, extra);
    const tape = new BoundTape(one);
    tape.set("x", 1, 2);
    tape.run();
    expect(tape.of("found")).toEqual(ANYTHING);
    expect(tape.of("other")).toEqual(ANYTHING);
    expect(tape.of("capped")).toEqual(box(1, ANYTHING.high));
    expect(tape.of("nowhere")).toEqual(ANYTHING);
    // What a procedure gives may be told, as what is given may.
    tape.set("found", 3, 4);
    expect(tape.of("found")).toEqual(box(3, 4));
  });

  test("cuts a quantity down to what is known otherwise, and what reads it, but not what it is a name of", () => {
    const one = program(["x", "y"], { z: "x", w: "z + 1", fixed: "gamma(3)", next: "fixed * 2" });
    const tape = new BoundTape(one, {
      z: (of) => box(of("y").low, 5),
      fixed: (of) => box(of("y").low, 10),
    });
    tape.set("x", 0, 9);
    tape.set("y", 2, 3);
    tape.run();
    expect(tape.of("x")).toEqual(box(0, 9));
    expect(tape.of("z")).toEqual(box(2, 5));
    expect(tape.of("w")).toEqual(box(3, 6));
    // Of a gamma function nothing is known, whatever it is of.
    expect(tape.of("fixed")).toEqual(box(2, 10));
    expect(tape.of("next")).toEqual(box(4, 20));
    tape.set("x", 3, 4);
    tape.run();
    // Bounds that are tighter anyway stay.
    expect(tape.of("z")).toEqual(box(3, 4));
    tape.set("y", 4, 4);
    tape.run();
    expect(tape.of("fixed")).toEqual(box(4, 10));
    expect(tape.of("next")).toEqual(box(8, 20));
  });

  test("computes what no given quantity reaches before the first run", () => {
    const tape = new BoundTape(program(["x"], { a: "2 + 3", b: "a * 2", c: "b + x" }));
    expect(tape.of("b")).toEqual(box(10, 10));
    expect(tape.of("c")).toEqual(ANYTHING);
  });
});
