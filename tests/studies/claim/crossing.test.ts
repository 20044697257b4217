import { expect, test } from "vitest";
import type { Parameter } from "../../../src/quantities/parameter.ts";
import { crossingOf } from "../../../src/studies/claim/crossing.ts";

const parameter: Parameter = {
  name: "x",
  unit: "m",
  value: 2,
  low: 1,
  high: 4,
  distribution: "two-piece lognormal",
  source: "this project",
  basis: "derived",
  key: "test/x",
};

test("a crossing of a power law is found to the last digits", () => {
  const { value, inRange } = crossingOf(parameter, (x) => 5 * x ** 3, 40 * Math.PI);
  expect(value! / Math.cbrt(8 * Math.PI)).toBeCloseTo(1, 14);
  expect(inRange).toBe(true);
});

test("of several crossings the one nearest to the nominal value is given", () => {
  const { value } = crossingOf(parameter, (x) => (x - 0.5) * (x - 3) * (x - 60), 0);
  expect(value).toBeCloseTo(3, 12);
});

test("beyond the range a crossing is given as such, and none is none", () => {
  const far = crossingOf(parameter, (x) => x, 100);
  expect(far.value).toBeCloseTo(100, 10);
  expect(far.inRange).toBe(false);
  expect(crossingOf(parameter, (x) => x, 1e6).value).toBeUndefined();
  expect(crossingOf(parameter, () => 7, 10).value).toBeUndefined();
});

test("a jump is found where it is", () => {
  const { value } = crossingOf(parameter, (x) => Math.floor(x), 3);
  expect(value).toBeCloseTo(3, 12);
});

test("a count of the user's choice crosses at a whole number", () => {
  const rows = { ...parameter, name: "rows", unit: "1", value: 64, low: 64, high: 64 };
  const { value } = crossingOf({ ...rows, key: "choice/rows/64" }, (x) => x * 1.5, 100);
  expect(value).toBe(67);
});

test("where a formula breaks there is no crossing", () => {
  const broken = (x: number) => (x > 2.5 ? Number.NaN : x);
  expect(crossingOf(parameter, broken, 3).value).toBeUndefined();
});
