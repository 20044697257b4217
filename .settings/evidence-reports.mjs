// The evidence as a report with its chart, and the model error that follows from it as a file of data.
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const HEAD = `# Made by the reports script from \`tenfold evidence --format json\`; not to be changed by hand.
# Predicted over published: median, and the factor about it that a further chip stays within in 95 %
# of cases (lognormal, widened for few chips). Fewer than two chips give no factor.
format: tenfold.error/1
name: model-error
title: Model error against published silicon
about: >
  By quantity and kind of chip, with the number of chips. What the models get wrong and what the
  papers leave unsaid are both in it, and dies are compared with macros: it is an upper bound.
`;
const digits = (x) => Number(x.toPrecision(3));

/** Path → text. */
export function evidenceReports(tenfold) {
  const folder = mkdtempSync(join(tmpdir(), "tenfold-"));
  const chart = join(folder, "chart.svg");
  try {
    const { summaries } = JSON.parse(tenfold("evidence", "--format", "json", "--chart", chart));
    const quantities = [...new Set(summaries.map(({ quantity }) => quantity))];
    const lines = quantities.flatMap((quantity) => [
      `  ${quantity}:`,
      ...summaries
        .filter((one) => one.quantity === quantity)
        .map(({ kind, count, median, factor }) => {
          const spread = factor === undefined ? "" : `, factor: ${digits(factor)}`;
          return `    ${kind}: {chips: ${count}, median: ${digits(median)}${spread}}`;
        }),
    ]);
    return [
      ["reports/evidence.md", tenfold("evidence", "--format", "markdown")],
      ["reports/evidence.csv", tenfold("evidence", "--format", "csv")],
      ["reports/evidence.svg", readFileSync(chart, "utf8")],
      ["shared/evidence/model-error.yaml", `${HEAD}quantities:\n${lines.join("\n")}\n`],
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
