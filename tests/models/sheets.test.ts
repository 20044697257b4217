import { readFileSync } from "node:fs";
import { load } from "js-yaml";
import { expect, test } from "vitest";
import { checkSheet } from "../../src/formulas/index.ts";
import type { Instance } from "../../src/formulas/sheet.ts";
import { lineDrop } from "../../src/models/crossbar/closed/line-drop.ts";
import { sneakResistance } from "../../src/models/crossbar/closed/sneak.ts";
import { SCHEME_PAIRS } from "../../src/models/crossbar/contract.ts";
import { KNOWN } from "../../src/models/known.ts";
import { capacitance, resistorNoise } from "../../src/models/process/circuit.ts";
import { subthreshold } from "../../src/models/process/subthreshold.ts";
import {
  cells,
  crossbarWireInstances,
  crosspointCellModel,
  modelDefaults,
  processInstances,
} from "../../src/models/registry.ts";
import { biasSheets, type SelectorKind } from "../../src/models/selector/bias.ts";
import { scaleFromNonlinearity } from "../../src/models/switch/measured.ts";
import { ladderCrossing, lineCrossing } from "../../src/models/wire/crossing.ts";
import { ladderDelay, lineDelay, lumpedDelay } from "../../src/models/wire/line-delay.ts";
import { filmSurface } from "../../src/models/wire/size-effect.ts";

const selectors = Object.keys(biasSheets) as SelectorKind[];
const instances: Instance[] = [
  ...processInstances,
  ...crossbarWireInstances("row_wire_"),
  ...Object.values(cells).flatMap((cell) => cell.instances),
  ...selectors.flatMap((kind) =>
    SCHEME_PAIRS.flatMap((s) => crosspointCellModel(kind, s).instances),
  ),
];
const others = [
  sneakResistance,
  lineDrop,
  capacitance,
  resistorNoise,
  subthreshold,
  scaleFromNonlinearity,
  lineCrossing,
  ladderCrossing,
  ladderDelay,
  lineDelay,
  lumpedDelay,
  filmSurface,
];
const models = [...new Set([...instances.map((instance) => instance.of), ...others])];

test.each(models.map((one) => [one.name, one] as const))(
  "%s parses, has the right dimensions and leaves no field blank",
  (_, one) => {
    expect(checkSheet(one).map((problem) => problem.what)).toEqual([]);
  },
);

test("no two models share a name", () => {
  expect(new Set(models.map((one) => one.name)).size).toBe(models.length);
});

test("every default is inside its range, has a source and a meaning, and stands once", () => {
  for (const entry of modelDefaults) {
    expect(entry.low, entry.name).toBeLessThanOrEqual(entry.value);
    expect(entry.high, entry.name).toBeGreaterThanOrEqual(entry.value);
    expect(entry.source, entry.name).not.toBe("");
    expect(entry.meaning, entry.name).not.toBe("");
  }
  expect(new Set(modelDefaults.map((entry) => entry.name)).size).toBe(modelDefaults.length);
});

test("what sheets call a default and what the list of known names says have one unit", () => {
  for (const entry of modelDefaults) {
    if (KNOWN[entry.name] !== undefined) expect(KNOWN[entry.name]!.unit).toBe(entry.unit);
    for (const one of models) {
      const input = one.inputs[entry.name];
      if (input !== undefined) expect(input.unit, `${one.name} ${entry.name}`).toBe(entry.unit);
    }
  }
});

test("every source of a sheet, procedure or default is in the list of sources", () => {
  const file = new URL("../../shared/sources.yaml", import.meta.url);
  const listed = load(readFileSync(file, "utf8")) as { sources: Record<string, unknown> };
  const known = new Set([...Object.keys(listed.sources), "common practice", "this project"]);
  const used = [
    ...modelDefaults.map((entry) => entry.source),
    ...models.flatMap((one) =>
      one.kind === "procedure"
        ? [one.source]
        : Object.values(one.formulas).map((entry) => entry.source),
    ),
  ];
  expect([...new Set(used)].filter((source) => !known.has(source))).toEqual([]);
});
