/** The dimension of a tree, from the units of its names. */

import { refuse } from "../errors/problem.ts";
import {
  DIMENSIONLESS,
  type Dimension,
  dimensionText,
  divideDimensions,
  isDimensionless,
  multiplyDimensions,
  powerDimension,
  rationalOf,
  sameDimension,
} from "../quantities/dimension.ts";
import { dimensionOf } from "../quantities/unit.ts";
import { constantOf } from "./constants.ts";
import { formulaText } from "./print.ts";
import type { FunctionName, Tree } from "./tree.ts";

/** The literal 0 may stand for zero of anything, as in `max(0, a - b)`. */
type Found = Dimension | "zero";

/** The unit text of a name, if it is known. */
export type UnitOf = (name: string) => string | undefined;

/**
 * The dimension of a formula's result.
 *
 * @param tree the formula
 * @param units SI unit text of each name; the constants of `constants.ts` are known
 * @returns exponents of the base units; those of a literal 0 are all 0
 * @throws TenfoldError `unknown-symbol`, `dimension-mismatch` (both dimensions in `got` and
 *   `expected`), `dimension-power`
 */
export function dimensionOfTree(
  tree: Tree,
  units: ReadonlyMap<string, string> | UnitOf,
): Dimension {
  const unitOf: UnitOf = typeof units === "function" ? units : (name) => units.get(name);
  return plain(find(tree, unitOf));
}

function plain(found: Found): Dimension {
  return found === "zero" ? DIMENSIONLESS : found;
}

function find(tree: Tree, unitOf: UnitOf): Found {
  switch (tree.kind) {
    case "number":
      if (tree.unit !== undefined) return dimensionOf(tree.unit);
      return tree.value === 0 ? "zero" : DIMENSIONLESS;
    case "symbol":
      return ofSymbol(tree.name, unitOf);
    case "negate":
      return find(tree.of, unitOf);
    case "binary":
      return ofBinary(tree, unitOf);
    case "call":
      return ofCall(tree, unitOf);
    case "choose":
      alike([tree.when.left, tree.when.right], unitOf, `compare with ${tree.when.operator}`);
      return alike([tree.chosen, tree.otherwise], unitOf, "choose between");
  }
}

function ofSymbol(name: string, unitOf: UnitOf): Dimension {
  const unit = unitOf(name) ?? constantOf(name)?.unit;
  if (unit !== undefined) return dimensionOf(unit);
  return refuse({ code: "unknown-symbol", what: `"${name}" is not declared`, got: name });
}

function ofBinary(tree: Extract<Tree, { kind: "binary" }>, unitOf: UnitOf): Found {
  const { operator, left, right } = tree;
  if (operator === "+") return alike([left, right], unitOf, "add");
  if (operator === "-") return alike([left, right], unitOf, "subtract");
  if (operator === "^") return ofPower(left, right, unitOf);
  const of = find(left, unitOf);
  const by = plain(find(right, unitOf));
  if (operator === "/") return divideDimensions(plain(of), by);
  return multiplyDimensions(plain(of), by);
}

function ofPower(base: Tree, exponent: Tree, unitOf: UnitOf): Dimension {
  const of = plain(find(base, unitOf));
  pure(exponent, unitOf, "the exponent");
  if (isDimensionless(of)) return of;
  const constant = constantValue(exponent);
  const power = constant === undefined ? undefined : rationalOf(constant);
  if (power) return powerDimension(of, power);
  return refuse({
    code: "dimension-power",
    what: `${formulaText(base)} has a dimension, so its exponent must be a number`,
    got: `${formulaText(exponent)} as exponent of ${dimensionText(of)}`,
    expected: "a whole number or a simple fraction",
  });
}

/** The value of a tree that holds only numbers. */
function constantValue(tree: Tree): number | undefined {
  if (tree.kind === "number") return tree.value;
  if (tree.kind === "negate") {
    const of = constantValue(tree.of);
    return of === undefined ? undefined : -of;
  }
  if (tree.kind !== "binary") return undefined;
  const left = constantValue(tree.left);
  const right = constantValue(tree.right);
  if (left === undefined || right === undefined) return undefined;
  if (tree.operator === "/") return left / right;
  if (tree.operator === "*") return left * right;
  if (tree.operator === "+") return left + right;
  return tree.operator === "-" ? left - right : undefined;
}

const KEEP: ReadonlySet<FunctionName> = new Set(["min", "max", "abs"]);

function ofCall(tree: Extract<Tree, { kind: "call" }>, unitOf: UnitOf): Found {
  const { name, of } = tree;
  if (KEEP.has(name)) return alike(of, unitOf, `take the ${name} of`);
  const argument = of[0]!;
  if (name === "sqrt") return powerDimension(plain(find(argument, unitOf)), [1, 2]);
  if (name === "cbrt") return powerDimension(plain(find(argument, unitOf)), [1, 3]);
  for (const tree of of) pure(tree, unitOf, `the argument of ${name}`);
  return DIMENSIONLESS;
}

/** The common dimension of several trees. */
function alike(trees: readonly Tree[], unitOf: UnitOf, doing: string): Found {
  let common: Found = "zero";
  let first: Tree | undefined;
  for (const tree of trees) {
    const found = find(tree, unitOf);
    if (found === "zero") continue;
    if (common === "zero") {
      common = found;
      first = tree;
    } else if (!sameDimension(common, found)) {
      const one = `${formulaText(first!)} [${dimensionText(common)}]`;
      const other = `${formulaText(tree)} [${dimensionText(found)}]`;
      refuse({
        code: "dimension-mismatch",
        what: `cannot ${doing} ${one} and ${other}`,
        got: dimensionText(found),
        expected: dimensionText(common),
      });
    }
  }
  return common;
}

function pure(tree: Tree, unitOf: UnitOf, what: string): void {
  const found = plain(find(tree, unitOf));
  if (isDimensionless(found)) return;
  refuse({
    code: "dimension-mismatch",
    what: `${what}, ${formulaText(tree)}, must be a pure number`,
    got: dimensionText(found),
    expected: "1",
  });
}
