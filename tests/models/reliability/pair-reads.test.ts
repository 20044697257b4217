import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { pairError } from "../../../src/models/reliability/pair-reads.ts";
import { readErrors } from "../../../src/models/reliability/read-errors.ts";
import { normalDensity, normalTail } from "../../../src/numerics/special/normal.ts";

const ON = 30e-6;

/** Mean over two standard normals. */
function byFineSteps(f: (a: number, b: number) => number): number {
  const step = 0.05;
  let sum = 0;
  for (let i = -240; i <= 240; i++) {
    let row = 0;
    for (let j = -240; j <= 240; j++) row += normalDensity(j * step) * f(i * step, j * step);
    sum += normalDensity(i * step) * row;
  }
  return sum * step * step;
}

describe("two switches that are compared", () => {
  it("err by the tail of a difference of logarithms where there is no noise, down to 1e-18", () => {
    for (const [off, onSpread, offSpread] of [
      [3e-6, 0.1, 0.25],
      [3e-6, 0.3, 0.1],
      [1e-6, 0.2, 0.33],
      [20e-6, 0.2, 0.2],
      [29e-6, 0.5, 0.01],
    ] as const) {
      const closed = normalTail(Math.log(ON / off) / Math.hypot(onSpread, offSpread));
      const found = pairError({ on: ON, off, onSpread, offSpread, noise: 0 });
      expect(found / closed).toBeCloseTo(1, 8);
    }
  });

  it("err by the normal tail where there is noise alone", () => {
    const found = pairError({ on: ON, off: 3e-6, onSpread: 0, offSpread: 0, noise: 3e-6 });
    expect(found / normalTail(9)).toBeCloseTo(1, 12);
  });

  it("agree with a rule of steps seven times as fine, over both spreads and no closed form", () => {
    for (const noise of [0.5e-6, 2e-6, 8e-6]) {
      for (const [onSpread, offSpread] of [
        [0.1, 0.4],
        [0.25, 0.25],
        [0.4, 0.1],
      ] as const) {
        const exact = byFineSteps((a, b) =>
          normalTail((ON * Math.exp(onSpread * a) - 3e-6 * Math.exp(offSpread * b)) / noise),
        );
        const found = pairError({ on: ON, off: 3e-6, onSpread, offSpread, noise });
        expect(found / exact, `${noise} ${onSpread} ${offSpread}`).toBeCloseTo(1, 5);
      }
    }
  });

  it("err less often than one switch against the best reference, whatever the spreads", () => {
    const share = fc.double({ min: 0.02, max: 0.6, noNaN: true });
    fc.assert(
      fc.property(share, share, share, (onSpread, offSpread, noise) => {
        const given = { on: 30, off: 2, onSpread, offSpread, noise: 10 * noise };
        const single = readErrors({ ...given, leak: 0 });
        // Not more than both kinds of error together: one of the two switches is to blame.
        const most = single.onAsOff + single.offAsOn;
        const found = pairError({ ...given, noise: 10 * noise });
        expect(found).toBeLessThanOrEqual(most * (1 + 1e-6));
        expect(found).toBeGreaterThanOrEqual(0);
      }),
      { seed: 20261125, numRuns: 100 },
    );
  });
});
