/** Switching times as plain integrals: smooth in every parameter of the switch, as a fit needs. */
import { gaussLegendre } from "../../numerics/quadrature.ts";
import { type Circuit, DIRECT, gapRate, operatingPoint, type SwitchGeometry } from "./geometry.ts";
import type { Way } from "./geometry-way.ts";

const PANELS = 4;
const POINTS = 8;

/**
 * Time [s] in which a constant voltage moves the gap: the integral of one over its speed by 32
 * points. Infinity where it drives the other way. `switchingTime` gives the same with a controlled
 * error.
 */
export function travelTime(
  g: SwitchGeometry,
  voltage: number,
  { from, to }: Way,
  circuit: Circuit = DIRECT,
): number {
  const { nodes, weights } = gaussLegendre(POINTS);
  const way = to - from;
  let sum = 0;
  for (let panel = 0; panel < PANELS; panel++) {
    for (let i = 0; i < POINTS; i++) {
      const gap = from + (way * (panel + nodes[i]!)) / PANELS;
      const rate = gapRate(g, gap, operatingPoint(g, gap, voltage, circuit));
      if (!(rate * way > 0)) return Number.POSITIVE_INFINITY;
      sum += ((weights[i]! / PANELS) * way) / rate;
    }
  }
  return sum;
}
