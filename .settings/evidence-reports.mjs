// The evidence as a report with its chart, and the model error that follows from it as a file of data.
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const HEAD = `# Made by the reports script from \`tenfold evidence --format json\`; not to be changed by hand.
# Of ln(predicted / published), by quantity and kind: chips, those recalled from memory (weight one
# half), median ratio, effective number of chips, spread about the median (three chips or more);
# within: the spread within kinds, pooled.
format: tenfold.error/1
name: model-error
title: Model error against published silicon
about: >
  What the models get wrong and what the papers leave unsaid are both in it. Latencies of parts
  above 64 Mibit are left out.
`;
const digits = (x) => Number(x.toPrecision(4));

function sampleLine({ chips, recalled, median, effective, spread }) {
  const rest = spread === undefined ? "" : `, spread: ${digits(spread)}`;
  return `{chips: ${chips}, recalled: ${recalled}, median: ${digits(median)}, effective: ${digits(effective)}${rest}}`;
}

function modelError(errors) {
  const lines = Object.entries(errors).flatMap(([quantity, { all, kinds, within }]) => [
    `  ${quantity}:`,
    `    all: ${sampleLine(all)}`,
    "    kinds:",
    ...Object.entries(kinds).map(([kind, sample]) => `      ${kind}: ${sampleLine(sample)}`),
    ...(within === undefined
      ? []
      : [`    within: {spread: ${digits(within.spread)}, freedom: ${digits(within.freedom)}}`]),
  ]);
  return `${HEAD}quantities:\n${lines.join("\n")}\n`;
}

/** The report with its chart behind the title and the line below it. */
function withChart(text) {
  const [title, subtitle, ...rest] = text.split("\n\n");
  const picture = "![Predicted against published figures; the table of ratios says the same](evidence.svg)";
  return [title, subtitle, picture, ...rest].join("\n\n");
}

/** Path → text. */
export function evidenceReports(tenfold) {
  const folder = mkdtempSync(join(tmpdir(), "tenfold-"));
  const chart = join(folder, "chart.svg");
  try {
    const { model_error } = JSON.parse(tenfold("evidence", "--format", "json", "--chart", chart));
    return [
      ["reports/evidence.md", withChart(tenfold("evidence", "--format", "markdown"))],
      ["reports/evidence.csv", tenfold("evidence", "--format", "csv")],
      ["reports/evidence.svg", readFileSync(chart, "utf8")],
      ["shared/evidence/model-error.yaml", modelError(model_error)],
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
