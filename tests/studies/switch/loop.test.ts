import { expect, test } from "vitest";
import type { TenfoldError } from "../../../src/errors/problem.ts";
import { type LoopDrive, sweptLoop } from "../../../src/studies/switch/loop.ts";
import { DRIVE_FORMS, waveOf } from "../../../src/studies/switch/wave.ts";
import { PLAUSIBLE } from "../../models/switch/geometry-examples.ts";

const loop = (driven: LoopDrive) => sweptLoop(PLAUSIBLE, 2.6, 2.6, driven);

test.each(DRIVE_FORMS)("a loop under a %s sets, resets, is pinched and balances", (form) => {
  const { setAt, resetAt, currentAtZero, imbalance, points } = loop({ form, period: 1e-3 });
  expect(setAt).toBeGreaterThan(0);
  expect(resetAt).toBeLessThan(0);
  // Passive and without memory of charge: no voltage, no current.
  expect(currentAtZero).toBe(0);
  expect(imbalance).toBeLessThan(1e-6);
  for (const { voltage, current } of points) expect(voltage * current).toBeGreaterThanOrEqual(0);
});

test("a faster loop sets at a higher voltage", () => {
  const at = (period: number) => loop({ period }).setAt!;
  expect(at(1e-4)).toBeGreaterThan(at(1e-2));
  expect(at(1e-2)).toBeGreaterThan(at(1));
});

test("a source that limits its current never passes more, one without passes more", () => {
  const free = loop({}).peakCurrent;
  const circuit = { series_resistance: 0, current_limit: free / 3 };
  expect(loop({ circuit }).peakCurrent).toBeLessThanOrEqual(free / 3);
  expect(loop({ circuit }).peakCurrent / (free / 3)).toBeCloseTo(1, 9);
});

test("a series resistance bounds the current by Ohm's law", () => {
  const circuit = { series_resistance: 1e6, current_limit: Number.POSITIVE_INFINITY };
  const { peakCurrent, imbalance } = loop({ circuit });
  expect(peakCurrent).toBeLessThan(2.6 / 1e6);
  expect(imbalance).toBeLessThan(1e-6);
});

test("the forms have the mean squares of triangle, sine and trapezium", () => {
  const shape = { peak: 2, trough: 2, period: 1, width: 0.25 };
  const n = 100_000;
  const mean = (form: (typeof DRIVE_FORMS)[number]) => {
    const wave = waveOf(form, shape);
    let sum = 0;
    for (let i = 0; i < n; i++) sum += wave((i + 0.5) / n) ** 2;
    return sum / n / 4;
  };
  expect(mean("triangle")).toBeCloseTo(1 / 3, 6);
  expect(mean("sine")).toBeCloseTo(1 / 2, 6);
  // Two pulses of 0.25, of whose width 0.9 is flat and 0.1 are edges of mean square 1/3.
  expect(mean("pulse")).toBeCloseTo(2 * 0.25 * (0.9 + 0.1 / 3), 6);
});

test.each([
  [{ period: 0 }, "period"],
  [{ amplitude: -1 }, "amplitude"],
  [{ form: "pulse", period: 1, width: 0.6 }, "width"],
  [{ form: "pulse", period: 1, width: 1e-3 }, "width"],
] as const)("a drive of %j is refused by the name of its fault", (driven, name) => {
  try {
    loop(driven);
  } catch (error) {
    const problem = (error as TenfoldError).problems[0]!;
    expect(problem.code).toBe("out-of-range");
    return expect(problem.what).toContain(name);
  }
  throw new Error("not refused");
});
