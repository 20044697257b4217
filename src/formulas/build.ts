/**
 * Makes trees without text, for formulas that are composed rather than written, such as sums of
 * parts.
 */

import type { Comparison, FunctionName, Tree } from "./tree.ts";

type Binary = Extract<Tree, { kind: "binary" }>;

/** A number of dimension 1. */
export function numberTree(value: number): Tree {
  return { kind: "number", value };
}

/** A quantity by its name. */
export function symbolTree(name: string): Tree {
  return { kind: "symbol", name };
}

/** `left operator right`. */
export function binaryTree(operator: Binary["operator"], left: Tree, right: Tree): Tree {
  return { kind: "binary", operator, left, right };
}

/** A call of a listed function. */
export function callTree(name: FunctionName, ...of: Tree[]): Tree {
  return { kind: "call", name, of };
}

/** `when ? chosen : otherwise`. */
export function chooseTree(when: Comparison, chosen: Tree, otherwise: Tree): Tree {
  return { kind: "choose", when, chosen, otherwise };
}

/** The sum from left to right; 0 for none. A text stands for the quantity of that name. */
export function sumTree(terms: readonly (Tree | string)[]): Tree {
  return chain("+", terms, 0);
}

/** The product from left to right; 1 for none. A text stands for the quantity of that name. */
export function productTree(factors: readonly (Tree | string)[]): Tree {
  return chain("*", factors, 1);
}

function chain(operator: "+" | "*", parts: readonly (Tree | string)[], empty: number): Tree {
  const trees = parts.map((part) => (typeof part === "string" ? symbolTree(part) : part));
  const first = trees[0];
  if (first === undefined) return numberTree(empty);
  return trees.slice(1).reduce((left, right) => binaryTree(operator, left, right), first);
}
