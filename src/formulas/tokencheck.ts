/** Checks on the tokens of a formula that the parser's tree can no longer place. */

import { refuse } from "../errors/problem.ts";
import { isFunctionName, isReserved } from "./names.ts";
import { type Located, placeAt, type Token } from "./tokens.ts";
import { FUNCTIONS } from "./tree.ts";

/**
 * Refuses what no formula may hold: unknown functions, reserved words as names, a missing operator.
 *
 * @throws TenfoldError `formula-function`, `formula-name`, `formula-operator`
 */
export function checkTokens(source: Located, tokens: readonly Token[]): void {
  tokens.forEach((token, index) => {
    if (token.kind === "name") checkName(source, token, tokens[index + 1]?.text === "(");
  });
  tokens.forEach((token, index) => {
    const next = tokens[index + 1];
    if (next && endsOperand(token) && startsOperand(next) && !isFunctionName(token.text)) {
      refuse({
        code: "formula-operator",
        what: `an operator is missing between "${token.text}" and "${next.text}"`,
        place: placeAt(source, next.at, next.text.length),
        expected: "a product is written with *",
      });
    }
  });
}

/** Refuses a name that is reserved, or a call of what is not listed. */
export function checkName(source: Located, token: Token, called: boolean): void {
  const place = placeAt(source, token.at, token.text.length);
  if (called && !isFunctionName(token.text)) {
    refuse({
      code: "formula-function",
      what: `"${token.text}" is not a function that a formula may call`,
      place,
      got: token.text,
      expected: FUNCTIONS.join(", "),
      fix: "for a product of a name and a bracket, write the *",
    });
  }
  if (!called && isReserved(token.text)) {
    refuse({
      code: "formula-name",
      what: isFunctionName(token.text)
        ? `the function "${token.text}" needs its arguments in brackets`
        : `"${token.text}" cannot be the name of a quantity`,
      place,
      got: token.text,
    });
  }
}

function endsOperand(token: Token): boolean {
  return token.kind === "number" || token.kind === "name" || token.text === ")";
}

function startsOperand(token: Token): boolean {
  return token.kind === "number" || token.kind === "name" || token.text === "(";
}
