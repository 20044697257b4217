import fc from "fast-check";
import { expect, test } from "vitest";
import { TenfoldError } from "../../src/errors/problem.ts";
import { conditionsOf } from "../../src/estimate/conditions.ts";
import type { MacroModel } from "../../src/estimate/model.ts";
import { REPORTED } from "../../src/estimate/quantities.ts";
import { parseFormula } from "../../src/formulas/parse.ts";
import { partsFor } from "../../src/models/periphery/index.ts";
import { estimateStudy } from "../../src/studies/estimate.ts";
import { estimateData } from "../../src/studies/estimate-data.ts";
import { randomDesign, SEED } from "./random-designs.ts";
import { CATALOGUE, type Keys, modelOf, studyOf } from "./study.ts";

const RUNS = 200;

/** Figures that are zero by what a cell is. */
const MAY_BE_ZERO = new Set(["switches"]);

function modelOrRefusal(keys: Keys): MacroModel | string {
  try {
    // Sums do not ask how the far corner was found: closed forms for all, so that none is solved.
    return modelOf(keys, {}, { ratios: [] });
  } catch (error) {
    if (error instanceof TenfoldError) return error.problems[0]!.code;
    throw error;
  }
}

/** Sums small to large, so that the sum of the test is better than that of the program. */
const exactSum = (values: readonly number[]) =>
  [...values].sort((a, b) => Math.abs(a) - Math.abs(b)).reduce((sum, x) => sum + x, 0);

test("the parts of every total sum to it, none is negative, and a working design has finite figures", () => {
  const seen = { refused: 0, broken: 0, works: 0, kinds: new Set<string>() };
  fc.assert(
    fc.property(randomDesign, (keys) => {
      const model = modelOrRefusal(keys);
      if (typeof model === "string") {
        seen.refused += 1;
        expect(model).toBe("word-too-wide");
        return;
      }
      const values = model.nominal();
      expect(model.totals.map(({ name }) => name)).toEqual([
        "macro_area",
        "transistors",
        "read_energy",
        "write_energy",
        "standby_power",
      ]);
      const works = conditionsOf(model.program).every(({ quantity }) => values.get(quantity)! > 0);
      for (const { name, parts } of model.totals) {
        const total = values.get(name)!;
        const shares = parts.map(({ quantity }) => values.get(quantity)!);
        const size = exactSum(shares.map(Math.abs));
        expect(Math.abs(exactSum(shares) - total) / size, name).toBeLessThan(1e-12);
        if (!works) continue;
        parts.forEach(({ part, quantity }, i) => {
          expect(shares[i], `${part}: ${quantity}`).toBeGreaterThanOrEqual(0);
        });
      }
      const uses = partsFor(model.structure.periphery);
      const outside = uses.filter(({ level, alongTiles }) => level !== "tile" && !alongTiles);
      // The floor plan of a tile knows nothing of the list of parts that the total sums.
      const plan =
        values.get("tiles")! * values.get("tile_area")! +
        exactSum(outside.map(({ prefix }) => values.get(`all_${prefix}area`)!));
      expect(Math.abs(plan / values.get("macro_area")! - 1)).toBeLessThan(1e-12);
      for (const { name, parts } of model.totals) {
        const listed = parts.map(({ part }) => part);
        expect(new Set(listed).size, `${name} lists no part twice`).toBe(listed.length);
        expect(listed, name).toEqual(expect.arrayContaining(uses.map((use) => use.name)));
      }
      if (!works) {
        seen.broken += 1;
        return;
      }
      seen.works += 1;
      seen.kinds.add(`${model.structure.cell} ${model.structure.crosspoint ?? ""}`);
      for (const { name } of REPORTED) {
        const value = values.get(name)!;
        expect(Number.isFinite(value), `${name} is finite`).toBe(true);
        if (!MAY_BE_ZERO.has(name)) expect(value, name).toBeGreaterThan(0);
      }
      expect(values.get("array_efficiency")!).toBeLessThan(1);
      const whole = ["transistors", "switches", "cells", "tiles", "tiles_active", "groups"];
      for (const name of whole.slice(1)) {
        expect(Number.isInteger(values.get(name)!), `${name} is whole`).toBe(true);
      }
      // What a macro stores is at least what was asked for, with its check bits.
      const bits = values.get("tiles")! * values.get("tile_bits")!;
      const asked = (values.get("capacity")! * values.get("coded_word")!) / values.get("word")!;
      expect(bits).toBeGreaterThanOrEqual(asked * (1 - 1e-12));
      expect(values.get("cells_written")!).toBeLessThanOrEqual(values.get("cells_at_once")!);
    }),
    { seed: SEED, numRuns: RUNS },
  );
  expect(seen.works).toBeGreaterThan(RUNS / 3);
  expect(seen.kinds.size).toBeGreaterThan(15);
});

test("a sampled figure has low <= median <= high, and its data survive JSON", () => {
  fc.assert(
    fc.property(randomDesign, (keys) => {
      const model = modelOrRefusal(keys);
      if (typeof model === "string") return;
      // A large crossbar may be solved as a network, which takes its time and is tested elsewhere.
      if (model.structure.crosspoint && model.nominal().get("tile_cells")! > 1024) return;
      const study = studyOf({ one: keys }, { samples: 24, seed: 7 });
      const estimate = estimateStudy(study, CATALOGUE, parseFormula);
      const [design] = estimate.designs;
      for (const [name, { value, low, median, high }] of design!.figures) {
        expect(Number.isFinite(value), name).toBe(true);
        expect(low, name).toBeLessThanOrEqual(median);
        expect(median, name).toBeLessThanOrEqual(high);
        expect(low, name).toBeGreaterThanOrEqual(0);
      }
      const data = estimateData(estimate, { sha256: "", version: "" });
      expect(JSON.parse(JSON.stringify(data))).toEqual(data);
    }),
    { seed: SEED, numRuns: 40 },
  );
});
