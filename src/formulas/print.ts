/** Trees as text that parses to the same tree. */

import type { Tree } from "./tree.ts";

/** How tightly a printed part holds together. */
const CHOICE = 0;
const SUM = 1;
const PRODUCT = 2;
const NEGATED = 3;
const WITH_UNIT = 4;
const POWER = 5;
const ATOM = 6;

interface Printed {
  readonly text: string;
  readonly level: number;
}

/**
 * The text of a tree, with no bracket that is not needed.
 *
 * @param tree the formula
 * @param names what to print for a name, such as its value with its unit; the name itself unless
 *   given
 */
export function formulaText(tree: Tree, names: (name: string) => string = (name) => name): string {
  return print(tree, names).text;
}

function print(tree: Tree, names: (name: string) => string): Printed {
  const inner = (part: Tree, least: number): string => {
    const { text, level } = print(part, names);
    return level < least ? `(${text})` : text;
  };
  // To the right of an operator a leading minus is bracketed too: it reads better.
  const after = (part: Tree, least: number): string => {
    const text = inner(part, least);
    return text.startsWith("-") ? `(${text})` : text;
  };
  switch (tree.kind) {
    case "number":
      return leaf(tree.written ?? String(tree.value));
    case "symbol":
      return leaf(names(tree.name));
    case "negate":
      return { text: `-${after(tree.of, WITH_UNIT)}`, level: NEGATED };
    case "binary":
      return printBinary(tree, inner, after);
    case "call":
      return {
        text: `${tree.name}(${tree.of.map((part) => inner(part, CHOICE)).join(", ")})`,
        level: ATOM,
      };
    case "choose": {
      const { operator, left, right } = tree.when;
      const when = `${inner(left, SUM)} ${operator} ${inner(right, SUM)}`;
      const [then, otherwise] = [inner(tree.chosen, SUM), inner(tree.otherwise, CHOICE)];
      return { text: `${when} ? ${then} : ${otherwise}`, level: CHOICE };
    }
  }
}

function printBinary(
  tree: Extract<Tree, { kind: "binary" }>,
  inner: (part: Tree, least: number) => string,
  after: (part: Tree, least: number) => string,
): Printed {
  const { operator, left, right } = tree;
  switch (operator) {
    case "+":
    case "-":
      return { text: `${inner(left, SUM)} ${operator} ${after(right, PRODUCT)}`, level: SUM };
    case "*":
      return { text: `${inner(left, PRODUCT)} * ${after(right, WITH_UNIT)}`, level: PRODUCT };
    case "/":
      return { text: `${inner(left, PRODUCT)} / ${after(right, POWER)}`, level: PRODUCT };
    case "^":
      return { text: `${inner(left, ATOM)}^${after(right, ATOM)}`, level: POWER };
  }
}

function leaf(text: string): Printed {
  if (text.startsWith("-")) return { text, level: NEGATED };
  return { text, level: text.includes(" ") ? WITH_UNIT : ATOM };
}
