import { Ajv2020 } from "ajv/dist/2020.js";
import { load } from "js-yaml";
import { describe, expect, it } from "vitest";
import { studyField } from "../../src/schema/definition.ts";
import type { AnyField } from "../../src/schema/field.ts";
import { jsonSchema } from "../../src/schema/json-schema.ts";
import { keyReference } from "../../src/schema/key-reference.ts";
import { read, STUDY, TABLES } from "./tables.ts";

const field = studyField(TABLES);
const schema = jsonSchema(field, "A study of tenfold");
// Ajv is an outside reader of JSON Schema 2020-12; strict mode refuses keywords that mean nothing.
const validate = new Ajv2020({ strict: true, strictTypes: false, allErrors: true }).compile(schema);

/** Every definition under `of`, with its dotted key. */
function everyField(of: AnyField, key = ""): [string, AnyField][] {
  const inside = (name: string, next: AnyField) => everyField(next, `${key}.${name}`);
  switch (of.kind) {
    case "group":
      return [
        [key, of],
        ...Object.entries(of.fields).flatMap(([name, next]) => inside(name, next)),
      ];
    case "named":
    case "list":
      return [[key, of], ...inside("*", of.of)];
    case "either":
      return [[key, of], ...everyField(of.plain, key), ...everyField(of.group, key)];
    default:
      return [[key, of]];
  }
}

describe("the JSON Schema of a study", () => {
  it("accepts what the reader accepts", () => {
    expect(validate(load(STUDY)), JSON.stringify(validate.errors)).toBe(true);
  });

  it.each([
    ["an unknown key", "baseline: static", "baselin: static"],
    ["a bare capacity", "1 Mib", "1048576"],
    ["an unknown bias", "one-half", "onehalf"],
    ["half a deck", "decks: 2", "decks: 2.5"],
    ["a list for a cell", "sram-6t", "[1]"],
    ["an unknown selector", "kind: transistor", "kind: tranzistor"],
    ["a missing title", "title: Working memory of the Tarn buoy", "about: x"],
  ])("refuses %s, as the reader does", (_, good, bad) => {
    const text = STUDY.replace(good, bad);
    expect(validate(load(text))).toBe(false);
    expect(() => read(text)).toThrow();
  });

  it("describes every key", () => {
    const blank = JSON.stringify(schema).match(/"description":""/g);
    expect(blank).toBeNull();
  });
});

describe("the definitions", () => {
  it("have a meaning for every key, and for every default a source", () => {
    for (const [key, of] of everyField(field)) {
      expect(of.meaning, key).not.toBe("");
      if (of.default !== undefined) expect(of.default.source, key).not.toBe("");
    }
  });

  it("have examples and defaults that the reader accepts", () => {
    const design =
      "title: t\ndesigns:\n  one:\n    cell: {switch: oxide-bilayer}\n" +
      "    capacity: 1 Mib\n    word: 32 bit\n";
    const top = /^\.([a-z_]+)$/;
    const inDesign = /^\.designs\.\*\.([a-z_]+)(?:\.([a-z_]+))?$/;
    let tried = 0;
    for (const [key, of] of everyField(field)) {
      for (const example of [of.example, of.default?.value]) {
        if (example === undefined) continue;
        const [, one] = top.exec(key) ?? [];
        const [, outer, inner] = inDesign.exec(key) ?? [];
        if (one !== undefined && one !== "baseline" && one !== "title") {
          tried++;
          expect(() => read(`${design}${one}: ${example}\n`), key).not.toThrow();
        }
        if (inner !== undefined && outer !== "cell") {
          tried++;
          expect(() => read(`${design}    ${outer}: {${inner}: ${example}}\n`), key).not.toThrow();
        } else if (outer !== undefined && !["capacity", "word", "cell"].includes(outer)) {
          tried++;
          expect(() => read(`${design}    ${outer}: ${example}\n`), key).not.toThrow();
        }
      }
    }
    expect(tried).toBeGreaterThan(20);
  });
});

describe("the key reference", () => {
  const rows = keyReference(field);
  it("has a row for every key of the definition", () => {
    const keys = rows.map((row) => row.key);
    for (const key of [
      "title",
      "designs.<name>.tile.rows",
      "designs.<name>.cell.switch",
      "technology.from",
      "seed",
    ]) {
      expect(keys).toContain(key);
    }
    for (const [key] of everyField(field)) {
      const dotted = key
        .slice(1)
        .replaceAll(".*", ".<name>")
        .replace(/(files|temperature_profile|levels|times)\.<name>/, "$1[]");
      if (key !== "") expect(keys).toContain(dotted);
    }
  });

  it("says kind, unit, range and default", () => {
    const row = (key: string) => rows.find((r) => r.key === key);
    expect(row("capacity")).toBeUndefined();
    expect(row("defaults.capacity")).toMatchObject({
      kind: "whole number of bits",
      unit: "bit",
      example: "1 Mib",
    });
    expect(row("defaults.tile.decks")).toMatchObject({
      kind: "whole number",
      range: "≥ 1, ≤ 1024",
      default: "1",
    });
    expect(row("defaults.supply")).toMatchObject({
      kind: "figure",
      unit: "V",
      range: "> 0, ≤ 100",
    });
    expect(row("title")).toMatchObject({ required: true });
  });
});
