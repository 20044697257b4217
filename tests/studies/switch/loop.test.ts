import { expect, test } from "vitest";
import type { TenfoldError } from "../../../src/errors/problem.ts";
import { DIRECT } from "../../../src/models/switch/geometry.ts";
import { gapAfterRamp } from "../../../src/models/switch/geometry-pulse.ts";
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

test("a loop is as high as the set voltage and as deep as the reset voltage, or as told", () => {
  const ends = (driven: LoopDrive) => {
    const volts = sweptLoop(PLAUSIBLE, 2.4, 1.6, driven).points.map(({ voltage }) => voltage);
    return [Math.max(...volts), Math.min(...volts)];
  };
  // 64 of its moments are kept: an end lies within a sixteenth of the height.
  for (const [driven, high, low] of [
    [{}, 2.4, -1.6],
    [{ amplitude: 2 }, 2, -2],
  ] as const) {
    const [most, least] = ends(driven);
    expect(Math.abs(most! / high - 1)).toBeLessThan(1 / 16);
    expect(Math.abs(least! / low - 1)).toBeLessThan(1 / 16);
  }
});

test("a faster loop sets at a higher voltage", () => {
  const at = (period: number) => loop({ period }).setAt!;
  expect(at(1e-4)).toBeGreaterThan(at(1e-2));
  expect(at(1e-2)).toBeGreaterThan(at(1));
});

test("it sets and resets where the gap passes the middle of its travel, to a step of the loop", () => {
  const middle = (PLAUSIBLE.least_gap + PLAUSIBLE.most_gap) / 2;
  const { setAt, resetAt } = loop({ period: 1e-3 });
  // The ramps of the triangle alone, each from its end of the gap: 2.6 V in a quarter period.
  const after = (from: number, voltage: number) =>
    gapAfterRamp(
      PLAUSIBLE,
      from,
      { from: 0, to: voltage, time: (Math.abs(voltage) / 2.6) * 0.25e-3 },
      DIRECT,
    );
  const step = (4 * 2.6) / 400;
  expect(after(PLAUSIBLE.most_gap, setAt! + step / 10)).toBeLessThan(middle);
  expect(after(PLAUSIBLE.most_gap, setAt! - 1.1 * step)).toBeGreaterThan(middle);
  expect(after(PLAUSIBLE.least_gap, resetAt! - step / 10)).toBeGreaterThan(middle);
  expect(after(PLAUSIBLE.least_gap, resetAt! + 1.1 * step)).toBeLessThan(middle);
});

test("its energy is the source's: V^2/(3 R) times the period where a resistance takes all", () => {
  const circuit = { series_resistance: 1e13, current_limit: Number.POSITIVE_INFINITY };
  const { energy, setAt } = loop({ circuit, period: 2 });
  expect(setAt).toBeUndefined();
  expect(energy / (((2.6 * 2.6) / 3 / 1e13) * 2)).toBeCloseTo(1, 4);
});

test("its largest power is that of its largest current at its highest voltage", () => {
  const { peakPower, peakCurrent } = loop({});
  expect(peakPower / (2.6 * peakCurrent)).toBeCloseTo(1, 2);
  // Behind a resistance the switch has less of it than the source gives.
  const circuit = { series_resistance: 5e3, current_limit: Number.POSITIVE_INFINITY };
  const behind = loop({ circuit });
  expect(behind.peakPower).toBeLessThan(0.5 * 2.6 * behind.peakCurrent);
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

test("each form is above zero in the first half of its period, below in the second, by its height", () => {
  for (const form of DRIVE_FORMS) {
    const wave = waveOf(form, { peak: 2, trough: 1, period: 4, width: 1.9 });
    const at = Array.from({ length: 400 }, (_, i) => wave(((i + 0.5) * 4) / 400));
    const [first, second] = [at.slice(0, 200), at.slice(200)];
    expect(Math.max(...first)).toBeCloseTo(2, 1);
    expect(Math.min(...first)).toBeGreaterThanOrEqual(0);
    expect(Math.min(...second)).toBeCloseTo(-1, 1);
    expect(Math.max(...second)).toBeLessThanOrEqual(0);
    // The second half is the first, upside down and half as high.
    for (const [i, value] of first.entries()) expect(second[i]).toBeCloseTo(-value / 2, 9);
  }
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
