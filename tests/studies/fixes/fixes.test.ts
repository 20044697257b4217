import { describe, expect, it } from "vitest";
import { parseFormula } from "../../../src/formulas/parse.ts";
import { estimateStudy } from "../../../src/studies/estimate.ts";
import { COSTS } from "../../../src/studies/fixes/figures.ts";
import { type DesignFixes, fixesOfStudy, hasGoals } from "../../../src/studies/fixes/fixes.ts";
import { CATALOGUE, type Keys, quantitiesOf, studyOf } from "../../estimate/study.ts";

const BASE: Keys = {
  capacity: "64 Kib",
  word: "32 bit",
  cell: { switch: "oxide-bilayer", selector: { kind: "transistor" } },
};
const USE: Keys = {
  mission_time: "5 year",
  bit_flip_rate: "1e-10 1/h",
  cell_fault: 1e-5,
  write_rate: "1e4 1/s",
};

function fixesOf(keys: Keys, goal: Keys): DesignFixes {
  const reliability = { ...USE, ...(keys["reliability"] as Keys), goal };
  const study = studyOf({ one: { ...BASE, ...keys, reliability } }, { samples: 64 });
  return fixesOfStudy(study, CATALOGUE, parseFormula)[0]!;
}

const cost = (name: string): number => COSTS.findIndex((one) => one.name === name);

describe("what fixes cost and buy", () => {
  const found = fixesOf({}, { macro_failure: 1e-6, yield: "99 %", life: "5 year" });

  it("is told of every fix that can change a goal, beside the design as it stands", () => {
    expect(found.base.ratios.every(({ value, low, high }) => value === 1 && low === high)).toBe(
      true,
    );
    const groups = new Set(found.rows.flatMap((row) => row.groups));
    // A scrub by itself corrects nothing here: there is no code.
    expect([...groups].sort()).toEqual(["code", "spares", "spreading", "verify"]);
  });

  it("is the ratio of two designs that are estimated by themselves", () => {
    const change: Record<string, Keys> = {
      "code, 2 errors": { error_correction: { corrects: 2 } },
      "spares, 2+2": { spare_rows: 2, spare_columns: 2 },
    };
    for (const [label, keys] of Object.entries(change)) {
      const row = found.rows.find((one) => one.label === label)!;
      const plain = quantitiesOf({ ...BASE, reliability: USE });
      const changed = quantitiesOf({ ...BASE, ...keys, reliability: USE });
      for (const name of ["macro_area", "transistors", "read_latency", "write_energy"]) {
        const ratio = changed(name) / plain(name);
        expect(row.ratios[cost(name)]!.value / ratio, `${label} ${name}`).toBeCloseTo(1, 12);
      }
      const goal = label.startsWith("code") ? "mission_failure" : "yield_repaired";
      const gain = row.gains[label.startsWith("code") ? 0 : 1]!;
      expect(gain.figure.value / changed(goal)).toBeCloseTo(1, 12);
    }
  });

  it("counts the logic that spreads writes on top, and the copies", () => {
    const row = found.rows.find(({ groups }) => groups[0] === "spreading")!;
    const of = quantitiesOf({ ...BASE, reliability: USE });
    const more = (name: string, extra: string) => (of(name) + of(extra)) / of(name);
    expect(row.ratios[cost("transistors")]!.value).toBeCloseTo(
      more("transistors", "spreading_transistors"),
      12,
    );
    expect(row.ratios[cost("write_energy")]!.value).toBeCloseTo(
      more("write_energy", "spreading_write_energy"),
      12,
    );
    // 2048 words: 11 bits of address, two counters of places and one of 7 bits for 100 writes.
    expect(of("spreading_flip_flops")).toBe(29);
    expect(of("spreading_transistors")).toBe(29 * 20 + 22 * 28);
    expect(row.gains[2]!.figure.value / of("spread_life")).toBeCloseTo(1, 12);
  });

  it("names the least that meets all goals, which does when it is estimated by itself", () => {
    const { least, unmet } = found;
    expect(unmet).toEqual([]);
    const code = Number(/code, (\d)/.exec(least!.label)?.[1] ?? 0);
    const spares = /spares, (\d)\+(\d)/.exec(least!.label)!;
    const sigmas = Number(/verify, ([\d.]+)/.exec(least!.label)?.[1] ?? 0);
    const scrub = /scrub, (\d+ \w+)/.exec(least!.label)?.[1];
    const plain = quantitiesOf({ ...BASE, reliability: USE });
    const of = quantitiesOf({
      ...BASE,
      ...(code > 0 && { error_correction: code === 1 ? "single" : { corrects: code } }),
      spare_rows: Number(spares[1]),
      spare_columns: Number(spares[2]),
      reliability: {
        ...USE,
        ...(sigmas > 0 && { level_tolerance: sigmas * plain("cycle_spread") }),
        ...(scrub !== undefined && { scrub_interval: scrub }),
      },
    });
    expect(of("mission_failure")).toBeLessThanOrEqual(1e-6);
    expect(of("yield_repaired")).toBeGreaterThanOrEqual(0.99);
    expect(of("spread_life")).toBeGreaterThanOrEqual(5 * 31557600);
    expect(of("macro_area") / plain("macro_area")).toBeLessThan(1.01 * least!.ratios[0]!.value);
  });

  it("takes several fixes together where they cost less than any alone, and no more fixes than pay", () => {
    const { least, rows } = fixesOf({}, { macro_failure: 1e-6 });
    const alone = rows.filter(({ gains }) => gains[0]!.meets);
    expect(alone.length).toBeGreaterThan(0);
    // A further fix has to save one percent of the area.
    const cheapest = Math.min(...alone.map(({ ratios }) => ratios[0]!.value));
    if (least!.groups.length === 1) expect(least!.ratios[0]!.value).toBe(cheapest);
    else expect(least!.ratios[0]!.value).toBeLessThan(0.99 * cheapest);
  });

  it("leaves a design as it stands that meets its goals, where nothing is cheaper by a percent", () => {
    const found = fixesOf({ cell: "sram-6t" }, { macro_failure: 1 });
    expect(found.rows.every(({ ratios }) => ratios[0]!.value > 1)).toBe(true);
    expect(found.least!.label).toBe("as it stands");
  });

  it("finds a code too strong for what is asked, and a cheaper one that does", () => {
    const strong = fixesOf({ error_correction: { corrects: 4 } }, { macro_failure: 0.5 });
    expect(strong.least!.ratios[0]!.value).toBeLessThan(0.9);
    expect(strong.least!.gains[0]!.meets).toBe(true);
  });

  it("keeps a code that sees two errors from being weakened to one that does not", () => {
    const seen = fixesOf({ error_correction: "single-double" }, { macro_failure: 0.5 });
    expect(seen.rows.map(({ label }) => label)).not.toContain("code, 1 error");
  });

  it("says which goal nothing meets", () => {
    // Defects of the periphery are repaired by no spare line.
    const keys = { reliability: { defect_density: "10 1/cm^2" } };
    const none = fixesOf(keys, { macro_failure: 1e-6, yield: "99.9 %" });
    expect(none.least).toBeUndefined();
    expect(none.unmet).toEqual(["yield"]);
  });

  it("takes the share of the draws that meet a goal from what the intervals are made of", () => {
    const row = found.rows.find(({ label }) => label === "code, 2 errors")!;
    const gain = row.gains[0]!;
    expect(gain.share).toBeGreaterThan(0);
    expect(gain.share).toBeLessThanOrEqual(1);
    // With 95 % of the draws below the goal the upper end of the interval would be too.
    if (gain.share < 0.97) expect(gain.figure.high).toBeGreaterThan(1e-6);
  });
});

describe("studies and goals", () => {
  it("without a goal try nothing", () => {
    const study = studyOf({ one: { ...BASE, reliability: USE } });
    expect(hasGoals(study)).toBe(false);
    expect(estimateStudy(study, CATALOGUE, parseFormula).fixes).toBeUndefined();
  });

  it("drop goals that a design has no figure for: static cells do not wear out", () => {
    const study = studyOf({
      static: {
        ...BASE,
        cell: "sram-6t",
        reliability: { ...USE, goal: { macro_failure: 1e-6, life: "10 year" } },
      },
    });
    const [only] = fixesOfStudy(study, CATALOGUE, parseFormula);
    expect(only!.goals.map(({ key }) => key)).toEqual(["macro_failure"]);
  });
});
