/** Solved crossbars as a document: the single figures as a table, lists by their extremes. */
import type { Answer, SolvedFile } from "../../studies/solve/file.ts";
import type { Block, Cell, Document } from "../document/document.ts";
import { heading, none, note, quantity, text } from "../document/make.ts";

function unitOf(name: string): string {
  if (name.includes("voltage")) return "V";
  if (name.includes("power")) return "W";
  return name.includes("error") ? "1" : "A";
}

function rowsOf(outputs: Readonly<Record<string, number | number[]>>): Cell[][] {
  return Object.entries(outputs).map(([name, value]) => {
    const unit = unitOf(name);
    if (!Array.isArray(value)) return [text(name), quantity(unit, value), none, none];
    let low = Infinity;
    let high = -Infinity;
    for (const v of value) {
      low = Math.min(low, v);
      high = Math.max(high, v);
    }
    const count = text(String(value.length));
    if (low === high) return [text(name), quantity(unit, low), none, count];
    return [text(name), quantity(unit, low), quantity(unit, high), count];
  });
}

function blocksOf(answer: Answer): Block[] {
  if ("error" in answer) {
    return answer.error.problems.map((p) => note("warning", `refused: ${p.code}: ${p.what}`));
  }
  const { outputs, solution } = answer;
  return [
    {
      kind: "table",
      name: "outputs",
      columns: [
        { name: "output", title: "output" },
        { name: "value", title: "value or least", align: "right" },
        { name: "most", title: "most", align: "right" },
        { name: "count", title: "numbers", align: "right" },
      ],
      rows: rowsOf(outputs),
    },
    note(
      "note",
      `Kirchhoff's law holds to ${solution.residual.toExponential(0)} at every node, energy to ` +
        `${solution.energyError.toExponential(0)}; ${solution.linearSolves} linear solves, ` +
        `${solution.iterations} iterations.`,
    ),
  ];
}

function titleOf(answer: Answer): string {
  if ("error" in answer) return answer.id;
  const { title, problem } = answer.case;
  return `${title ?? answer.id} (${problem.rows} x ${problem.columns})`;
}

export function solveDocument(solved: SolvedFile): Document {
  if (!solved.many) {
    const only = solved.answers[0]!;
    return { title: titleOf(only), blocks: blocksOf(only) };
  }
  return {
    title: `${solved.answers.length} crossbars`,
    blocks: solved.answers.flatMap((answer) => [heading(titleOf(answer)), ...blocksOf(answer)]),
  };
}
