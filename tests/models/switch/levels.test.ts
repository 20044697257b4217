import { describe, expect, test } from "vitest";
import { DIRECT } from "../../../src/models/switch/geometry.ts";
import { type Level, levelsBetween, trainOf } from "../../../src/models/switch/levels.ts";
import {
  PulsedDevice,
  type WritePlan,
  writeLevel,
} from "../../../src/models/switch/levels-write.ts";
import { meanOf, normalTail, RandomStream, varianceOf } from "../../../src/numerics/index.ts";
import { PLAUSIBLE } from "./geometry-examples.ts";

const G = { ...PLAUSIBLE, most_gap: 0.9e-9 };
const READ = 0.2;
const device = () => new PulsedDevice(G, DIRECT, READ);
const ON = device().resistance(G.least_gap);
const OFF = device().resistance(G.most_gap);
/** Long enough to meet the ends of the gap beyond doubt. */
const WHOLE = { voltage: 2.6, width: 1e-3 };

const PLAN: WritePlan = {
  approach: "reset",
  train: [WHOLE],
  start: WHOLE,
  circuit: DIRECT,
  readVoltage: READ,
  readTime: 10e-9,
  cycleSpread: 0.2,
  readNoise: 0,
  mostPulses: 1000,
  wholeWay: Math.log(OFF / ON),
};

function writes(level: Level, plan: WritePlan, count: number, key: string) {
  const one = device();
  return Array.from({ length: count }, (_, i) =>
    writeLevel(one, level, plan, RandomStream.of(20261125, key, String(i))),
  );
}

const around = (r: number, half: number): Level => ({
  target: r,
  low: r * Math.exp(-half),
  high: r * Math.exp(half),
  boundary: Number.POSITIVE_INFINITY,
});

describe("levels", () => {
  test("are even in ln R, with windows that take their share of the distance", () => {
    const levels = levelsBetween(1e3, 1e6, { levels: 4, spacing: "resistance", window: 0.5 });
    expect(levels.map(({ target }) => Math.log10(target))).toEqual([
      3,
      expect.closeTo(4, 12),
      expect.closeTo(5, 12),
      6,
    ]);
    expect(Math.log10(levels[1]!.low)).toBeCloseTo(3.75, 12);
    expect(Math.log10(levels[1]!.high)).toBeCloseTo(4.25, 12);
    expect(Math.log10(levels[1]!.boundary)).toBeCloseTo(4.5, 12);
    expect(levels[0]!.low).toBe(0);
    expect(levels[3]!.high).toBe(Number.POSITIVE_INFINITY);
    expect(levels[3]!.boundary).toBe(Number.POSITIVE_INFINITY);
  });

  test("are even in current where that is asked for: 1/R in equal steps", () => {
    const levels = levelsBetween(1e3, 1e4, { levels: 4, spacing: "current", window: 0.2 });
    const currents = levels.map(({ target }) => 1e3 / target);
    for (const [k, expected] of [1, 0.7, 0.4, 0.1].entries())
      expect(currents[k]).toBeCloseTo(expected, 12);
    expect(1e3 / levels[1]!.low).toBeCloseTo(0.73, 12);
    expect(1e3 / levels[1]!.high).toBeCloseTo(0.67, 12);
    expect(1e3 / levels[1]!.boundary).toBeCloseTo(0.55, 12);
  });

  test.each([
    [{ levels: 1, window: 0.5 }, "levels cannot be"],
    [{ levels: 2.5, window: 0.5 }, "levels cannot be"],
    [{ levels: 65, window: 0.5 }, "levels cannot be"],
    [{ levels: 4, window: 1 }, "window"],
    [{ levels: 4, window: 0 }, "window"],
  ])("are refused for %j", (plan, words) => {
    expect(() => levelsBetween(1, 2, { ...plan, spacing: "resistance" })).toThrow(words);
  });
});

test("trains rise in equal steps of voltage, lengthen in equal ratios, or stay equal", () => {
  const last = { voltage: 2, width: 1e-6 };
  expect(trainOf("voltage", last, 4).map(({ voltage }) => voltage)).toEqual([0.5, 1, 1.5, 2]);
  const widths = trainOf("width", last, 4).map(({ width }) => width);
  for (const [i, expected] of [1e-9, 1e-8, 1e-7, 1e-6].entries())
    expect(widths[i]! / expected).toBeCloseTo(1, 12);
  expect(trainOf("equal", last, 2)).toEqual([last, last]);
  expect(trainOf("voltage", last, 1)).toEqual([last]);
  expect(() => trainOf("equal", last, 0)).toThrow("at least one pulse");
});

describe("a write of one set and one reset, again until it hits, in closed form", () => {
  // Each attempt is fresh, since it goes the whole way: it hits with p = 1 - 2 Q(w/sigma), so that
  // attempts are geometric; what is accepted is a normal that is cut off at both ends.
  const half = 0.25;
  const hit = 1 - 2 * normalTail(half / PLAN.cycleSpread);
  const count = 4000;
  const done = writes(around(OFF, half), PLAN, count, "geometric");

  test("takes 2/p pulses in the mean, half as many trains", () => {
    const pulses = meanOf(done.map((one) => one.pulses));
    const error = (2 * Math.sqrt(1 - hit)) / hit / Math.sqrt(count);
    expect(Math.abs(pulses - 2 / hit)).toBeLessThan(4 * error);
    for (const one of done) expect(one.pulses).toBe(2 * one.trains);
  });

  test("leaves a cut normal: its standard deviation, and nothing beyond the window", () => {
    const logs = done.map(({ resistance }) => Math.log(resistance / OFF));
    const a = half / PLAN.cycleSpread;
    const density = Math.exp((-a * a) / 2) / Math.sqrt(2 * Math.PI);
    const cut = PLAN.cycleSpread * Math.sqrt(1 - (2 * a * density) / hit);
    expect(Math.abs(Math.sqrt(varianceOf(logs)) / cut - 1)).toBeLessThan(4 / Math.sqrt(2 * count));
    expect(Math.max(...logs.map(Math.abs))).toBeLessThanOrEqual(half);
  });

  test("gives up after the allowed pulses with the probability that all attempts miss", () => {
    const few = writes(around(OFF, half), { ...PLAN, mostPulses: 4 }, count, "few");
    const missed = few.filter(({ reached }) => !reached).length / count;
    const expected = (1 - hit) ** 2;
    const error = Math.sqrt((expected * (1 - expected)) / count);
    expect(Math.abs(missed - expected)).toBeLessThan(4 * error);
    expect(Math.max(...few.map(({ pulses }) => pulses))).toBe(4);
  });
});

describe("time and energy of a write", () => {
  const steady = { ...PLAN, cycleSpread: 0 };

  test("are the sums of its pulses and reads", () => {
    const one = device();
    const [set, reset] = [
      one.pulse(G.most_gap, WHOLE.voltage, WHOLE.width),
      one.pulse(G.least_gap, -WHOLE.voltage, WHOLE.width),
    ];
    const [written] = writes(around(OFF, 0.1), steady, 1, "sum");
    expect(written).toMatchObject({ reached: true, pulses: 2, trains: 1 });
    expect(written!.time / (2 * WHOLE.width + 2 * steady.readTime)).toBeCloseTo(1, 12);
    const reads = READ * READ * (1 / ON + 1 / OFF) * steady.readTime;
    const expected = set.sourceEnergy + reset.sourceEnergy + reads;
    expect(written!.energy / expected).toBeCloseTo(1, 9);
  });

  test("of the state where every write begins are those of that one pulse", () => {
    const [written] = writes({ ...around(ON, 0.1), low: 0 }, steady, 1, "on");
    expect(written).toMatchObject({ reached: true, pulses: 1, trains: 1 });
  });

  test("a start beyond its window goes elsewhere and comes back as a new cycle", () => {
    // The lowest level: a start hits with p = 1 - Q(w/sigma), else a reset and a set more.
    const half = 0.2;
    const open = { ...around(ON, half), low: 0 };
    const hit = 1 - normalTail(half / 0.2);
    const done = writes(open, { ...PLAN, train: [WHOLE] }, 2000, "start");
    const pulses = meanOf(done.map((one) => one.pulses));
    const expected = 1 + (2 * (1 - hit)) / hit;
    expect(Math.abs(pulses - expected)).toBeLessThan(
      (4 * 2 * Math.sqrt(1 - hit)) / hit / Math.sqrt(2000),
    );
    expect(done.every(({ reached }) => reached)).toBe(true);
  });

  test("a level beyond the train's strength is given up after all its pulses", () => {
    const weak = { ...steady, train: [{ voltage: 0.1, width: 1e-9 }], mostPulses: 10 };
    const [written] = writes(around(OFF, 0.1), weak, 1, "weak");
    expect(written).toMatchObject({ reached: false, pulses: 10, trains: 5 });
  });

  test("a long train is cut short where the allowed pulses end", () => {
    const never = { target: 1e30, low: 1e30, high: 1e31, boundary: 1e31 };
    const small = Array.from({ length: 30 }, () => ({ voltage: 1, width: 1e-9 }));
    const [written] = writes(never, { ...steady, train: small, mostPulses: 10 }, 1, "cut");
    expect(written).toMatchObject({ reached: false, pulses: 10, trains: 1 });
  });

  test("approached by sets, a level between is stepped over, for sets run away", () => {
    const sets = { ...steady, approach: "set" as const, mostPulses: 20 };
    expect(writes({ ...around(ON, 0.1), low: 0 }, sets, 1, "set")[0]!.reached).toBe(true);
    expect(writes(around(Math.sqrt(ON * OFF), 0.1), sets, 1, "over")[0]!.reached).toBe(false);
  });
});

test("read noise alone accepts by what the read says, not by what is there", () => {
  const noisy = { ...PLAN, cycleSpread: 0, readNoise: 0.2 };
  const half = 0.1;
  const hit = 1 - 2 * normalTail(half / 0.2);
  const done = writes(around(OFF, half), noisy, 2000, "noise");
  const pulses = meanOf(done.map((one) => one.pulses));
  expect(Math.abs(pulses / (2 / hit) - 1)).toBeLessThan(4 * Math.sqrt((1 - hit) / 2000));
  for (const { resistance } of done) expect(resistance / OFF).toBeCloseTo(1, 9);
});

test("from cycle to cycle a state spreads by the cycle spread, however many pulses led to it", () => {
  // A level that is never met: every write ends after the same pulses, whatever it deviates.
  const never = { target: 1e30, low: 1e30, high: 1e31, boundary: 1e31 };
  const small = Array.from({ length: 30 }, (_, i) => ({ voltage: 1 + i / 20, width: 1e-9 }));
  const count = 2000;
  for (const train of [[WHOLE], small]) {
    const plan = { ...PLAN, train, mostPulses: train.length + 1 };
    const logs = writes(never, plan, count, `stationary ${train.length}`).map(({ resistance }) =>
      Math.log(resistance),
    );
    const nominal = writes(never, { ...plan, cycleSpread: 0 }, 1, "nominal")[0]!;
    expect(nominal.resistance / ON).toBeGreaterThan(2);
    expect(Math.abs(meanOf(logs) - Math.log(nominal.resistance))).toBeLessThan(
      (4 * PLAN.cycleSpread) / Math.sqrt(count),
    );
    const ratio = Math.sqrt(varianceOf(logs)) / PLAN.cycleSpread;
    expect(Math.abs(ratio - 1)).toBeLessThan(4 / Math.sqrt(2 * count));
  }
});
