import { describe, expect, test } from "vitest";
import {
  levelsData,
  levelsDocument,
  studyKeys,
} from "../../../src/report/documents/switch-levels.ts";
import { studyLevels } from "../../../src/studies/switch/levels.ts";
import type { LevelsSwitch } from "../../../src/studies/switch/levels-plan.ts";
import { quantitiesOf } from "../../estimate/study.ts";
import { PLAUSIBLE } from "../../models/switch/geometry-examples.ts";

const DEVICE: LevelsSwitch = {
  title: "A film",
  geometry: { ...PLAUSIBLE, most_gap: 0.9e-9 },
  readVoltage: 0.2,
  setVoltage: 2.6,
  resetVoltage: 2.6,
  cycleSpread: 0.1,
  gapSpread: 0,
  areaSpread: 0,
};

describe("four levels of a film", () => {
  const study = studyLevels(DEVICE, { levels: 4, writes: 100 });

  test("are all written, each inside its window, and read back right", () => {
    expect(study.reached).toBe(1);
    expect(study.misread).toBe(0);
    for (const { later, low, boundary } of study.levels) {
      expect(later!.meanLog).toBeGreaterThan(Math.log(Math.max(low, 1)) - 0.1);
      expect(later!.meanLog).toBeLessThan(Math.log(boundary));
      expect(later!.sigma).toBeLessThan(0.15);
    }
  });

  test("need more pulses the farther they lie from the state where writes begin", () => {
    const means = study.levels.map(({ pulses }) => pulses.mean);
    expect(means[0]).toBe(1);
    expect([...means].sort((a, b) => a - b)).toEqual(means);
    for (const { pulses, time, energy, histogram } of study.levels) {
      expect(histogram.reduce((a, b) => a + b, 0)).toBe(100);
      const mean = histogram.reduce((sum, count, n) => sum + n * count, 0) / 100;
      expect(mean).toBeCloseTo(pulses.mean, 9);
      expect(pulses.most).toBeGreaterThanOrEqual(pulses.median);
      expect(time.mean).toBeGreaterThan(pulses.mean * 10e-9);
      expect(energy.mean).toBeGreaterThan(0);
    }
  });

  test("come out the same for the same seed, and otherwise for another", () => {
    expect(studyLevels(DEVICE, { levels: 4, writes: 100 })).toEqual(study);
    const other = studyLevels(DEVICE, { levels: 4, writes: 100, seed: 2 });
    expect(other.levels[2]!.later!.sigma).not.toBe(study.levels[2]!.later!.sigma);
  });

  test("carry into a study: its write takes as many pulses and spreads as much", () => {
    const { verify_pulses, cycle_spread } = studyKeys(study);
    const of = quantitiesOf({
      cell: {
        switch: { from: "oxide-bilayer", verify_pulses, cycle_spread },
        selector: { kind: "transistor" },
        bits: 2,
      },
      overrides: { pulses_per_level: 0 },
    });
    expect(of("write_pulses")).toBe(verify_pulses);
    expect(verify_pulses! / study.pulses).toBeCloseTo(1, 2);
  });

  test("are printed whole, and as data without an infinity", () => {
    const { blocks } = levelsDocument(study);
    const tables = blocks.filter(({ kind }) => kind === "table") as { name: string }[];
    expect(tables.map(({ name }) => name)).toEqual(["levels", "level_costs"]);
    expect(JSON.stringify(levelsData(study))).not.toContain("null");
  });
});

test("devices that differ need more pulses of their own, and spread no more: a verify sees them", () => {
  const alike = studyLevels(DEVICE, { levels: 3, writes: 40, steps: 30 });
  const rough = studyLevels(
    { ...DEVICE, gapSpread: 0.03e-9, areaSpread: 0.1 },
    { levels: 3, writes: 40, steps: 30 },
  );
  const wide = (study: typeof alike) => {
    const { pulses } = study.levels[1]!;
    return pulses.most - pulses.median;
  };
  expect(wide(rough)).toBeGreaterThan(wide(alike));
  expect(rough.levels[1]!.later!.sigma).toBeLessThan(0.6);
});

test("levels even in current are printed with their currents, in equal steps", () => {
  const study = studyLevels(DEVICE, { levels: 3, writes: 4, spacing: "current" });
  const currents = study.levels.map(({ target }) => 0.2 / target);
  expect(currents[0]! - currents[1]!).toBeCloseTo(currents[1]! - currents[2]!, 12);
  const [table] = levelsDocument(study).blocks.filter(
    ({ kind }) => kind === "table",
  ) as unknown as {
    columns: { name: string }[];
    rows: { value?: number }[][];
  }[];
  const at = table!.columns.findIndex(({ name }) => name === "target");
  expect(table!.rows.map((row) => row[at]!.value)).toEqual(currents);
});

test("later reads beyond either boundary are misreads, counted one by one", () => {
  const asked = { levels: 6, writes: 60, window: 0.9, readNoise: 0.6 };
  const { levels } = studyLevels({ ...DEVICE, cycleSpread: 0.3 }, asked);
  let [below, above] = [0, 0];
  for (const [k, { later, boundary }] of levels.entries()) {
    const low = k === 0 ? Number.NEGATIVE_INFINITY : Math.log(levels[k - 1]!.boundary);
    const under = later!.values.filter((x) => x < low).length;
    const over = later!.values.filter((x) => x > Math.log(boundary)).length;
    expect(later!.misread).toBeCloseTo((under + over) / later!.values.length, 12);
    below += under;
    above += over;
  }
  expect(Math.min(below, above)).toBeGreaterThan(0);
});

test("levels that pulses step over are said, with what helps", () => {
  const study = studyLevels(DEVICE, { levels: 4, writes: 10, train: "equal", steps: 2 });
  const missed = study.levels.filter(({ reached }) => reached === 0);
  expect(missed.length).toBeGreaterThan(0);
  expect(missed[0]!.later).toBeUndefined();
  const texts = JSON.stringify(levelsDocument(study).blocks);
  expect(texts).toContain("hardly ever met");
});

test.each([
  [{ levels: 4, writes: 0 }, "writes"],
  [{ levels: 4, mostPulses: 0 }, "most pulses"],
  [{ levels: 4, readNoise: -0.1 }, "read noise"],
  [{ levels: 4, readTime: Number.NaN }, "read time"],
])("%j is refused by the name of its fault", (asked, name) => {
  expect(() => studyLevels(DEVICE, asked)).toThrow(name);
});
