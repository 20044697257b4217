import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { TenfoldError } from "../../src/errors/problem.ts";
import {
  assemble,
  compile,
  dimensionOfTree,
  formulaText,
  interpret,
  parseExpression,
  parseFormula,
  type Tree,
} from "../../src/formulas/index.ts";
import { partsOf } from "../../src/formulas/walk.ts";
import type { Dimension } from "../../src/quantities/dimension.ts";
import { evaluated, exponentsOf, measure } from "./fixtures/oracle.ts";
import { anyTree, NAMES, physicalTree, SEED } from "./fixtures/trees.ts";

const units = new Map(Object.entries(NAMES).map(([name, [, unit]]) => [name, unit]));
const scope = Object.fromEntries(
  Object.entries(NAMES).map(([name, [value, unit]]) => [name, measure(value, unit)]),
);
const given = Object.entries(NAMES).map(([name, [, unit]]) => ({ name, unit }));
const known = (name: string): number => NAMES[name]![0];

function dimension(tree: Tree): Dimension | undefined {
  try {
    return dimensionOfTree(tree, units);
  } catch (error) {
    if (error instanceof TenfoldError) return undefined;
    throw error;
  }
}

/** mathjs compares with a tolerance of 1e-12, the engine exactly: such comparisons are left out. */
function closeCall(tree: Tree): boolean {
  if (tree.kind === "choose") {
    const [left, right] = [interpret(tree.when.left, known), interpret(tree.when.right, known)];
    if (left !== right && Math.abs(left - right) <= 1e-11 * Math.abs(left)) return true;
  }
  return partsOf(tree).some(closeCall);
}

/** What mathjs cannot measure: complex numbers, overflow on the way. */
function finiteThroughout(tree: Tree): boolean {
  return Number.isFinite(interpret(tree, known)) && partsOf(tree).every(finiteThroughout);
}

describe("random trees", () => {
  test("print to a text that parses to the same tree", () => {
    fc.assert(
      fc.property(anyTree, (tree) => {
        expect(parseFormula(formulaText(tree))).toEqual(tree);
      }),
      SEED,
    );
  });

  test("are read alike by the grammar of users' expressions, which is a parser of its own", () => {
    const noChoice = (tree: Tree): boolean =>
      tree.kind !== "choose" && partsOf(tree).every(noChoice);
    fc.assert(
      fc.property(anyTree.filter(noChoice), (tree) => {
        expect(parseExpression(formulaText(tree), "value").body).toEqual({ kind: "value", tree });
      }),
      SEED,
    );
  });

  test("with a dimension have the dimension and the value that mathjs gives them", () => {
    let compared = 0;
    fc.assert(
      fc.property(physicalTree, (tree) => {
        const own = dimension(tree);
        if (!own || !finiteThroughout(tree) || closeCall(tree)) return;
        const outside = evaluated(formulaText(tree), scope);
        const value = interpret(tree, known);
        expect(Math.abs(outside.value - value)).toBeLessThanOrEqual(1e-11 * Math.abs(value));
        // A value of zero is enough for mathjs to drop nothing; exponents are compared always.
        outside.exponents.forEach((exponent, i) => {
          expect(exponentsOf(own)[i]).toBeCloseTo(exponent, 10);
        });
        compared++;
      }),
      { ...SEED, numRuns: 6000 },
    );
    expect(compared).toBeGreaterThan(1500);
  });

  test("that mathjs refuses for their units are refused here", () => {
    let refused = 0;
    fc.assert(
      fc.property(physicalTree, (tree) => {
        if (!finiteThroughout(tree)) return;
        let outside = true;
        try {
          evaluated(formulaText(tree), scope);
        } catch {
          outside = false;
        }
        if (outside) return;
        refused++;
        expect(dimension(tree)).toBeUndefined();
      }),
      { ...SEED, numRuns: 6000 },
    );
    expect(refused).toBeGreaterThan(1000);
  });

  test("give the same number compiled, batched and interpreted", () => {
    fc.assert(
      fc.property(fc.array(physicalTree, { minLength: 1, maxLength: 4 }), (trees) => {
        const extra = trees.map((formula, i) => ({
          name: `t${i}`,
          unit: "1",
          meaning: "random",
          source: "this project",
          formula,
        }));
        const finite = trees.every(finiteThroughout);
        const code = compile(assemble([], given, parseFormula, extra));
        const inputs = Float64Array.from(code.inputs, known);
        const single = new Float64Array(code.names.length);
        const batch = code.names.map(() => new Float64Array(2));
        const columns = [...inputs].map((value) => Float64Array.of(value, value));
        if (!finite) return;
        code.evaluate(inputs, single);
        code.evaluateMany(columns, 2, batch);
        // After some evaluations a function is generated; it gives the same bits.
        const generated = new Float64Array(code.names.length);
        for (let run = 0; run < 20; run++) code.evaluate(inputs, generated);
        expect(generated).toEqual(single);
        code.names.forEach((name, i) => {
          const value = interpret(trees[Number(name.slice(1))]!, known);
          expect(Math.abs(single[i]! - value)).toBeLessThanOrEqual(1e-11 * Math.abs(value));
          expect([...batch[i]!]).toEqual([single[i], single[i]]);
        });
      }),
      { ...SEED, numRuns: 500 },
    );
  });
});
