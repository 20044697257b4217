/** Expressions of users' files (targets, constraints): data with units, never code. */

import { nearestWord } from "../errors/nearest.ts";
import { fail, type Problem, TenfoldError } from "../errors/problem.ts";
import { constantOf } from "./constants.ts";
import { dimensionOfTree } from "./dimensions.ts";
import { compare, interpret } from "./interpret.ts";
import { formulaText } from "./print.ts";
import { type Condition, type ExpressionKind, readExpression, type Value } from "./reader.ts";
import { type Located, placeAt, tokenize } from "./tokens.ts";
import type { Tree } from "./tree.ts";

/** A parsed expression with its text. */
export interface Expression {
  readonly source: Located;
  readonly body: Value | Condition;
  /** The names that it reads, with the offset of the first use. */
  readonly names: ReadonlyMap<string, number>;
}

/**
 * Parses an expression: numbers with units (`10 ns`, `5 %`), names, + - * / ^, brackets, the
 * functions of `tree.ts`, comparisons, `and`, `or`, `not`. A unit is written without blanks and
 * without brackets.
 *
 * @param source the text, or the text with its place in a file
 * @param kind what is wanted: a `value`, a `condition`; either unless given
 * @throws TenfoldError with the place: the codes of `parseFormula`, `expression-kind`, and those of
 *   a bad unit
 */
export function parseExpression(source: string | Located, kind?: ExpressionKind): Expression {
  const located = typeof source === "string" ? { text: source, file: "expression" } : source;
  return { source: located, ...readExpression(located, tokenize(located, true), kind) };
}

/**
 * Mistakes that show only against the quantities that exist: unknown names, wrong dimensions.
 *
 * @param expression from `parseExpression`
 * @param units SI unit text of each quantity that may be read
 * @returns problems with their places; none if the expression can be evaluated
 */
export function checkExpression(
  expression: Expression,
  units: ReadonlyMap<string, string>,
): Problem[] {
  const { source, names, body } = expression;
  const unknown = [...names].filter(([name]) => !units.has(name) && !constantOf(name));
  if (unknown.length > 0) {
    return unknown.map(([name, at]) => {
      const nearest = nearestWord(name, units.keys());
      return {
        code: "unknown-symbol",
        what: `"${name}" is no quantity that is known here`,
        place: placeAt(source, at, name.length),
        got: name,
        ...(nearest === undefined ? {} : { nearest }),
      };
    });
  }
  return treesOf(body).flatMap((tree) => {
    try {
      dimensionOfTree(tree, units);
      return [];
    } catch (error) {
      if (!(error instanceof TenfoldError)) throw error;
      const place = placeAt(source, 0, source.text.length);
      return error.problems.map((problem) => ({ ...problem, place }));
    }
  });
}

/**
 * The value of an expression in SI, or whether its condition holds.
 *
 * @param expression checked with `checkExpression`
 * @param lookUp SI value of a name
 * @throws TenfoldError `not-finite` where a value is not a finite number
 */
export function evaluateExpression(
  expression: Expression,
  lookUp: (name: string) => number | undefined,
): number | boolean {
  const known = (name: string): number => lookUp(name) ?? constantOf(name)?.value ?? Number.NaN;
  const value = (tree: Tree): number => {
    const result = interpret(tree, known);
    if (Number.isFinite(result)) return result;
    const place = placeAt(expression.source, 0, expression.source.text.length);
    const what = `${formulaText(tree)} is not a finite number`;
    return fail({ code: "not-finite", what, place, got: String(result) });
  };
  const holds = (body: Condition): boolean => {
    switch (body.kind) {
      case "compare": {
        const { operator, left, right } = body.comparison;
        return compare(operator, value(left), value(right)) === true;
      }
      case "not":
        return !holds(body.of);
      case "and":
        return holds(body.left) && holds(body.right);
      case "or":
        return holds(body.left) || holds(body.right);
    }
  };
  const { body } = expression;
  return body.kind === "value" ? value(body.tree) : holds(body);
}

/** The text of an expression, with no bracket that is not needed. */
export function expressionText(body: Value | Condition): string {
  switch (body.kind) {
    case "value":
      return formulaText(body.tree);
    case "compare": {
      const { operator, left, right } = body.comparison;
      return `${formulaText(left)} ${operator} ${formulaText(right)}`;
    }
    case "not":
      return `not ${inner(body.of, ["and", "or"])}`;
    case "and":
      return `${inner(body.left, ["or"])} and ${inner(body.right, ["and", "or"])}`;
    case "or":
      return `${expressionText(body.left)} or ${inner(body.right, ["or"])}`;
  }
}

/** The text of a part, in brackets where it is of one of the kinds. */
function inner(body: Condition, kinds: readonly Condition["kind"][]): string {
  return kinds.includes(body.kind) ? `(${expressionText(body)})` : expressionText(body);
}

/** Trees whose dimensions tell whether the expression is sound; a comparison becomes one. */
function treesOf(body: Value | Condition): Tree[] {
  switch (body.kind) {
    case "value":
      return [body.tree];
    case "compare": {
      const zero: Tree = { kind: "number", value: 0 };
      return [{ kind: "choose", when: body.comparison, chosen: zero, otherwise: zero }];
    }
    case "not":
      return treesOf(body.of);
    default:
      return [...treesOf(body.left), ...treesOf(body.right)];
  }
}
