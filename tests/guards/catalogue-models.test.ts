/** Every source that a model, a formula or a constant cites is in the list of sources. */
import { readdirSync } from "node:fs";
import { expect, test } from "vitest";
import { Catalogue, LITERAL_SOURCES } from "../../src/catalogue/index.ts";
import { sharedLoader } from "../catalogue/shared.ts";

const SRC = new URL("../../src/", import.meta.url);
const FOLDERS = ["models", "estimate", "catalogue", "formulas", "quantities"];

const files = FOLDERS.flatMap((folder) =>
  readdirSync(new URL(`${folder}/`, SRC), { recursive: true, encoding: "utf8" })
    .filter((path) => path.endsWith(".ts"))
    .map((path) => `${folder}/${path}`),
);

/** Every `source` at any depth of what a module exports, with where it stands. */
function sourcesIn(value: unknown, where: string, seen: Set<unknown>): [string, string][] {
  if (typeof value !== "object" || value === null || seen.has(value)) return [];
  seen.add(value);
  const entries = value instanceof Map ? [...value.entries()] : Object.entries(value);
  return entries.flatMap(([key, inner]): [string, string][] =>
    key === "source" && typeof inner === "string"
      ? [[where, inner]]
      : sourcesIn(inner, `${where} ${String(key)}`, seen),
  );
}

const known = new Catalogue(sharedLoader).sources();
const literal: readonly string[] = LITERAL_SOURCES;

test.each(files)("src/%s cites listed sources alone", async (path) => {
  const exported: Record<string, unknown> = { ...(await import(new URL(path, SRC).href)) };
  const unlisted = sourcesIn(exported, path, new Set())
    .filter(([, source]) => !known.has(source) && !literal.includes(source))
    .map(([where, source]) => `${where} cites ${source}`);
  expect(unlisted).toEqual([]);
});
