// A pulse that moves a switch a little redraws little of its deviation from cycle to cycle.
import { expect, test } from "vitest";
import { DIRECT } from "../../../src/models/switch/geometry.ts";
import type { Level } from "../../../src/models/switch/levels.ts";
import {
  type PulsedDevice,
  type WritePlan,
  writeLevel,
} from "../../../src/models/switch/levels-write.ts";
import { RandomStream } from "../../../src/numerics/index.ts";

// A switch whose ln R is its gap, from 0 to 100, and of which each pulse moves a hundredth: a ten-thousandth of the way.
const device = {
  geometry: { least_gap: 0, most_gap: 100 },
  resistance: (gap: number) => Math.exp(gap),
  pulse: (gap: number, voltage: number) => ({
    gap: voltage > 0 ? 0 : gap + 0.01,
    sourceEnergy: 0,
  }),
} as unknown as PulsedDevice;
const pulse = { voltage: 1, width: 1e-9 };
const plan: WritePlan = {
  approach: "reset",
  train: Array.from({ length: 200 }, () => pulse),
  start: pulse,
  circuit: DIRECT,
  readVoltage: 0.1,
  readTime: 1e-9,
  cycleSpread: 0.2,
  readNoise: 0,
  mostPulses: 1e6,
  wholeWay: 100,
};
const level: Level = {
  target: Math.exp(1.2),
  low: Math.exp(1.18),
  high: Math.exp(1.22),
  boundary: Number.POSITIVE_INFINITY,
};

test("a window of four steps is met in one train: the deviation walks by a hundredth of its spread", () => {
  // A step of 0.01 and a redrawn part of 0.002 never pass a window of 0.04; a new deviation of 0.2 each time would.
  for (let i = 0; i < 40; i++) {
    const written = writeLevel(device, level, plan, RandomStream.of(20261125, "small", String(i)));
    expect(written.reached).toBe(true);
    expect(written.trains).toBe(1);
  }
});

test("a switch that crosses its whole way forgets its deviation", () => {
  const whole = { ...plan, wholeWay: 0.01 };
  const trains = Array.from({ length: 40 }, (_, i) =>
    writeLevel(device, level, whole, RandomStream.of(20261125, "whole", String(i))),
  ).map((written) => written.trains);
  expect(Math.max(...trains)).toBeGreaterThan(1);
});
