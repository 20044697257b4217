import { estimateData } from "../../../studies/estimate-data.ts";
import { bibtex, cslItems } from "../../bibliography.ts";
import { svgFile } from "../../charts/svg.ts";
import type { Picture } from "../../document/document.ts";
import { csvFiles } from "../../renderers/csv.ts";
import { renderHtml } from "../../renderers/html/html.ts";
import { renderJson } from "../../renderers/json.ts";
import { renderLatex } from "../../renderers/latex/latex.ts";
import { renderMarkdown } from "../../renderers/markdown.ts";
import { comparisonData } from "../comparison-data.ts";
import { type ReportMatter, reportDocument } from "./report.ts";
import { reportData } from "./report-data.ts";

/** A report in every format: path within its directory → text. */
export function reportFiles(matter: ReportMatter): ReadonlyMap<string, string> {
  const { estimate, provenance, references } = matter;
  const document = reportDocument(matter);
  const pictures = document.blocks.filter((one): one is Picture => one.kind === "picture");
  return new Map([
    ["report.md", renderMarkdown(document)],
    ["report.html", renderHtml(document)],
    ["report.tex", renderLatex(document, { standalone: true })],
    ["report.json", renderJson(reportData(document, provenance))],
    ["estimate.json", renderJson(estimateData(estimate, provenance))],
    ["comparison.json", renderJson(comparisonData(estimate, provenance))],
    ["sources.bib", bibtex(references)],
    ["sources.json", renderJson(cslItems(references))],
    ...pictures.map(({ name, svg }) => [`charts/${name}.svg`, svgFile(svg)] as const),
    ...[...csvFiles(document)].map(([name, csv]) => [`tables/${name}.csv`, csv] as const),
  ]);
}
