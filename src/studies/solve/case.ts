/** A case of the crossbar problem: plain objects from JSON or YAML to a typed problem. */

import { refuse } from "../../errors/problem.ts";
import { MOST_JUNCTIONS } from "../../estimate/crossbar/solve.ts";
import type { CrossbarProblem } from "../../numerics/crossbar/problem.ts";
import { junctionsOf } from "./case-pattern.ts";
import { terminalsOf } from "./case-terminals.ts";
import {
  asIndex,
  countAt,
  fieldsOf,
  listAt,
  needed,
  notNegativeAt,
  onlyKeys,
  shown,
  wordAt,
} from "./fields.ts";

export const BIASES = [
  "floating",
  "grounded",
  "one-half",
  "one-third",
  "dot-product",
  "custom",
] as const;
export type Bias = (typeof BIASES)[number];

/** A problem and what is asked of it. */
export interface CrossbarCase {
  readonly id: string;
  readonly title: string | undefined;
  readonly problem: CrossbarProblem;
  readonly selected: { readonly row: number; readonly column: number } | undefined;
  readonly bias: Bias | undefined;
  readonly probes: readonly (readonly [number, number])[];
}

const KEYS = [
  "id",
  "title",
  "rows",
  "columns",
  "wires",
  "kinds",
  "pattern",
  "terminals",
  "selected",
  "bias",
  "probes",
];
/** What a file of cases may carry beside a case, for checks: not read here. */
const CHECK_KEYS = [
  "expect",
  "tolerance",
  "sensitivity",
  "plain_error",
  "ill_conditioned",
  "closed_form",
];

function text(value: unknown): string | undefined {
  return value === undefined || value === null ? undefined : String(value);
}

/** Reads one case; refuses with a reason what has no meaning. */
export function readCase(value: unknown, at = "", name = "case"): CrossbarCase {
  const from = fieldsOf(value, at);
  onlyKeys(from, [...KEYS, ...CHECK_KEYS]);
  const rows = countAt(from, "rows");
  const columns = countAt(from, "columns");
  if (!(rows * columns <= MOST_JUNCTIONS)) {
    refuse({
      code: "too-large",
      what: `a crossbar of ${rows} × ${columns} lines is too large to solve`,
      path: `${at}/rows`,
      got: `${shown(rows * columns)} junctions`,
      expected: `at most ${MOST_JUNCTIONS} junctions`,
      fix: "solve one tile of it",
    });
  }
  const wires = fieldsOf(needed(from, "wires"), `${at}/wires`);
  onlyKeys(wires, ["row_resistance", "column_resistance"]);
  const rowResistance = notNegativeAt(wires, "row_resistance");
  const columnResistance = notNegativeAt(wires, "column_resistance");
  const junctions = junctionsOf(from, rows, columns);
  const terminals = terminalsOf(from, rows, columns);
  const place = (row: unknown, column: unknown, where: string) => ({
    row: asIndex(row, rows, `${where}/row`),
    column: asIndex(column, columns, `${where}/column`),
  });
  let selected: CrossbarCase["selected"];
  if (from.values["selected"] !== undefined && from.values["selected"] !== null) {
    const one = fieldsOf(from.values["selected"], `${at}/selected`);
    onlyKeys(one, ["row", "column"]);
    selected = place(needed(one, "row"), needed(one, "column"), one.at);
  }
  const probes = (from.values["probes"] === undefined ? [] : listAt(from, "probes")).map(
    (probe, k) => {
      const where = `${at}/probes/${k}`;
      if (!Array.isArray(probe) || probe.length !== 2) {
        refuse({
          code: "shape",
          what: `${where} must be a row and a column`,
          path: where,
          got: shown(probe),
          expected: "a list such as [0, 3]",
        });
      }
      const { row, column } = place(probe[0], probe[1], where);
      return [row, column] as const;
    },
  );
  return {
    id: text(from.values["id"]) ?? name,
    title: text(from.values["title"]),
    problem: { rows, columns, rowResistance, columnResistance, junctions, terminals },
    selected,
    bias: from.values["bias"] === undefined ? undefined : wordAt(from, "bias", BIASES),
    probes,
  };
}
