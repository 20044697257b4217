import { expect, it } from "vitest";
import { TenfoldError } from "../../src/errors/problem.ts";
import { studyTables } from "../../src/io/tables.ts";
import { readStudy } from "../../src/schema/read-study.ts";

const TEXT = `title: Two mistakes
designs:
  a: {cell: sram-6tt, capacity: 1 Mib, word: 32}
  b: {cell: {switch: oxide-bilayer, selector: {from: none}}, capacity: 1 Mib, word: 32 bit}
`;

function problemsOf(text: string) {
  try {
    readStudy(text, "study.yaml", { tables: studyTables() });
  } catch (error) {
    if (error instanceof TenfoldError) return error.problems;
    throw error;
  }
  return [];
}

it("tells of an unknown entry beside the other mistakes of a file, with the nearest name", () => {
  const problems = problemsOf(TEXT);
  expect(problems.map(({ code, place }) => [code, place?.line, place?.column])).toEqual([
    ["unknown-word", 3, 13],
    ["unit-missing", 3, 46],
  ]);
  expect(problems[0]!.nearest).toBe("sram-6t");
});

it("takes the names of the study's own entries for known", () => {
  const own = `${TEXT}catalogue: {baselines: {sram-6tt: {from: sram-6t}}}\n`;
  expect(problemsOf(own).map(({ code }) => code)).toEqual(["unit-missing"]);
});
