/** Formulas parsed ahead of time, so that a run needs no parser. */

import { fail } from "../errors/problem.ts";
import type { Parser } from "./expand.ts";
import type { Procedure, Sheet } from "./sheet.ts";
import type { Tree } from "./tree.ts";

/** Trees by the text of their formula. */
export type TreeTable = Readonly<Record<string, Tree>>;

/**
 * The trees of all formulas of the sheets, as a table that can be stored as JSON.
 *
 * @param models sheets; procedures among them have no formulas and are passed over
 * @param parse `parseFormula`
 * @throws TenfoldError for the first formula that cannot be read
 */
export function collectTrees(models: Iterable<Sheet | Procedure>, parse: Parser): TreeTable {
  const table: Record<string, Tree> = {};
  for (const model of models) {
    if (model.kind !== "sheet") continue;
    for (const { formula } of Object.values(model.formulas)) table[formula] ??= parse(formula);
  }
  return table;
}

/**
 * A parser that looks formulas up.
 *
 * @param table from `collectTrees`
 * @param fallback parses what the table lacks, and is asked once per text
 * @throws TenfoldError `formula-not-prepared` where the table lacks a text and there is no fallback
 */
export function parserFrom(table: TreeTable, fallback?: Parser): Parser {
  const known = new Map(Object.entries(table));
  return (text) => {
    const found = known.get(text);
    if (found) return found;
    if (!fallback) {
      return fail({
        code: "formula-not-prepared",
        what: "a formula was not parsed when the program was built",
        got: text,
      });
    }
    const tree = fallback(text);
    known.set(text, tree);
    return tree;
  };
}
