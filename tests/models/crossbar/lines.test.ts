// Sneak paths against closed forms of their own, and ladders against the elimination of their nodes.
import { expect, test } from "vitest";
import { lineLadder } from "../../../src/models/crossbar/closed/ladder.ts";
import { sneakCurrent } from "../../../src/models/crossbar/closed/sneak.ts";
import { ohmic, sinhLaw } from "../../../src/models/junction.ts";
import { evaluateOne } from "../evaluate.ts";

test("the sneak current of sinh junctions satisfies the sum of its three groups", () => {
  for (const scale of [1e-9, 1, 1e9]) {
    const [m, n, s, r, v] = [40, 25, 0.3, 2e4 * scale, 1.1];
    const got = sneakCurrent(sinhLaw(s! / r!, s!), m!, n!, v!);
    const groups = [n! - 1, (m! - 1) * (n! - 1), m! - 1];
    const sum = groups.reduce((u, k) => u + s! * Math.asinh((got * r!) / (k * s!)), 0);
    expect(sum / v!).toBeCloseTo(1, 13);
  }
});

test("the sneak current of ohmic junctions is that of the sneak resistance", () => {
  const path = 1e4 / 63 + 1e4 / 63 + 1e4 / (63 * 63);
  expect((sneakCurrent(ohmic(1e4), 64, 64, 1) * path) / 1).toBeCloseTo(1, 13);
  expect(sneakCurrent(ohmic(1e4), 1, 64, 1)).toBe(0);
});

/** A ladder by series and parallel connection, node by node from the driver. */
function eliminated(junctions: number, segment: number, conductance: number) {
  let [resistance, share, count] = [0, 1, Math.min(junctions, 1)];
  // The far end of a ladder whose last node hangs open, by a voltage walked back from it.
  const at = [1, 1];
  for (let k = 1; k < junctions; k++) {
    const [near, next] = [at[k]!, at[k - 1]!];
    at.push(near + (near - next) + near * segment * conductance);
    resistance = 1 / (1 / (resistance + segment) + conductance);
  }
  const driver = at[Math.max(junctions, 1)]!;
  share = 1 / driver;
  for (let k = 1; k < junctions; k++) count += at[k]! / driver;
  return { share, resistance: resistance + (junctions > 0 ? segment : 0), count };
}

test.each([
  [0, 1, 1e-3],
  [1, 5, 1e-3],
  [2, 5, 1e-3],
  [9, 2, 1e-5],
  [63, 10, 1e-4],
  [255, 2, 5e-5],
])("a ladder of %i junctions is that of series and parallel connection", (n, r, g) => {
  for (const scale of [1e-9, 1, 1e9]) {
    const got = evaluateOne(lineLadder, {
      ladder_junctions: n,
      ladder_segment: r * scale,
      ladder_conductance: g / scale,
    });
    const want = eliminated(n, r, g);
    expect(got["ladder_share"]! / want.share).toBeCloseTo(1, 11);
    expect(got["ladder_count"]! / (want.count || 1)).toBeCloseTo(n > 0 ? 1 : 0, 11);
    expect(got["ladder_resistance"]! / (want.resistance * scale || 1)).toBeCloseTo(
      n > 0 ? 1 : 0,
      11,
    );
  }
});

test("a ladder without wire resistance or without junctions' current takes nothing", () => {
  for (const [r, g] of [
    [0, 1e-3],
    [10, 0],
  ]) {
    const got = evaluateOne(lineLadder, {
      ladder_junctions: 100,
      ladder_segment: r!,
      ladder_conductance: g!,
    });
    expect(got["ladder_share"]).toBeCloseTo(1, 12);
    expect(got["ladder_count"]! / 100).toBeCloseTo(1, 9);
    expect(got["ladder_resistance"]! / (r! * 100 || 1)).toBeCloseTo(r! > 0 ? 1 : 0, 9);
  }
});
