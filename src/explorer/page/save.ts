import { button, byId, made } from "./dom.ts";

/** Kinds of files, by the ending of their names. */
const TYPES: Readonly<Record<string, string>> = {
  md: "text/markdown",
  html: "text/html",
  tex: "application/x-tex",
  csv: "text/csv",
  json: "application/json",
  bib: "application/x-bibtex",
  svg: "image/svg+xml",
  yaml: "application/yaml",
};

const NAMES: Readonly<Record<string, string>> = {
  "report.md": "Report in Markdown",
  "report.html": "Report in HTML",
  "report.tex": "Report in LaTeX",
  "report.json": "Report in JSON",
  "estimate.json": "Estimate in JSON",
  "comparison.json": "Comparison in JSON",
  "sources.bib": "Sources in BibTeX",
  "sources.json": "Sources in CSL-JSON",
};

/** Gives the user a file. */
export function download(name: string, content: string): void {
  const ending = name.split(".").at(-1)!;
  const type = `${TYPES[ending] ?? "text/plain"};charset=utf-8`;
  const address = URL.createObjectURL(new Blob([content], { type }));
  const link = made("a");
  link.href = address;
  link.download = name;
  link.click();
  // The browser has taken the content by then.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** The menu of all that can be saved. */
export class SaveMenu {
  private readonly list = byId("files");

  /**
   * @param paths of the report's files
   * @param save is asked for one of them, or for the study
   */
  show(paths: readonly string[], file: string, save: (path: string | undefined) => void): void {
    const item = (words: string, path: string | undefined): HTMLElement =>
      made(
        "li",
        "",
        button(words, () => save(path)),
      );
    this.list.replaceChildren(
      item(`Study: ${file}`, undefined),
      ...paths.map((path) => item(wordsOf(path), path)),
    );
  }
}

function wordsOf(path: string): string {
  const known = NAMES[path];
  if (known !== undefined) return known;
  const [folder, name] = path.split("/");
  if (name === undefined) return path;
  const words = name.replace(/\.\w+$/, "").replaceAll("_", " ");
  return folder === "charts" ? `Chart in SVG: ${words}` : `Table in CSV: ${words}`;
}
