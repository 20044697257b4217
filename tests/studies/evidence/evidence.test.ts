import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { load } from "js-yaml";
import { beforeAll, describe, expect, test } from "vitest";
import { resolveDesign } from "../../../src/estimate/design.ts";
import { parseFormula } from "../../../src/formulas/parse.ts";
import {
  readCalibrated,
  readHistory,
  shippedCatalogue,
  shippedEvidence,
} from "../../../src/io/evidence.ts";
import { type ComparedChip, compareChip } from "../../../src/studies/evidence/compare.ts";
import { type Evidence, evidenceOf, isOff } from "../../../src/studies/evidence/evidence.ts";
import { fitSpreads } from "../../../src/studies/evidence/fit.ts";
import { changeSince } from "../../../src/studies/evidence/history.ts";
import type { EvidencePlan } from "../../../src/studies/evidence/plan.ts";
import { memoryKind } from "../../../src/studies/model-error.ts";

const SHARED = new URL("../../../shared/", import.meta.url);
let plan: EvidencePlan;
let evidence: Evidence;

beforeAll(async () => {
  const shipped = await shippedEvidence();
  plan = shipped.plan;
  const chips: ComparedChip[] = [];
  for (const one of plan.chips) {
    chips.push(compareChip(one, await shipped.open(one), parseFormula, plan.place));
  }
  evidence = evidenceOf(chips, plan.leftOut);
  // Every chip's formulas are parsed, which a build does once for all.
}, 120_000);

describe("the shipped evidence", () => {
  test("compares every published chip or leaves it out with a reason, and none is both", () => {
    const there = readdirSync(new URL("chips/", SHARED)).map((file) => file.replace(".yaml", ""));
    const compared = plan.chips.map(({ name }) => name);
    expect([...compared, ...Object.keys(plan.leftOut)].sort()).toEqual(there.sort());
  });

  test("has a figure for each planned quantity or says why it has none", () => {
    for (const { plan: chip, figures, unpredicted } of evidence.chips) {
      if (unpredicted === undefined) expect(figures.length, chip.name).toBe(chip.compared.length);
      else expect(unpredicted.reason.length, chip.name).toBeGreaterThan(10);
      for (const { ratio } of figures) expect(ratio, chip.name).toBeGreaterThan(0);
    }
  });

  test("has a paragraph for every figure that is off by more than two, and for no other", () => {
    expect(evidence.unexplained).toEqual([]);
  });

  test("has each chip in the kind that an estimate of its study takes its error from", async () => {
    const shipped = await shippedEvidence();
    for (const chip of plan.chips) {
      const { study, catalogue } = await shipped.open(chip);
      const design = resolveDesign(study, Object.keys(study.designs)[0]!, catalogue);
      expect(memoryKind(design), chip.name).toBe(chip.kind);
    }
  });

  test("takes arrays with their edges for less than the macro and for more than their cells", async () => {
    const shipped = await shippedEvidence();
    const arrays = plan.chips.filter(({ compared }) =>
      compared.some(({ quantity, region }) => quantity === "macro_area" && region === "array"),
    );
    expect(arrays.length).toBeGreaterThan(1);
    for (const chip of arrays) {
      const macro = chip.compared.map((one) => ({ ...one, region: "macro" as const }));
      const of = async (compared: typeof chip.compared) => {
        const matter = await shipped.open(chip);
        const { figures } = compareChip({ ...chip, compared }, matter, parseFormula, plan.place);
        return new Map(figures.map(({ quantity, predicted }) => [quantity, predicted]));
      };
      const [own, whole] = [await of(chip.compared), await of(macro)];
      const area = own.get("macro_area")!;
      const cells = own.get("array_efficiency")!;
      expect(area, chip.name).toBeLessThan(whole.get("macro_area")!);
      expect(cells, chip.name).toBeGreaterThan(whole.get("array_efficiency")!);
      expect(cells, chip.name).toBeLessThan(1);
      // The cells are the same ones.
      const ratio = (cells * area) / (whole.get("array_efficiency")! * whole.get("macro_area")!);
      expect(ratio, chip.name).toBeCloseTo(1, 12);
    }
  });

  test("takes a cell of a stacked crossbar in its own deck, and its share of the stack from the area", async () => {
    const shipped = await shippedEvidence();
    const chip = plan.chips.find(({ name }) => name === "rram-180nm-8mb-crosspoint")!;
    const matter = await shipped.open(chip);
    const figure = { ...Object.values(matter.entry.values)[0]!, unit: "m^2", value: 1e-13 };
    const entry = {
      ...matter.entry,
      values: { ...matter.entry.values, cell_area: figure, area: { ...figure, value: 1e-6 } },
    };
    const compared = [
      { quantity: "cell_area", figure: "cell_area", region: "macro" },
      { quantity: "macro_area", figure: "area", region: "macro" },
      { quantity: "array_efficiency", figure: "cell_share", region: "macro" },
    ] as const;
    const { figures } = compareChip(
      { ...chip, compared, why: {} },
      { ...matter, entry },
      parseFormula,
      plan.place,
    );
    const [cell, area, share] = figures.map(({ predicted }) => predicted);
    // Two half pitches of the 180 nm process each way; two decks share the area.
    const { parameters } = resolveDesign(matter.study, "chip", matter.catalogue);
    expect(cell! / (2 * parameters.get("feature")!.value) ** 2).toBeCloseTo(1, 12);
    expect((share! * area!) / ((figures[0]!.capacity * cell!) / 2)).toBeCloseTo(1, 12);
    expect(figures[2]!.measured).toBeCloseTo((figures[0]!.capacity * 1e-13) / (1e-6 * 2), 12);
  });

  test("sets a supply only where the chip's file states it", () => {
    for (const { name } of plan.chips) {
      const study = readFileSync(new URL(`evidence/${name}.yaml`, SHARED), "utf8");
      const chip = load(readFileSync(new URL(`chips/${name}.yaml`, SHARED), "utf8")) as {
        values: Record<string, { value: string | number; note?: string }>;
      };
      const supply = /supply: ([\d.]+) V/.exec(study)?.[1];
      if (supply === undefined) continue;
      expect(JSON.stringify(chip.values), `${name} supply`).toMatch(new RegExp(`\\b${supply} V`));
    }
  });
});

test("a fitted constant without one of its chips is what the others give", () => {
  const fits = fitSpreads(readCalibrated(), shippedCatalogue());
  const { without } = fits.find(({ constant }) => constant.startsWith("embedded-dram-1t1c"))!;
  // 0.026 over 0.092 and 0.067 over 0.346 square micrometres, from the papers' figures.
  const left = Object.fromEntries(without.map(({ chip, value }) => [chip, value]));
  expect(left["edram-45nm"]).toBeCloseTo(0.026 / 0.092, 12);
  expect(left["edram-cell-22nm"]).toBeCloseTo(0.067 / 0.346, 12);
});

describe("ratios of earlier versions", () => {
  test("carry the digest of what the script wrote", () => {
    const folder = new URL("evidence/history/", SHARED);
    const files = readdirSync(folder).filter((file) => file.endsWith(".json"));
    expect(files.length).toBeGreaterThan(0);
    for (const file of files) {
      const { sha256, ratios } = JSON.parse(readFileSync(new URL(file, folder), "utf8"));
      const lines = ratios.map((one: unknown) => JSON.stringify(one)).join("\n");
      expect(createHash("sha256").update(lines).digest("hex"), file).toBe(sha256);
    }
  });

  test("come with words on what was changed since", () => {
    for (const { label, changed } of readHistory()) {
      expect(changed.length, label).toBeGreaterThan(0);
    }
  });

  test("against themselves have moved nothing, and against others what moved", () => {
    const rows = evidence.chips.flatMap(({ figures }) => figures);
    const snapshot = { label: "now", commit: "0000000", changed: [], ratios: rows };
    const same = changeSince(snapshot, rows);
    expect(same.moved).toEqual([]);
    expect([...same.gone, ...same.come]).toEqual([]);
    for (const { before, now } of same.quantities) expect(before).toEqual(now);
    const [first, ...others] = rows;
    const doubled = changeSince(snapshot, [{ ...first!, ratio: 2 * first!.ratio }, ...others]);
    expect(doubled.moved).toEqual([
      {
        chip: first!.chip,
        quantity: first!.quantity,
        before: first!.ratio,
        now: 2 * first!.ratio,
      },
    ]);
  });
});

test("a reason is missed where a figure is far off, and is in the way where it is near", () => {
  const [chip] = evidence.chips;
  const [figure] = chip!.figures;
  const said = (ratio: number, why?: string) => {
    const { why: _, ...rest } = figure!;
    const figures = [{ ...rest, ratio, ...(why !== undefined && { why }) }];
    return evidenceOf([{ ...chip!, figures }], {}).unexplained;
  };
  expect(said(3)).toHaveLength(1);
  expect(said(1, "because")).toHaveLength(1);
  expect(said(3, "because")).toEqual([]);
  expect(said(1)).toEqual([]);
});

test("a figure is off beyond a factor of two either way, and where it is no number", () => {
  expect([0.49, 0.51, 1, 1.99, 2.01, Number.NaN].map(isOff)).toEqual([
    true,
    false,
    false,
    false,
    true,
    true,
  ]);
});
