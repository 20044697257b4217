/** Resistances between pairs of ports of networks that have closed forms (nodal analysis, common practice). */
import { expect, test } from "vitest";
import { effectiveResistances } from "../../../src/numerics/index.ts";

/** The table of conductances from a list of ties. */
function tied(p: number, ties: readonly (readonly [a: number, b: number, siemens: number])[]) {
  const y = new Float64Array(p * p);
  for (const [a, b, g] of ties) {
    y[a * p + b]! += g;
    y[b * p + a]! += g;
  }
  return y;
}

/** To some roundings of what both ports see of the last one, of which their own is a difference. */
function expectAll(got: Float64Array, p: number, want: (a: number, b: number) => number): void {
  for (let a = 0; a < p; a++) {
    for (let b = 0; b < p; b++) {
      const expected = a === b ? 0 : want(a, b);
      const whole = expected + got[a * p + p - 1]! + got[b * p + p - 1]!;
      expect(Math.abs(got[a * p + b]! - expected)).toBeLessThanOrEqual(4 * 2 ** -52 * whole);
    }
  }
}

test("two ports see what joins them", () => {
  expectAll(effectiveResistances(tied(2, [[0, 1, 1 / 50]]), 2), 2, () => 50);
});

test("resistors in a row add up", () => {
  const ohms = [3, 50, 700, 11];
  const y = tied(
    5,
    ohms.map((r, k) => [k, k + 1, 1 / r] as const),
  );
  const sum = (a: number, b: number) =>
    ohms.slice(Math.min(a, b), Math.max(a, b)).reduce((all, r) => all + r, 0);
  expectAll(effectiveResistances(y, 5), 5, sum);
});

test("a star of resistors shows the sum of two", () => {
  for (const centre of [0, 2, 4]) {
    const others = [0, 1, 2, 3, 4].filter((k) => k !== centre);
    const y = tied(
      5,
      others.map((k) => [k, centre, 1 / (k + 1)] as const),
    );
    const arm = (k: number) => (k === centre ? 0 : k + 1);
    expectAll(effectiveResistances(y, 5), 5, (a, b) => arm(a) + arm(b));
  }
});

test("of p ports that are all joined alike, each pair sees 2/p of one resistor", () => {
  for (const p of [3, 4, 9]) {
    const ties = [];
    for (let a = 0; a < p; a++) for (let b = 0; b < a; b++) ties.push([a, b, 1 / 600] as const);
    expectAll(effectiveResistances(tied(p, ties), p), p, () => 1200 / p);
  }
});

test("a triangle shows each side beside the two others, weak ties with their digits", () => {
  const [r01, r12, r02] = [1e-3, 5e2, 1e12];
  const y = tied(3, [
    [0, 1, 1 / r01],
    [1, 2, 1 / r12],
    [0, 2, 1 / r02],
  ]);
  const beside = (own: number, rest: number) => (own * rest) / (own + rest);
  const sides = new Map([
    ["01", beside(r01, r12 + r02)],
    ["12", beside(r12, r01 + r02)],
    ["02", beside(r02, r01 + r12)],
  ]);
  const got = effectiveResistances(y, 3);
  expectAll(got, 3, (a, b) => sides.get(`${Math.min(a, b)}${Math.max(a, b)}`)!);
});
