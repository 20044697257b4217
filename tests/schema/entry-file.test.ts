import { describe, expect, it } from "vitest";
import { TenfoldError } from "../../src/errors/problem.ts";
import { type EntryFormat, formatOf, readEntryFile } from "../../src/schema/entry-file.ts";
import { TABLES } from "./tables.ts";

const FORMAT: EntryFormat = {
  ...TABLES.selector,
  kind: "selector",
  format: "tenfold.selector/1",
  extra: ["year"],
};
const TEXT = `format: tenfold.selector/1
name: my-threshold
title: A threshold selector
kind: threshold
about: >
  What it claims
  and what not.
year: 2024
values:
  threshold_voltage: {value: 1.5 V, low: 0.9 V, high: 3 V, source: typical-classes, basis: memory}
  off_current: {value: 1 nA, source: common practice}
`;

function codesOf(text: string): string[] {
  try {
    readEntryFile(text, "f.yaml", FORMAT);
  } catch (error) {
    if (error instanceof TenfoldError)
      return error.problems.map((p) => `${p.code}@${p.place?.line}:${p.place?.column}`);
    throw error;
  }
  return [];
}

describe("a catalogue file", () => {
  it("is read with its figures keyed by kind, entry and quantity", () => {
    const entry = readEntryFile(TEXT, "f.yaml", FORMAT);
    expect(entry).toMatchObject({
      name: "my-threshold",
      variant: "threshold",
      more: { year: 2024 },
    });
    expect(entry.about).toBe("What it claims and what not.");
    expect(entry.values["threshold_voltage"]).toMatchObject({
      value: 1.5,
      basis: "memory",
      source: "typical-classes",
      key: "selector/my-threshold/threshold_voltage",
    });
    expect(entry.place("/values/off_current").line).toBe(11);
    expect(formatOf(TEXT, "f.yaml")).toBe("tenfold.selector/1");
  });

  it.each([
    ["a figure without source", TEXT.replace(", source: common practice", ""), "missing-key@11:16"],
    ["another format", TEXT.replace("selector/1", "switch/1"), "unknown-format@1:9"],
    ["an unknown kind", TEXT.replace("kind: threshold", "kind: treshold"), "unknown-word@4:7"],
    ["an unknown figure", TEXT.replace("  off_current", "  of_current"), "unknown-key@11:3"],
    ["no title", TEXT.replace("title: A", "titel: A"), "missing-key@1:1,unknown-key@3:1"],
    ["a negative figure", TEXT.replace("1 nA", "-1 nA"), "out-of-range@11:24"],
    ["an unknown key", TEXT.replace("year", "jahr"), "unknown-key@8:1"],
  ])("%s is refused at its place", (_, text, expected) => {
    expect(codesOf(text).join(",")).toBe(expected);
  });
});
