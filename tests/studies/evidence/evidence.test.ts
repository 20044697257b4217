import { readdirSync, readFileSync } from "node:fs";
import { load } from "js-yaml";
import { expect, test } from "vitest";
import { parseFormula } from "../../../src/formulas/parse.ts";
import { openEvidenceStudy, readEvidencePlan } from "../../../src/io/evidence.ts";
import { type Compared, compareChip } from "../../../src/studies/evidence/compare.ts";
import { evidenceOf } from "../../../src/studies/evidence/evidence.ts";
import { summarise, verdicts } from "../../../src/studies/evidence/summary.ts";

const PLAN = readEvidencePlan();
const SHARED = new URL("../../../shared/", import.meta.url);

async function all() {
  const chips = [];
  for (const one of PLAN.chips) {
    const { study, catalogue } = await openEvidenceStudy(one.name);
    chips.push(compareChip(one, study, catalogue, parseFormula));
  }
  return evidenceOf(chips, PLAN);
}

const row = (ratio: number, more: Partial<Compared> = {}): Compared => ({
  chip: "one",
  kind: "static",
  quantity: "macro_area",
  predicted: ratio,
  measured: 1,
  ratio,
  recalled: false,
  capacity: 1,
  ...more,
});

test("every published chip is compared or left out with a reason, and none is both", () => {
  const there = readdirSync(new URL("chips/", SHARED)).map((file) => file.replace(".yaml", ""));
  const compared = PLAN.chips.map(({ name }) => name);
  expect([...compared, ...Object.keys(PLAN.leftOut)].sort()).toEqual(there.sort());
});

test("every compared chip has a figure for each planned quantity or says why it has none", async () => {
  for (const { plan, figures, unpredicted } of (await all()).chips) {
    if (unpredicted === undefined) expect(figures.length, plan.name).toBe(plan.compared.length);
    else expect(unpredicted.reason.length, plan.name).toBeGreaterThan(10);
    for (const { ratio } of figures) expect(ratio, plan.name).toBeGreaterThan(0);
  }
});

test("every figure that is off by more than two has its paragraph", async () => {
  const silent = (await all()).chips
    .flatMap(({ figures }) => figures)
    .filter(({ ratio, why }) => !(ratio >= 0.5 && ratio <= 2) && why === undefined);
  expect(silent.map(({ chip, quantity }) => `${chip} ${quantity}`)).toEqual([]);
});

test("each evidence study sets only values that its chip's file states", () => {
  for (const { name } of PLAN.chips) {
    const study = readFileSync(new URL(`evidence/${name}.yaml`, SHARED), "utf8");
    const chip = load(readFileSync(new URL(`chips/${name}.yaml`, SHARED), "utf8")) as {
      values: Record<string, { value: string | number; note?: string }>;
    };
    const supply = /supply: ([\d.]+) V/.exec(study)?.[1];
    if (supply === undefined) continue;
    const stated = JSON.stringify(chip.values);
    expect(stated, `${name} supply`).toMatch(new RegExp(`\\b${supply} V`));
  }
});

test("a sample of equal ratios has that median and no spread", () => {
  const { median, sigma, factor } = summarise("macro_area", "all", [row(2), row(2), row(2)]);
  expect(median).toBeCloseTo(2, 12);
  expect(sigma).toBeCloseTo(0, 12);
  expect(factor).toBeCloseTo(1, 12);
});

test("two ratios have the prediction interval of a normal sample of two: t = 12.706", () => {
  // ln ratios -1 and 1: s = sqrt 2, half-width 12.706 sqrt 2 sqrt(3/2). Tables of Student's distribution.
  const { factor } = summarise("macro_area", "all", [row(Math.E), row(1 / Math.E)]);
  expect(Math.log(factor!)).toBeCloseTo(12.706 * Math.sqrt(3), 6);
});

test("a recalled value weighs half of one that was read", () => {
  const rows = [row(1), row(1), row(4, { recalled: true }), row(4, { recalled: true })];
  expect(summarise("macro_area", "all", rows).median).toBeCloseTo(1, 12);
});

test("a bound is tested from eight chips on, and fails where the median is off", () => {
  const bound = (ratio: number, count: number) =>
    verdicts(Array.from({ length: count }, () => row(ratio)))[0]!.holds;
  expect(bound(1, 7)).toBeUndefined();
  expect(bound(1, 8)).toBe(true);
  expect(bound(1.3, 8)).toBe(false);
});
