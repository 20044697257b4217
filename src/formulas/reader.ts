/** Reads the tokens of an expression: precedence climbing, each refusal with its place. */

import { type Problem, refuse, TenfoldError } from "../errors/problem.ts";
import { readAnyQuantity } from "../quantities/quantity.ts";
import { DEEPEST_TREE } from "./limits.ts";
import { argumentCount, isFunctionName } from "./names.ts";
import { checkName } from "./tokencheck.ts";
import { type Located, placeAt, type Token } from "./tokens.ts";
import type { Comparison, Tree } from "./tree.ts";
import { depthOf } from "./walk.ts";

/** A number in SI. */
export interface Value {
  readonly kind: "value";
  readonly tree: Tree;
}

/** Something that holds or does not. */
export type Condition =
  | { readonly kind: "compare"; readonly comparison: Comparison }
  | { readonly kind: "not"; readonly of: Condition }
  | { readonly kind: "and" | "or"; readonly left: Condition; readonly right: Condition };

export type ExpressionKind = "value" | "condition";

type Body = Value | Condition;
type BinaryOperator = "+" | "-" | "*" | "/" | "^";

const COMPARISONS: ReadonlySet<string> = new Set(["<", "<=", ">", ">=", "==", "!="]);
const LEVEL: ReadonlyMap<string, number> = new Map([
  ["or", 1],
  ["and", 2],
  ...[...COMPARISONS].map((sign) => [sign, 4] as const),
  ["+", 5],
  ["-", 5],
  ["*", 6],
  ["/", 6],
  ["^", 8],
]);
/** `not` binds looser than a comparison, a minus tighter than a product. */
const NOT = 3;
const MINUS = 7;
/** `not not not ...` nests without brackets. */
const DEEPEST_CONDITION = 100;

/**
 * Reads all tokens as one expression.
 *
 * @returns the expression and the names that it reads, with the offsets of their first uses
 * @throws TenfoldError, see `parseExpression`
 */
export function readExpression(
  source: Located,
  tokens: readonly Token[],
  kind?: ExpressionKind,
): { body: Body; names: ReadonlyMap<string, number> } {
  const reader = new Reader(source, tokens);
  const body = reader.whole(kind);
  return { body, names: reader.names };
}

class Reader {
  readonly names = new Map<string, number>();
  private readonly source: Located;
  private readonly tokens: readonly Token[];
  private at = 0;
  private depth = 0;

  constructor(source: Located, tokens: readonly Token[]) {
    this.source = source;
    this.tokens = tokens;
  }

  whole(kind: ExpressionKind | undefined): Body {
    const first = this.peek();
    if (first.kind === "end") this.refuse("formula-syntax", "the expression is empty", first);
    const body = this.expression(1);
    const rest = this.peek();
    if (rest.kind !== "end") this.refuseRest(rest);
    if (kind === "value") return { kind: "value", tree: this.value(body, first) };
    return kind === "condition" ? this.condition(body, first) : body;
  }

  /** Operators of at least this level, from left to right. */
  private expression(least: number): Body {
    if (++this.depth > DEEPEST_CONDITION) {
      this.refuse("formula-too-deep", "the expression has too many levels", this.peek());
    }
    const first = this.peek();
    let body = this.prefixed();
    for (;;) {
      const token = this.peek();
      const level = LEVEL.get(token.text) ?? 0;
      if (token.kind === "end" || level < least || level === 0) break;
      this.at++;
      // A power joins from the right, so that 2^3^2 is 2^9.
      const right = this.expression(token.text === "^" ? level : level + 1);
      body = this.joined(token, body, right, first);
    }
    this.depth--;
    return body;
  }

  private prefixed(): Body {
    const token = this.peek();
    if (token.text === "not" && token.kind === "name") {
      this.at++;
      return { kind: "not", of: this.condition(this.expression(NOT), token) };
    }
    if (token.text !== "-") return this.primary();
    this.at++;
    return {
      kind: "value",
      tree: { kind: "negate", of: this.value(this.expression(MINUS), token) },
    };
  }

  private joined(token: Token, left: Body, right: Body, first: Token): Body {
    const operator = token.text;
    if (operator === "and" || operator === "or") {
      return {
        kind: operator,
        left: this.condition(left, first),
        right: this.condition(right, token),
      };
    }
    if (COMPARISONS.has(operator) && left.kind === "compare") {
      this.refuse("formula-comparison", "comparisons do not chain: write a < b and b < c", token);
    }
    const sides = { left: this.value(left, first), right: this.value(right, token) };
    if (COMPARISONS.has(operator)) {
      const comparison = { operator: operator as Comparison["operator"], ...sides };
      return { kind: "compare", comparison };
    }
    const tree: Tree = { kind: "binary", operator: operator as BinaryOperator, ...sides };
    if (depthOf(tree) > DEEPEST_TREE) {
      this.refuse("formula-too-deep", "the expression has too many levels", token);
    }
    return { kind: "value", tree };
  }

  private primary(): Body {
    const token = this.peek();
    this.at++;
    if (token.text === "(") {
      const body = this.expression(1);
      this.expect(")");
      return body;
    }
    if (token.kind === "number") return { kind: "value", tree: this.number(token) };
    if (token.kind === "name") return { kind: "value", tree: this.name(token) };
    const what = token.kind === "end" ? "the expression ends too early" : "a value was expected";
    return this.refuse("formula-syntax", what, token);
  }

  private number(token: Token): Tree {
    const unit = this.peek();
    if (unit.kind !== "unit") return { kind: "number", value: Number(token.text) };
    this.at++;
    const written = `${token.text} ${unit.text}`;
    try {
      const { value, unit: read } = readAnyQuantity(written);
      return { kind: "number", value, unit: read.text, written };
    } catch (error) {
      if (!(error instanceof TenfoldError)) throw error;
      const place = placeAt(this.source, unit.at, unit.text.length);
      const fix = "put blanks around an operator that follows a unit";
      throw new TenfoldError(error.problems.map((problem) => ({ fix, ...problem, place })));
    }
  }

  private name(token: Token): Tree {
    const called = this.peek().text === "(";
    checkName(this.source, token, called);
    if (called && isFunctionName(token.text)) {
      const of = this.list();
      const [fewest, most] = argumentCount(token.text);
      if (of.length < fewest || of.length > most) {
        const what = `${token.text} takes ${fewest === most ? fewest : `${fewest} to ${most}`}`;
        this.refuse("formula-arguments", `${what}, not ${of.length} arguments`, token);
      }
      return { kind: "call", name: token.text, of };
    }
    if (!this.names.has(token.text)) this.names.set(token.text, token.at);
    return { kind: "symbol", name: token.text };
  }

  private list(): Tree[] {
    this.expect("(");
    const of: Tree[] = [];
    if (this.peek().text !== ")") {
      do {
        const first = this.peek();
        of.push(this.value(this.expression(1), first));
      } while (this.accept(","));
    }
    this.expect(")");
    return of;
  }

  private value(body: Body, token: Token): Tree {
    if (body.kind === "value") return body.tree;
    return this.refuse("expression-kind", "a value was expected here, not a comparison", token);
  }

  private condition(body: Body, token: Token): Condition {
    if (body.kind !== "value") return body;
    const what = "a comparison was expected here, such as read_latency <= 10 ns";
    return this.refuse("expression-kind", what, token);
  }

  private peek(): Token {
    return this.tokens[Math.min(this.at, this.tokens.length - 1)]!;
  }

  private accept(sign: string): boolean {
    if (this.peek().text !== sign) return false;
    this.at++;
    return true;
  }

  private expect(sign: string): void {
    if (!this.accept(sign)) this.refuse("formula-syntax", `"${sign}" was expected`, this.peek());
  }

  private refuseRest(token: Token): never {
    const operand = token.kind !== "sign" || token.text === "(";
    return operand
      ? this.refuse("formula-operator", `an operator is missing before "${token.text}"`, token)
      : this.refuse("formula-syntax", `"${token.text}" is out of place`, token);
  }

  private refuse(code: Problem["code"], what: string, token: Token): never {
    return refuse({ code, what, place: placeAt(this.source, token.at, token.text.length) });
  }
}
