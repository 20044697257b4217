import type { TestedStudy } from "../../studies/claim/claims.ts";
import type { Question, Verdict } from "../../studies/claim/verdict.ts";
import type { Cell, Document } from "../document/document.ts";
import { quantity, text } from "../document/make.ts";

const COLUMNS = [
  "claim",
  "function",
  "capacity",
  "boundary",
  "comparison",
  "number",
  "verdict",
  "saved_per_switch",
  "share_of_draws",
  "limit",
];

/** All claims in one table, a row for each boundary, and for each capacity of a claim about all functions. */
export function claimTable({ study, claims, surveys }: TestedStudy): Document {
  return {
    title: study.title,
    blocks: [
      {
        kind: "table",
        name: "claims",
        columns: COLUMNS.map((name) => ({ name, title: name.replaceAll("_", " ") })),
        rows: [
          ...surveys.flatMap(({ name, boundary, capacities, rows, question }) =>
            rows.flatMap(({ definition, points }) =>
              points.map(({ saved, share }, i) => {
                const verdict = share >= question.holdsWith ? "holds" : "does not hold";
                const known = { boundary, verdict, saved, share };
                return row(name, definition.name, capacities[i]!, question, known);
              }),
            ),
          ),
          ...claims.flatMap(({ name, definition, sides, question, verdicts }) =>
            verdicts.map((verdict) =>
              row(name, definition.name, sides.capacity, question, verdict),
            ),
          ),
        ],
      },
    ],
  };
}

type Known = Pick<Verdict, "boundary" | "saved" | "share"> & {
  readonly verdict: string;
  readonly limit?: Verdict["limit"];
};

function row(
  claim: string,
  of: string,
  capacity: number,
  { wanted }: Question,
  { boundary, verdict, saved, share, limit }: Known,
): Cell[] {
  return [
    text(claim),
    text(of),
    quantity("1", capacity),
    text(boundary),
    text(wanted.comparison),
    quantity("1", wanted.number),
    text(verdict),
    quantity("1", saved),
    quantity("1", share),
    limit === undefined ? { kind: "none" } : quantity("1", limit),
  ];
}
