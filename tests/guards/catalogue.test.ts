import { readdirSync, readFileSync } from "node:fs";
import { load } from "js-yaml";
import { describe, expect, test } from "vitest";
import { Catalogue, KIND, KINDS, LITERAL_SOURCES } from "../../src/catalogue/index.ts";
import { SHARED, sharedLoader } from "../catalogue/shared.ts";

const catalogue = new Catalogue(sharedLoader);
const sources = catalogue.sources();
const entries = KINDS.flatMap((kind) => catalogue.names(kind).map((name) => ({ kind, name })));

function textOf(path: string): string {
  return readFileSync(new URL(path, SHARED), "utf8");
}

/** Every file under `shared/` with its path from there. */
const files = readdirSync(SHARED, { recursive: true, encoding: "utf8" }).filter((path) =>
  path.endsWith(".yaml"),
);

/** The project's own code: formulas and constants cite sources too. */
function codeTexts(): string[] {
  const src = new URL("../../src/", import.meta.url);
  return readdirSync(src, { recursive: true, encoding: "utf8" })
    .filter((path) => path.endsWith(".ts"))
    .map((path) => readFileSync(new URL(path, src), "utf8"));
}

/** Everything that stands after `source:`, at any depth. */
function sourcesIn(value: unknown): string[] {
  if (Array.isArray(value)) return value.flatMap(sourcesIn);
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) =>
    key === "source" && typeof inner === "string" ? [inner] : sourcesIn(inner),
  );
}

describe("every catalogue file", () => {
  test("holds at least what the interface promises", () => {
    expect(catalogue.names("technology").filter((name) => /^cmos-\d+$/.test(name))).toHaveLength(
      11,
    );
    expect(catalogue.names("switch").length).toBeGreaterThanOrEqual(8);
    expect(catalogue.names("selector").length).toBeGreaterThanOrEqual(6);
    expect(catalogue.names("baseline").length).toBeGreaterThanOrEqual(14);
    expect(catalogue.names("chip")).toHaveLength(61);
  });

  test.each(entries)("$kind $name reads without a mistake", ({ kind, name }) => {
    const entry = catalogue.find(kind, name);
    expect(entry.title.length).toBeGreaterThan(3);
    expect(entry.about.split(/\s+/).length).toBeGreaterThan(8);
  });

  test.each(entries)(
    "$kind $name gives a unit, source and basis with every value",
    ({ kind, name }) => {
      const raw = load(textOf(`${KIND[kind].folder}/${name}.yaml`)) as {
        values?: Record<string, Record<string, unknown>>;
      };
      const needed = KIND[kind].measured
        ? ["value", "source", "basis"]
        : ["value", "low", "high", "source", "basis"];
      for (const [field, value] of Object.entries(raw.values ?? {})) {
        for (const key of needed) expect(value[key], `${field} has no ${key}`).toBeDefined();
        const unit = KIND[kind].fields[field]!.unit;
        if (unit !== "1") expect(String(value["value"]), field).toMatch(/^-?[\d.e+-]+ \S/);
      }
    },
  );

  test.each(entries)("$kind $name cites sources that are listed", ({ kind, name }) => {
    for (const parameter of Object.values(catalogue.find(kind, name).values)) {
      const listed =
        sources.has(parameter.source) ||
        (LITERAL_SOURCES as readonly string[]).includes(parameter.source);
      expect(listed, `${parameter.name} cites ${parameter.source}`).toBe(true);
    }
  });

  test.each(entries.filter(({ kind }) => kind !== "chip"))(
    "$kind $name resolves to everything that its kind needs",
    ({ kind, name }) => {
      const context = {
        feature: catalogue.resolve("technology", "cmos-65").parameters["feature"]!,
      };
      const resolved = catalogue.resolve(kind, name, context);
      const computed = new Set(resolved.sheets.flatMap((one) => Object.keys(one.formulas)));
      for (const [field, definition] of Object.entries(KIND[kind].fields)) {
        const has = resolved.parameters[field] !== undefined || computed.has(field);
        if (definition.required) expect(has, field).toBe(true);
      }
    },
  );

  test("with a basis of memory or default is marked so in its note where it is of a class", () => {
    for (const { kind, name } of entries) {
      for (const value of Object.values(catalogue.find(kind, name).values)) {
        if (value.source !== "typical-classes" || value.basis === "derived") continue;
        expect(value.note, `${kind} ${name} ${value.name}`).toMatch(
          /^typical of its class, from memory/,
        );
      }
    }
  });

  test("with a single figure of a class has a range", () => {
    for (const { kind, name } of entries) {
      for (const value of Object.values(catalogue.find(kind, name).values)) {
        if (value.source !== "typical-classes" || value.value === 1) continue;
        expect(value.high, `${kind} ${name} ${value.name}`).toBeGreaterThan(value.low);
      }
    }
  });
});

describe("the sources", () => {
  test("are all used by some file", () => {
    const used = new Set(files.flatMap((path) => sourcesIn(load(textOf(path)))));
    const texts = files.filter((path) => path !== "sources.yaml").map(textOf);
    const mentioned = [...texts, ...codeTexts()].join("\n");
    const unused = [...sources.keys()].filter((key) => !used.has(key));
    expect(unused.filter((key) => !mentioned.includes(key))).toEqual([]);
  });

  test("of the checks are listed too", () => {
    for (const path of files.filter((file) => file.startsWith("checks/"))) {
      for (const source of sourcesIn(load(textOf(path)))) {
        const listed =
          sources.has(source) || (LITERAL_SOURCES as readonly string[]).includes(source);
        expect(listed, `${path} cites ${source}`).toBe(true);
      }
    }
  });

  test("have no digital object identifier that stands twice", () => {
    const seen = [...sources.values()].flatMap(({ doi }) => (doi === undefined ? [] : [doi]));
    expect(new Set(seen).size).toBe(seen.length);
    for (const doi of seen) expect(doi).toMatch(/^10\.\d{4,}\/\S+$/);
  });
});

describe("the texts of shared data", () => {
  test.each(files)("%s has short lines, no tabs and names no host or machine path", (path) => {
    const text = textOf(path);
    expect(text).not.toMatch(/\t|https?:|www\.|\/work\/|\/home\/|\/tmp\/|\.\.\/shared/);
    expect(text).not.toMatch(/\bTODO\b|\bFIXME\b/);
    if (path !== "checks/reliability-checks.yaml" && path !== "checks/delay-checks.yaml") {
      for (const line of text.split("\n")) expect(line.length, line).toBeLessThanOrEqual(100);
    }
  });

  test.each(files)("%s says what it is", (path) => {
    const raw = load(textOf(path)) as Record<string, unknown>;
    // The studies of the evidence are studies, which are read as such in their own tests.
    const study = path.startsWith("evidence/") && raw["designs"] !== undefined;
    if (!study) expect(raw["format"]).toMatch(/^tenfold\.[a-z]+\/\d+$/);
    if (path === "sources.yaml") return;
    if (!study) expect(`${path.split("/")[1]}`).toBe(`${String(raw["name"])}.yaml`);
    expect(String(raw["title"]).length).toBeGreaterThan(3);
    expect(String(raw["about"]).length).toBeGreaterThan(40);
  });
});
