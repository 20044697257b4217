import { expect, test } from "vitest";
import { parseFormula } from "../../src/formulas/parse.ts";
import { agingTable, timeText } from "../../src/report/documents/aging.ts";
import { changeText, fixBlocks } from "../../src/report/documents/fixes.ts";
import { renderText } from "../../src/report/renderers/text/text.ts";
import { estimateStudy } from "../../src/studies/estimate.ts";
import { CATALOGUE, studyOf } from "../estimate/study.ts";

test("changes are told as signed percent to two digits, and nothing where nobody would see them", () => {
  expect([1, 1.0000049, 1.0123, 0.876, 2.114, 1.05, 1.000071].map(changeText)).toEqual([
    "0 %",
    "0 %",
    "+1.2 %",
    "−12 %",
    "+111 %",
    "+5 %",
    "+0.0071 %",
  ]);
});

test("times are told in the largest unit that leaves them above one", () => {
  expect([1, 59, 3600, 86400, 30 * 86400, 31557600, 157788000].map(timeText)).toEqual([
    "1 s",
    "59 s",
    "1 h",
    "1 day",
    "30 day",
    "1 year",
    "5 year",
  ]);
});

test("tables of errors by time and of fixes fit into 80 columns and say what is the least", () => {
  const study = studyOf(
    {
      bare: {
        capacity: "64 Kib",
        word: "32 bit",
        cell: { switch: "oxide-bilayer", selector: { kind: "transistor" } },
        reliability: {
          mission_time: "5 year",
          bit_flip_rate: "1e-10 1/h",
          cell_fault: 1e-5,
          write_rate: "10 1/s",
          goal: { macro_failure: 1e-6, yield: "99 %", life: "10 year" },
        },
      },
    },
    { samples: 32 },
  );
  const estimate = estimateStudy(study, CATALOGUE, parseFormula);
  const blocks = [...agingTable(estimate), ...fixBlocks(estimate)];
  const text = renderText({ title: "Fixes", blocks }, { width: 80 });
  for (const line of text.split("\n")) expect([...line].length).toBeLessThanOrEqual(80);
  // No row of a table is broken into two.
  for (const start of ["as it stands", "code, 1 error", "verify, 1.5 σ", "spares, 2+2", "spread"])
    expect(text).toMatch(new RegExp(`^${start.replace("+", "\\+")} .*%$`, "m"));
  expect(text).toContain("macro lost at most 1 × 10⁻⁶");
  expect(text).toContain("life at least 10 year");
  expect(text).toContain("the least that meets its goals: ");
  expect(text).toMatch(/bit errors, 30 day/);
});
