/**
 * The estimators of doi 10.1016/j.cpc.2009.09.018, table 2 (b) and (f), and Student's intervals over replicates, by
 * their own formulas over the values that the model gave.
 */
import { expect, test } from "vitest";
import {
  type ModelOfUnitCube,
  type SensitivityOptions,
  SobolSequence,
  sensitivityIndices,
} from "../../../src/numerics/index.ts";

const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;
const deviationOfMean = (values: readonly number[]) => {
  const middle = mean(values);
  const sum = values.reduce((total, v) => total + (v - middle) ** 2, 0);
  return Math.sqrt(sum / (values.length * (values.length - 1)));
};
/** Student's points with 1, 2 and 3 degrees of freedom, from tables: 97.5 % and 95 %. */
const STUDENT = {
  0.95: [12.70620474, 4.30265273, 3.182446305],
  0.9: [6.313751515, 2.91998558, 2.353363435],
} as const;

/** Runs of the model, each with its inputs and outputs. */
function recorded(f: (u: readonly number[]) => number, options: SensitivityOptions) {
  const runs: { inputs: number[][]; output: number[] }[] = [];
  const model: ModelOfUnitCube = (inputs, count, output) => {
    for (let i = 0; i < count; i++) output[i] = f(inputs.map((column) => column[i]!));
    runs.push({ inputs: inputs.map((column) => [...column]), output: [...output] });
  };
  return { runs, found: sensitivityIndices(model, 3, options) };
}

const smooth = ([a, b, c]: readonly number[]) => 5 + 3 * a! + b! * b! + 2 * a! * c!;

/** Figures of one replicate: all points where every run gave a number. */
function figures(runs: readonly { output: number[] }[]) {
  const kept = runs[0]!.output
    .map((_, i) => i)
    .filter((i) => runs.every(({ output }) => Number.isFinite(output[i]!)));
  const [a, b, ...mixed] = runs.map(({ output }) => kept.map((i) => output[i]!));
  const middle = mean([...a!, ...b!]);
  return {
    kept: kept.length,
    mean: middle,
    variance: mean([...a!, ...b!].map((f) => (f - middle) ** 2)),
    first: mixed.map((all) => mean(all.map((f, i) => (b![i]! - middle) * (f - a![i]!)))),
    total: mixed.map((all) => mean(all.map((f, i) => (f - a![i]!) ** 2 / 2))),
  };
}

test.each([
  ["alone", smooth, undefined, 0.95, 2],
  ["in groups", smooth, [[0, 2], [1]], 0.9, 3],
  // No number on a tenth of the cube, no number at all in the first replicate's points.
  [
    "with points left out",
    (u: readonly number[]) => (u[1]! > 0.9 ? Number.NaN : smooth(u)),
    undefined,
    0.9,
    4,
  ],
] as const)("indices of parameters %s", (_, f, groups, confidence, replicates) => {
  const options = {
    ...{ seed: 3, count: 32, replicates },
    ...(confidence !== 0.95 && { confidence }),
    ...(groups && { groups }),
  };
  const { runs, found } = recorded(f, options);
  const each = 2 + (groups?.length ?? 3);
  expect(runs).toHaveLength(replicates * each);
  expect(found.evaluations).toBe(32 * runs.length);
  const parts = Array.from({ length: replicates }, (_unused, replicate) => {
    const own = runs.slice(replicate * each, (replicate + 1) * each);
    // The first two runs are the two halves of one point set; each other has a group from the second.
    const columns = Array.from({ length: 6 }, () => new Float64Array(32));
    new SobolSequence(6, { seed: 3 + replicate * 2 ** 32 }).fill(columns, 0, 32);
    const [a, b] = [columns.slice(0, 3), columns.slice(3)];
    const lists = (list: readonly Float64Array[]) => list.map((column) => [...column]);
    expect(own[0]!.inputs).toEqual(lists(a));
    expect(own[1]!.inputs).toEqual(lists(b));
    for (const [k, group] of (groups ?? [[0], [1], [2]]).entries()) {
      const mixed = a.map((column, j) =>
        (group as readonly number[]).includes(j) ? b[j]! : column,
      );
      expect(own[2 + k]!.inputs).toEqual(lists(mixed));
    }
    return figures(own);
  });
  const t = STUDENT[confidence][replicates - 2]!;
  const check = (
    got: { value: number; low: number; high: number },
    value: number,
    half: number,
  ) => {
    expect(got.value / value).toBeCloseTo(1, 11);
    expect((got.high - got.value) / (t * half)).toBeCloseTo(1, 7);
    expect((got.value - got.low) / (t * half)).toBeCloseTo(1, 7);
  };
  for (const name of ["mean", "variance"] as const) {
    const list = parts.map((part) => part[name]);
    check(found[name], mean(list), deviationOfMean(list));
  }
  const variance = mean(parts.map((part) => part.variance));
  for (const kind of ["first", "total"] as const) {
    found[kind].forEach((index, k) => {
      const value = mean(parts.map((part) => part[kind][k]!)) / variance;
      const errors = parts.map((part) => (part[kind][k]! - value * part.variance) / variance);
      check(index, value, deviationOfMean(errors));
    });
    expect(found[kind]).toHaveLength(each - 2);
  }
  const left = parts.map(({ kept }) => 32 - kept).reduce((a, b) => a + b);
  expect(found.leftOut).toBe(left / (32 * replicates));
  if (f !== smooth) expect(left).toBeGreaterThan(0);
});

test("a replicate without a point says nothing of the others, and all without one say nothing", () => {
  let calls = 0;
  // Five runs of each replicate: the second of four gives no number.
  const model: ModelOfUnitCube = (inputs, count, output) => {
    const replicate = Math.floor(calls++ / 5);
    for (let i = 0; i < count; i++) {
      output[i] = replicate === 1 ? Number.NaN : smooth(inputs.map((column) => column[i]!));
    }
  };
  const found = sensitivityIndices(model, 3, { seed: 3, count: 32, replicates: 4 });
  expect(found.leftOut).toBe(0.25);
  const { runs } = recorded(smooth, { seed: 3, count: 32, replicates: 4 });
  const parts = [0, 2, 3].map((replicate) => figures(runs.slice(5 * replicate, 5 * replicate + 5)));
  const list = parts.map((part) => part.mean);
  expect(found.mean.value / mean(list)).toBeCloseTo(1, 13);
  const half = STUDENT[0.95][1] * deviationOfMean(list);
  expect((found.mean.high - found.mean.value) / half).toBeCloseTo(1, 7);
  const none = sensitivityIndices(() => undefined, 3, { seed: 3, count: 32, replicates: 1 });
  expect(none.mean.value).toBe(0);
  expect(none.first.every(({ value }) => Number.isNaN(value))).toBe(true);
  const empty: ModelOfUnitCube = (_inputs, _count, output) => output.fill(Number.NaN);
  const nothing = sensitivityIndices(empty, 3, { seed: 3, count: 32, replicates: 2 });
  expect(nothing.leftOut).toBe(1);
  expect(nothing.total.every(({ value }) => Number.isNaN(value))).toBe(true);
});

test("defaults are 1024 points, 16 replicates and 95 %", () => {
  const quick: ModelOfUnitCube = ([a, b], count, output) => {
    for (let i = 0; i < count; i++) output[i] = a![i]! + b![i]! * a![i]!;
  };
  const given = { seed: 4, count: 1024, replicates: 16, confidence: 0.95 };
  expect(sensitivityIndices(quick, 2, { seed: 4 })).toEqual(sensitivityIndices(quick, 2, given));
});
