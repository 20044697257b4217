import { describe, expect, it } from "vitest";
import { currentAbove, currentBelow } from "../../../src/models/reliability/bit-errors.ts";
import { currentBeyond } from "../../../src/models/reliability/current-tails.ts";
import { readErrors } from "../../../src/models/reliability/read-errors.ts";
import { normalTail } from "../../../src/numerics/special/normal.ts";

const MEDIAN = 30e-6;

describe("bit errors of a read in the array", () => {
  it("agrees to 1e-9 with the adaptive mean over the spread, from 0.4 down to 1e-30", () => {
    let worst = 0;
    const met: number[] = [];
    for (const spread of [0.05, 0.2, 0.6]) {
      for (const noise of [0.2e-6, 1e-6, 4e-6]) {
        for (const share of [0.15, 0.4, 0.8, 1.3, 2.5]) {
          const t = share * MEDIAN;
          const below = currentBelow(1, 1 / MEDIAN, spread, noise, t);
          const above = currentAbove(1, 1 / MEDIAN, spread, noise, t);
          if (below > 1e-290) {
            const ours = currentBeyond("below", MEDIAN, spread, noise, t);
            worst = Math.max(worst, Math.abs(ours / below - 1));
            met.push(below);
          }
          if (above > 1e-290) {
            const ours = currentBeyond("above", MEDIAN, spread, noise, t);
            worst = Math.max(worst, Math.abs(ours / above - 1));
          }
        }
      }
    }
    expect(Math.min(...met)).toBeLessThan(1e-30);
    expect(worst).toBeLessThan(1e-9);
  });

  it("is the normal tail where there is no spread, and the lognormal one where there is no noise", () => {
    const normal = currentBeyond("below", MEDIAN, 0, 2e-6, 14e-6);
    expect(normal / normalTail(8)).toBeCloseTo(1, 12);
    const lognormal = currentBeyond("below", MEDIAN, 0.1, 1e-15, MEDIAN * Math.exp(-0.85));
    expect(lognormal / normalTail(8.5)).toBeCloseTo(1, 8);
  });

  it("finds a reference whose error is less than twice the least of a scan", () => {
    for (const noise of [0.1e-6, 1e-6, 3e-6]) {
      const p = { on: 30e-6, off: 1e-6, leak: 2e-6, onSpread: 0.15, offSpread: 0.5, noise };
      const { reference, onAsOff, offAsOn } = readErrors(p);
      expect(Math.abs(Math.log(onAsOff / offAsOn))).toBeLessThan(1e-3);
      const at = (t: number) =>
        (currentBeyond("below", p.on, p.onSpread, noise, t) +
          currentBeyond("above", p.off, p.offSpread, noise, t - p.leak)) /
        2;
      const scan = Array.from({ length: 400 }, (_, i) => at(reference * (0.6 + 0.002 * i)));
      expect((onAsOff + offAsOn) / 2).toBeLessThan(2 * Math.min(...scan));
      expect((onAsOff + offAsOn) / 2).toBeGreaterThanOrEqual(0.999 * Math.min(...scan));
    }
  });

  it("keeps its digits at 1e-18", () => {
    const p = { on: 20e-6, off: 1e-6, leak: 0, onSpread: 0, offSpread: 0, noise: 9.5e-6 / 8.757 };
    const { onAsOff } = readErrors(p);
    // Without spreads the reference is halfway: a normal tail at half the distance.
    expect(onAsOff / normalTail(8.757)).toBeCloseTo(1, 5);
    expect(onAsOff).toBeGreaterThan(0.9e-18);
    expect(onAsOff).toBeLessThan(1.1e-18);
  });
});
