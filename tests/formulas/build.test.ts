/** Trees made without text are those of their text, and walks over them see every part. */
import { describe, expect, test } from "vitest";
import {
  binaryTree,
  callTree,
  chooseTree,
  formulaText,
  numberTree,
  parseFormula,
  productTree,
  sumTree,
  symbolsOf,
  symbolTree,
} from "../../src/formulas/index.ts";
import { depthOf, mapParts, partsOf, renameSymbols, sizeOf } from "../../src/formulas/walk.ts";

describe("trees without text", () => {
  const [a, b] = [symbolTree("a"), symbolTree("b")];

  test("are those of their text", () => {
    expect(numberTree(2.5)).toEqual(parseFormula("2.5"));
    expect(binaryTree("^", a, numberTree(2))).toEqual(parseFormula("a^2"));
    expect(callTree("max", a, b, numberTree(1))).toEqual(parseFormula("max(a, b, 1)"));
    expect(chooseTree({ operator: "<=", left: a, right: b }, a, numberTree(0))).toEqual(
      parseFormula("a <= b ? a : 0"),
    );
  });

  test("sums and products go from the left, over names and trees, and have a value for nothing", () => {
    expect(sumTree(["a", "b", numberTree(3)])).toEqual(parseFormula("a + b + 3"));
    expect(productTree(["a", parseFormula("b + 1"), "c"])).toEqual(parseFormula("a * (b + 1) * c"));
    expect(sumTree(["a"])).toEqual(a);
    expect(productTree([parseFormula("b - 1")])).toEqual(parseFormula("b - 1"));
    expect(sumTree([])).toEqual(numberTree(0));
    expect(productTree([])).toEqual(numberTree(1));
  });
});

describe("walks", () => {
  const text = "a > 2 ? -max(b, c^d) : q / (a + 1)";
  const tree = parseFormula(text);

  test("see names once each in their order, all sizes and the deepest level", () => {
    expect(symbolsOf(tree)).toEqual(["a", "b", "c", "d", "q"]);
    // The choice, a, 2; the sign, max, b, the power, c, d; the quotient, q, the sum, a, 1.
    expect(sizeOf(tree)).toBe(14);
    expect(depthOf(tree)).toBe(5);
    expect([sizeOf, depthOf].map((of) => of(parseFormula("7")))).toEqual([1, 1]);
    expect(partsOf(tree).map((part) => formulaText(part))).toEqual([
      "a",
      "2",
      "-max(b, c^d)",
      "q / (a + 1)",
    ]);
  });

  test("change every part and leave the tree that they came from", () => {
    const renamed = renameSymbols(tree, (name) => `x_${name}`);
    expect(formulaText(renamed)).toBe("x_a > 2 ? -max(x_b, x_c^x_d) : x_q / (x_a + 1)");
    expect(formulaText(tree)).toBe(text);
    for (const one of ["a", "3", "-a", "a + b", "min(a, b)", text]) {
      const from = parseFormula(one);
      const seen: string[] = [];
      const same = mapParts(from, (part) => {
        seen.push(formulaText(part));
        return part;
      });
      expect(same).toEqual(from);
      expect(seen).toEqual(partsOf(from).map((part) => formulaText(part)));
    }
  });
});
