/** Walks over trees. */

import type { Tree } from "./tree.ts";

/** The direct parts of a tree, from left to right. */
export function partsOf(tree: Tree): readonly Tree[] {
  switch (tree.kind) {
    case "number":
    case "symbol":
      return [];
    case "negate":
      return [tree.of];
    case "binary":
      return [tree.left, tree.right];
    case "call":
      return tree.of;
    case "choose":
      return [tree.when.left, tree.when.right, tree.chosen, tree.otherwise];
  }
}

/** The same tree with each direct part replaced. */
export function mapParts(tree: Tree, change: (part: Tree) => Tree): Tree {
  switch (tree.kind) {
    case "number":
    case "symbol":
      return tree;
    case "negate":
      return { kind: "negate", of: change(tree.of) };
    case "binary":
      return { ...tree, left: change(tree.left), right: change(tree.right) };
    case "call":
      return { ...tree, of: tree.of.map(change) };
    case "choose":
      return {
        kind: "choose",
        when: { ...tree.when, left: change(tree.when.left), right: change(tree.when.right) },
        chosen: change(tree.chosen),
        otherwise: change(tree.otherwise),
      };
  }
}

/** The names that a tree reads, each once, in the order in which they stand. */
export function symbolsOf(tree: Tree): string[] {
  const found = new Set<string>();
  collectSymbols(tree, found);
  return [...found];
}

function collectSymbols(tree: Tree, found: Set<string>): void {
  if (tree.kind === "symbol") found.add(tree.name);
  else for (const part of partsOf(tree)) collectSymbols(part, found);
}

/** How many numbers, names, operators and calls a tree has. */
export function sizeOf(tree: Tree): number {
  let size = 1;
  for (const part of partsOf(tree)) size += sizeOf(part);
  return size;
}

/** The same tree with every name replaced. */
export function renameSymbols(tree: Tree, rename: (name: string) => string): Tree {
  if (tree.kind === "symbol") return { kind: "symbol", name: rename(tree.name) };
  return mapParts(tree, (part) => renameSymbols(part, rename));
}

/** How many levels a tree has; 1 for a number or a symbol. */
export function depthOf(tree: Tree): number {
  let deepest = 0;
  for (const part of partsOf(tree)) deepest = Math.max(deepest, depthOf(part));
  return deepest + 1;
}
