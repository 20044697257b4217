/**
 * The text of generated code. Only re-printed numbers, `$` names and fixed words reach it: no text
 * of a user does.
 */

import { IMPLEMENTATIONS } from "./functions.ts";
import { QUANTITY_NAME } from "./program.ts";
import type { Comparison, Tree } from "./tree.ts";

/** The opposite of an order, so that NaN satisfies neither. */
const OPPOSITE = { "<": ">=", "<=": ">", ">": "<=", ">=": "<" } as const;

/** The variable of a quantity. */
export function variable(name: string): string {
  if (!QUANTITY_NAME.test(name)) throw new Error(`"${name}" cannot stand in generated code`);
  return `$${name}`;
}

/** The literal of a number. */
export function literal(value: number): string {
  if (Number.isNaN(value)) return "NaN";
  const text = value === Number.POSITIVE_INFINITY ? "Infinity" : String(value);
  return value < 0 || Object.is(value, -0) ? `(${Object.is(value, -0) ? "-0" : text})` : text;
}

/**
 * An expression that computes a tree.
 *
 * @param tree the formula; its names are variables in scope
 * @param hoist puts an expression into a new variable and returns its name
 */
export function expression(tree: Tree, hoist: (code: string) => string): string {
  const inner = (part: Tree): string => expression(part, hoist);
  switch (tree.kind) {
    case "number":
      return literal(tree.value);
    case "symbol":
      return variable(tree.name);
    case "negate":
      return `(-${inner(tree.of)})`;
    case "binary":
      if (tree.operator === "^") return power(tree.left, tree.right, inner, hoist);
      return `(${inner(tree.left)}${tree.operator}${inner(tree.right)})`;
    case "call":
      if (tree.of.every(isNumber)) return literal(IMPLEMENTATIONS[tree.name](...valuesIn(tree.of)));
      return `${tree.name}(${tree.of.map(inner).join(",")})`;
    case "choose": {
      const { operator } = tree.when;
      const left = simple(tree.when.left, inner, hoist);
      const right = simple(tree.when.right, inner, hoist);
      return choice(operator, left, right, inner(tree.chosen), inner(tree.otherwise));
    }
  }
}

type Numbered = Extract<Tree, { kind: "number" }>;
const isNumber = (tree: Tree): tree is Numbered => tree.kind === "number";
const valuesIn = (trees: readonly Tree[]): number[] =>
  trees.filter(isNumber).map(({ value }) => value);

/** A comparison with NaN must not decide silently: the result is NaN then. */
function choice(
  operator: Comparison["operator"],
  left: string,
  right: string,
  then: string,
  otherwise: string,
): string {
  if (operator === "!=") return choice("==", left, right, otherwise, then);
  if (operator === "==") {
    return `(${left}===${right}?${then}:${left}===${left}&&${right}===${right}?${otherwise}:NaN)`;
  }
  const opposite = `${left}${OPPOSITE[operator]}${right}`;
  return `(${left}${operator}${right}?${then}:${opposite}?${otherwise}:NaN)`;
}

/** Squares and cubes as products, as `pow` computes them. */
function power(
  base: Tree,
  exponent: Tree,
  inner: (part: Tree) => string,
  hoist: (code: string) => string,
): string {
  const value = exponent.kind === "number" ? exponent.value : Number.NaN;
  if (value === 2 || value === 3) {
    const of = simple(base, inner, hoist);
    return value === 2 ? `(${of}*${of})` : `(${of}*${of}*${of})`;
  }
  return `pow(${inner(base)},${inner(exponent)})`;
}

function simple(tree: Tree, inner: (part: Tree) => string, hoist: (code: string) => string) {
  const code = inner(tree);
  return tree.kind === "number" || tree.kind === "symbol" ? code : hoist(code);
}
