import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { Catalogue, KIND, KINDS } from "../../src/catalogue/index.ts";
import { DEFAULTS } from "../../src/estimate/parameters.ts";
import { parseFormula } from "../../src/formulas/parse.ts";
import { formulaText } from "../../src/formulas/print.ts";
import type { Procedure, Sheet } from "../../src/formulas/sheet.ts";
import { escapeMarkdown } from "../../src/report/renderers/markdown.ts";
import { sharedLoader } from "../catalogue/shared.ts";

const ROOT = new URL("../../", import.meta.url);
const PAGES = new URL("reports/handbook/", ROOT);
const pages = readdirSync(PAGES).map((name) => readFileSync(new URL(name, PAGES), "utf8"));
const handbook = pages.join("\n");
const html = readFileSync(new URL("reports/handbook.html", ROOT), "utf8");
const index = readFileSync(new URL("reports/handbook.md", ROOT), "utf8");

/** Files that declare models: each is read, so that a new one can't be forgotten. */
const files = ["src/models/", "src/catalogue/", "src/estimate/"].flatMap((folder) =>
  readdirSync(new URL(folder, ROOT), { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".ts") && !name.endsWith("index.ts"))
    .map((name) => `${folder}${name}`),
);

type Model = Sheet | Procedure;
const isModel = (value: unknown): value is Model =>
  typeof value === "object" &&
  value !== null &&
  "kind" in value &&
  "inputs" in value &&
  (value.kind === "sheet" || value.kind === "procedure");

const models: { model: Model; file: string }[] = [];
for (const file of files) {
  const exported: Record<string, unknown> = await import(new URL(file, ROOT).href);
  for (const value of Object.values(exported)) {
    if (isModel(value)) models.push({ model: value, file });
  }
}

test("the test sees the models", () => {
  expect(models.length).toBeGreaterThan(80);
});

describe("the handbook has", () => {
  test.each(models)("a page for $model.name, with the file and what it says", ({ model, file }) => {
    const page = sectionOf(`## ${escapeMarkdown(`${model.title}: ${model.name}`)}`);
    expect(page).toContain(`Stands in ${file}.`);
    expect(page).toContain(escapeMarkdown(model.about));
    for (const [name, { unit, meaning }] of Object.entries(model.inputs)) {
      expect(page).toContain(`| ${name} |`);
      expect(page).toContain(`${escapeMarkdown(unit)} | ${escapeMarkdown(meaning)} |`);
    }
    if (model.kind === "procedure") return;
    for (const [name, { formula, unit, meaning, source, note }] of Object.entries(model.formulas)) {
      expect(page).toContain(`\n${name} = ${formulaText(parseFormula(formula))}\n`);
      expect(page).toContain(escapeMarkdown(`[${unit}] ${meaning}; source: ${source}`));
      if (note !== undefined) expect(page).toContain(escapeMarkdown(note));
    }
  });

  test.each([...DEFAULTS.values()])("the default $name with source and meaning", (one) => {
    const row = sectionOf("## Defaults of the models")
      .split("\n")
      .find((line) => line.startsWith(`| ${one.name} |`));
    expect(row).toContain(escapeMarkdown(`${one.source} (${one.basis})`));
    expect(row).toContain(escapeMarkdown(one.meaning));
  });

  test("every entry of the catalogue with its sources, and every source", () => {
    const catalogue = new Catalogue(sharedLoader);
    for (const kind of KINDS) {
      for (const name of catalogue.names(kind)) {
        const row = handbook
          .split(`\n## Catalogue: ${KIND[kind].plural}\n`)[1]!
          .split("\n")
          .find((line) => line.startsWith(`| ${name} |`));
        for (const { source } of Object.values(catalogue.find(kind, name).values)) {
          expect(row).toContain(escapeMarkdown(source));
        }
      }
    }
    for (const key of catalogue.sources().keys()) expect(handbook).toContain(`| ${key} |`);
  });
});

test("every link of the index leads to a heading, and every page of HTML links to its own", () => {
  const links = [...index.matchAll(/\]\(handbook\/([^#]*)#([^)]*)\)/g)];
  expect(links.length).toBeGreaterThan(100);
  for (const [, file, anchor] of links) {
    const page = readFileSync(new URL(file!, PAGES), "utf8");
    expect(page, `${file} links to its own heading`).toContain(`](#${anchor})`);
  }
  const ids = new Set([...html.matchAll(/ id="([^"]*)"/g)].map((match) => match[1]));
  for (const [, anchor] of html.matchAll(/href="#([^"]*)"/g)) expect(ids).toContain(anchor);
});

test("every sheet names its source by a key that the list of sources has", () => {
  const keys = new Set(new Catalogue(sharedLoader).sources().keys());
  const known = (source: string) =>
    keys.has(source) || source === "common practice" || source === "this project";
  for (const { model } of models) {
    const used =
      model.kind === "sheet" ? Object.values(model.formulas).map((f) => f.source) : [model.source];
    for (const source of used) expect(known(source), `${model.name}: ${source}`).toBe(true);
  }
});

/** A page from its heading to the next one. */
function sectionOf(heading: string): string {
  const start = handbook.indexOf(`\n${heading}\n`);
  expect(start, `no heading "${heading}"`).toBeGreaterThanOrEqual(0);
  const end = handbook.slice(start + 5).search(/\n#{2,3} /);
  return end < 0 ? handbook.slice(start) : handbook.slice(start, start + 5 + end);
}
