/** What an editor says of a study while it is typed, by the language server's own library for YAML. */
import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { TextDocument } from "vscode-languageserver-textdocument";
import { ROOT, tenfold } from "./run.ts";

interface Service {
  configure(settings: object): void;
  doValidation(document: TextDocument, kubernetes: boolean): Promise<Finding[]>;
  doComplete(
    document: TextDocument,
    position: { line: number; character: number },
    kubernetes: boolean,
  ): Promise<{ items: { label: string; documentation?: unknown }[] }>;
  doHover(
    document: TextDocument,
    position: { line: number; character: number },
  ): Promise<{ contents: unknown } | null>;
}

interface Finding {
  readonly message: string;
  readonly range: { readonly start: { readonly line: number; readonly character: number } };
}

const { getLanguageService } = createRequire(import.meta.url)("yaml-language-server") as {
  getLanguageService(options: object): Service;
};

const nothing = () => undefined;
const service = getLanguageService({
  schemaRequestService: () => Promise.reject(new Error("no schema is fetched")),
  workspaceContext: { resolveRelativePath: (path: string) => path },
  telemetry: { send: nothing, sendError: nothing, sendTrack: nothing },
});
service.configure({
  validate: true,
  completion: true,
  hover: true,
  schemas: [
    {
      uri: "file:///study.schema.json",
      fileMatch: ["*.yaml"],
      schema: JSON.parse(tenfold(["schema"]).out),
    },
  ],
});

/** Each text is another version: the service remembers what it has parsed. */
let version = 0;
const documentOf = (text: string) =>
  TextDocument.create("file:///study.yaml", "yaml", ++version, text);
const findingsIn = (text: string) => service.doValidation(documentOf(text), false);

/** Completions where the text holds a bar. */
async function completed(text: string): Promise<string[]> {
  const at = text.indexOf("|");
  const document = documentOf(text.slice(0, at) + text.slice(at + 1));
  const { items } = await service.doComplete(document, document.positionAt(at), false);
  return items.map(({ label }) => label);
}

describe("good studies", () => {
  const files = readdirSync(join(ROOT, "configs")).filter((file) => {
    // What `tenfold switch` reads is no study.
    return (
      file.endsWith(".yaml") && /^designs:/m.test(readFileSync(join(ROOT, "configs", file), "utf8"))
    );
  });
  test.each(files)("%s has no finding", async (file) => {
    const told = await findingsIn(readFileSync(join(ROOT, "configs", file), "utf8"));
    expect(told.map(({ message, range }) => `${range.start.line + 1}: ${message}`)).toEqual([]);
  });
});

describe("bad studies", () => {
  const head = "title: x\ntechnology: cmos-65\ndesigns:\n  one:\n    cell: sram-6t\n";
  test.each([
    ["a key that is none", `${head}    capacty: 1 Mib\n`, 5, /capacty/],
    ["a key that is none, at the top", `${head}desings: {}\n`, 5, /desings/],
    ["a word that is none", `${head}    error_correction: tripple\n`, 5, /single-double|Value/],
    ["a mapping in place of a value", `${head}    capacity: {a: 1}\n`, 5, /string|type/],
    ["a number below its least", `${head}    banks: 0\n`, 5, /minimum|Value|0/],
    ["no title", "technology: cmos-65\ndesigns: {one: {cell: sram-6t}}\n", 0, /title/],
    ["a list that isn't closed, where the text ends", `${head}    tile: {rows: 4\n`, 6, /./],
  ])("%s is found on its line", async (_, text, line, message) => {
    const told = await findingsIn(text);
    expect(told.map((one) => one.message).join("; ")).toMatch(message);
    expect(told.map(({ range }) => range.start.line)).toContain(line);
  });
});

describe("while a study is typed", () => {
  test("the keys at the top are offered", async () => {
    const offered = await completed("title: x\n|");
    expect(offered).toEqual(expect.arrayContaining(["technology", "designs", "baseline", "sweep"]));
  });

  test("the keys of a design are offered", async () => {
    const offered = await completed("title: x\ndesigns:\n  one:\n    |");
    expect(offered).toEqual(expect.arrayContaining(["cell", "capacity", "word", "tile"]));
  });

  test("the words of a field are offered", async () => {
    const offered = await completed("title: x\ndesigns:\n  one:\n    bias: |");
    expect(offered).toEqual(expect.arrayContaining(["one-half", "one-third", "grounded"]));
  });

  test("a key under the pointer is explained with its unit and default", async () => {
    const text = "title: x\ndesigns:\n  one:\n    supply: 1.2 V\n";
    const document = documentOf(text);
    const hover = await service.doHover(document, document.positionAt(text.indexOf("supply") + 2));
    expect(JSON.stringify(hover?.contents)).toMatch(/supply.*V/);
  });
});
