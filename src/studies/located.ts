import { nearestWord } from "../errors/nearest.ts";
import { type Problem, refuse, TenfoldError } from "../errors/problem.ts";
import { checkExpression, type Expression, parseExpression } from "../formulas/expression.ts";
import type { ExpressionKind } from "../formulas/reader.ts";
import type { Study } from "../schema/study.ts";

/**
 * Refuses a word of a study's section, with the nearest right one.
 *
 * @param path JSON pointer of the word; undefined where it stands on the command line
 */
export function refuseWord(
  study: Study,
  path: string | undefined,
  what: string,
  got: string,
  known: readonly string[],
  code = "unknown-word",
): never {
  const nearest = nearestWord(got, known);
  return refuse({
    code,
    what,
    got,
    ...(path !== undefined && { path, place: study.place(path) }),
    ...(known.length <= 12 && known.length > 0 && { expected: `one of ${known.join(", ")}` }),
    ...(nearest !== undefined && { nearest }),
  });
}

/**
 * Parses an expression of a study and checks names and dimensions.
 *
 * @param path JSON pointer of the text
 * @param units SI unit of each name that may be read
 * @throws TenfoldError with places in the study
 */
export function studyExpression(
  study: Study,
  path: string,
  text: string,
  kind: ExpressionKind,
  units: ReadonlyMap<string, string>,
): Expression {
  const { file, line, column, text: lineText } = study.place(path);
  // A quoted text begins one column after its mark.
  const quoted = lineText?.charAt(column - 1) === '"' || lineText?.charAt(column - 1) === "'";
  const source = {
    text,
    file,
    line,
    column: quoted ? column + 1 : column,
    ...(lineText !== undefined && { lineText }),
  };
  const expression = parseExpression(source, kind);
  const problems: Problem[] = checkExpression(expression, units);
  if (problems.length > 0) throw new TenfoldError(problems.map((one) => ({ ...one, path })));
  return expression;
}
