import { expect, test } from "vitest";
import { solveCrossbar } from "../../../src/numerics/crossbar/solve.ts";

/** Two rows; the second is left open. */
function solved(voltages: readonly [number, number], junction: number, wire: number) {
  return solveCrossbar({
    rows: 2,
    columns: 2,
    rowResistance: wire,
    columnResistance: wire,
    junctions: { conductance: new Float64Array(4).fill(1 / junction) },
    terminals: {
      left: { voltage: Float64Array.of(1, 0), resistance: Float64Array.of(0, Number.NaN) },
      bottom: { voltage: Float64Array.from(voltages), resistance: new Float64Array(2) },
    },
  });
}

test.each([
  [1e9, 0.01],
  [1e12, 1e-3],
  [1e3, 1],
])(
  "an open row between equal columns carries nothing: junctions of %g ohm, wires of %g ohm",
  (junction, wire) => {
    const { converged, junctionCurrents } = solved([-1, -1], junction, wire);
    expect(converged).toBe(true);
    const [first, second, third, fourth] = junctionCurrents as unknown as number[];
    // By symmetry alone the far column could differ; each junction of the driven row has nearly 2 V across.
    expect(first! / (2 / junction) - 1).toBeLessThan(0);
    expect(Math.abs(first! / (2 / junction) - 1)).toBeLessThan((8 * wire) / junction);
    expect(Math.abs(second! / (2 / junction) - 1)).toBeLessThan((8 * wire) / junction);
    // What flows in the open row is what the drop along the wires leaves of a difference, no more.
    for (const leak of [third!, fourth!]) {
      expect(Math.abs(leak)).toBeLessThan((8 * wire) / junction / junction);
    }
  },
);
