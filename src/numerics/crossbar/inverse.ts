/** The voltage of a junction for a given current: where to take its tangent when the network limits the current. */
import { asinh, log1p } from "../special/elementary.ts";
import type { JunctionKind, Law } from "./problem.ts";

/** Voltage [V] at which the law's current is about i [A]; exact for all but a leaking diode and a threshold. */
export function lawVoltage(law: Law, i: number): number {
  switch (law.law) {
    case "ohmic":
      return i * law.resistance;
    case "sinh":
      return law.scaleVoltage * asinh((i * law.resistance) / law.scaleVoltage);
    case "diode": {
      const leak = law.leakResistance ?? Infinity;
      if (i <= 0) {
        // Reversed, the diode takes its saturation current and the leak the rest.
        const rest = i + 0.9 * law.saturationCurrent;
        const own = law.emissionVoltage * log1p(Math.max(i / law.saturationCurrent, -0.9));
        return rest < 0 && leak < Infinity ? own + rest * leak : own;
      }
      return Math.min(law.emissionVoltage * log1p(i / law.saturationCurrent), i * leak);
    }
    case "threshold": {
      const size = Math.abs(i);
      const off = size * law.offResistance;
      const on = size * law.onResistance;
      const v = Math.min(off, Math.max(on, law.thresholdVoltage));
      return i < 0 ? -v : v;
    }
  }
}

/**
 * The same for a junction: the voltages of what stands in series add up. NaN where no law grows exponentially: its
 * current is then no guide to its voltage.
 */
export function junctionVoltageFor(kind: JunctionKind, i: number): number {
  const laws = [kind.element.law, kind.selector?.law];
  if (!laws.includes("sinh") && !laws.includes("diode")) return Number.NaN;
  const own = lawVoltage(kind.element, i);
  return kind.selector === undefined ? own : own + lawVoltage(kind.selector, i);
}
