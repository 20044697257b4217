/** Text to tree. The only file that knows the parser; the allow-list of what a formula may hold. */

import { create, parseDependencies } from "mathjs/number";
import { type Problem, refuse } from "../errors/problem.ts";
import { DEEPEST_TREE } from "./limits.ts";
import { argumentCount, isFunctionName } from "./names.ts";
import { checkTokens } from "./tokencheck.ts";
import { type Located, placeAt, type Token, tokenize } from "./tokens.ts";
import type { Comparison, Tree } from "./tree.ts";
import { depthOf } from "./walk.ts";

/** Made when first needed: a run whose formulas were parsed at build time never pays for it. */
let parser: { parse(text: string): unknown } | undefined;

/** What is read of the parser's nodes; each field is checked before use. */
interface Node {
  readonly type: string;
  readonly value?: unknown;
  readonly name?: unknown;
  readonly fn?: unknown;
  readonly implicit?: boolean;
  readonly args?: readonly Node[];
  readonly content?: Node;
  readonly condition?: Node;
  readonly trueExpr?: Node;
  readonly falseExpr?: Node;
}

const BINARY: Readonly<Record<string, "+" | "-" | "*" | "/" | "^">> = {
  __proto__: null as never,
  add: "+",
  subtract: "-",
  multiply: "*",
  divide: "/",
  pow: "^",
};
const COMPARISON: Readonly<Record<string, Comparison["operator"]>> = {
  __proto__: null as never,
  smaller: "<",
  smallerEq: "<=",
  larger: ">",
  largerEq: ">=",
  equal: "==",
  unequal: "!=",
};

/**
 * Parses one formula.
 *
 * @param text numbers, names, + - * / ^, brackets, the functions of `tree.ts`, `a > b ? x : y`
 * @param file what errors name as the file
 * @returns the tree, at most 200 levels deep
 * @throws TenfoldError with the place: `formula-syntax`, `formula-operator`, `formula-function`,
 *   `formula-name`, `formula-character`, `formula-number`, `formula-arguments`,
 *   `formula-comparison`, `formula-too-long`, `formula-too-deep`
 */
export function parseFormula(text: string, file = "formula"): Tree {
  const source: Located = { text, file };
  const tokens = tokenize(source, false);
  if (tokens.length === 1) {
    refuse({ code: "formula-syntax", what: "the formula is empty", place: placeAt(source, 0) });
  }
  checkTokens(source, tokens);
  const tree = new Reader(source, tokens).formula(parsed(source));
  if (depthOf(tree) > DEEPEST_TREE) {
    refuse({
      code: "formula-too-deep",
      what: "the formula has too many levels",
      place: placeAt(source, 0),
      expected: `at most ${DEEPEST_TREE}`,
    });
  }
  return tree;
}

function parsed(source: Located): Node {
  // Only the parser: the default instance would bring functions that a formula must never reach.
  parser ??= create({ parseDependencies: parseDependencies ?? {} });
  try {
    // A line break would end the formula for the parser; a blank keeps every offset.
    return parser.parse(source.text.replace(/[\r\n]/g, " ")) as Node;
  } catch (error) {
    const { char, message } = error as { char?: number; message: string };
    const at = typeof char === "number" ? char - 1 : 0;
    return refuse({
      code: "formula-syntax",
      what: `the formula cannot be read: ${message.replace(/ ?\(char \d+\)$/, "")}`,
      place: placeAt(source, Math.min(Math.max(at, 0), source.text.length)),
    });
  }
}

/** Walks the parser's tree from left to right, beside the tokens, which know the places. */
class Reader {
  private readonly operands: readonly Token[];
  private readonly source: Located;
  private next = 0;

  constructor(source: Located, tokens: readonly Token[]) {
    this.source = source;
    this.operands = tokens.filter((token) => token.kind === "number" || token.kind === "name");
  }

  formula(node: Node): Tree {
    switch (node.type) {
      case "ParenthesisNode":
        return this.formula(this.part(node.content));
      case "ConstantNode":
        return this.number(node);
      case "SymbolNode":
        return { kind: "symbol", name: this.word(node.name) };
      case "OperatorNode":
        return this.operator(node);
      case "FunctionNode":
        return this.call(node);
      case "ConditionalNode":
        return this.choice(node);
      default:
        return this.refuse("formula-syntax", `a formula cannot hold this (${node.type})`);
    }
  }

  private number(node: Node): Tree {
    const token = this.operands[this.next];
    if (typeof node.value !== "number" || token?.kind !== "number") {
      return this.refuse("formula-number", "a plain number was expected");
    }
    this.next++;
    return { kind: "number", value: node.value };
  }

  private word(name: unknown): string {
    const token = this.operands[this.next];
    if (typeof name !== "string" || token?.text !== name) {
      return this.refuse("formula-name", "the name of a quantity was expected");
    }
    this.next++;
    return name;
  }

  private operator(node: Node): Tree {
    const [left, right] = node.args ?? [];
    const fn = String(node.fn);
    if (node.implicit) this.refuse("formula-operator", "a product is written with *");
    if (fn === "unaryMinus" && left) return { kind: "negate", of: this.formula(left) };
    const operator = BINARY[fn];
    if (operator && left && right) {
      return { kind: "binary", operator, left: this.formula(left), right: this.formula(right) };
    }
    if (COMPARISON[fn]) {
      this.refuse("formula-comparison", "a comparison stands only before ?");
    }
    return this.refuse("formula-operator", `the operator ${fn} is not one of + - * / ^`);
  }

  private call(node: Node): Tree {
    const at = this.next;
    const name = this.word((node.fn as Node | undefined)?.name);
    if (!isFunctionName(name))
      return this.refuse("formula-function", `"${name}" is not listed`, at);
    const of = (node.args ?? []).map((part) => this.formula(part));
    const [fewest, most] = argumentCount(name);
    if (of.length < fewest || of.length > most) {
      const count = fewest === most ? `${fewest}` : `${fewest} to ${most}`;
      const what = `${name} takes ${count} argument${count === "1" ? "" : "s"}, not ${of.length}`;
      this.refuse("formula-arguments", what, at);
    }
    return { kind: "call", name, of };
  }

  private choice(node: Node): Tree {
    const when = this.comparison(this.part(node.condition));
    const chosen = this.formula(this.part(node.trueExpr));
    return { kind: "choose", when, chosen, otherwise: this.formula(this.part(node.falseExpr)) };
  }

  private comparison(node: Node): Comparison {
    if (node.type === "ParenthesisNode") return this.comparison(this.part(node.content));
    const operator = node.type === "OperatorNode" ? COMPARISON[String(node.fn)] : undefined;
    const [left, right] = node.args ?? [];
    if (!operator || !left || !right) {
      return this.refuse("formula-comparison", "before ? stands one comparison, such as a > b");
    }
    return { operator, left: this.formula(left), right: this.formula(right) };
  }

  private part(node: Node | undefined): Node {
    return node ?? this.refuse("formula-syntax", "a part of the formula is missing");
  }

  private refuse(code: Problem["code"], what: string, operand = this.next): never {
    const token = this.operands[Math.min(operand, this.operands.length - 1)];
    return refuse({
      code,
      what,
      place: placeAt(this.source, token?.at ?? 0, token?.text.length ?? 1),
    });
  }
}
