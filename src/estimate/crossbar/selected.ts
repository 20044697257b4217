/** The selected junction of a read: a law that the network solver may not have. */
import { type Law, ohmic, series } from "../../models/junction.ts";
import type { CrossbarSolution } from "../../numerics/crossbar/index.ts";
import { farCorner } from "./tile.ts";

/** Relative mismatch of network and law that is left. */
const TOLERANCE = 1e-6;
const MOST_ROUNDS = 12;
/** Stands for a junction that carries nothing, over the resistance it would have at the voltage. */
const OPEN = 1e12;

interface Point {
  readonly voltage: number;
  readonly current: number;
}

/**
 * Solves a network around a junction of any law: the junction is a resistance, and the network
 * behind it a source with a resistance, known from the last two solves. Their crossing gives the
 * next resistance, until the law holds.
 *
 * @param voltage at the driver [V]
 * @param wires resistance of the lines, for a first guess [ohm]
 * @param solve the network with that resistance at the far corner
 * @returns the last solution; undefined where the law was not met
 */
export function aroundLaw(
  law: Law,
  voltage: number,
  wires: number,
  columns: number,
  solve: (resistance: number) => CrossbarSolution,
): CrossbarSolution | undefined {
  const at = farCorner({ columns });
  let source = { voltage, resistance: wires };
  let before: Point | undefined;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const wanted = crossing(law, source);
    const open = OPEN * law.resistance(0);
    const solution = solve(wanted.current > 0 ? wanted.voltage / wanted.current : open);
    const got = {
      voltage: solution.junctionVoltages[at]!,
      current: solution.junctionCurrents[at]!,
    };
    const right = law.current(got.voltage);
    if (Math.abs(right - got.current) <= TOLERANCE * Math.max(right, got.voltage / open)) {
      return solution;
    }
    source = sourceThrough(got, before, source.resistance);
    before = got;
  }
  return undefined;
}

function crossing(law: Law, source: { voltage: number; resistance: number }): Point {
  const current =
    source.resistance > 0
      ? series(law, ohmic(source.resistance)).current(source.voltage)
      : law.current(source.voltage);
  return { voltage: source.voltage - current * source.resistance, current };
}

/** The source behind two points of the network; the resistance of before where they coincide. */
function sourceThrough(point: Point, before: Point | undefined, resistance: number) {
  const moved = before === undefined ? 0 : before.current - point.current;
  const slope = moved === 0 ? resistance : (point.voltage - before!.voltage) / moved;
  const behind = slope >= 0 && Number.isFinite(slope) ? slope : resistance;
  return { voltage: point.voltage + point.current * behind, resistance: behind };
}
