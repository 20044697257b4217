/**
 * A switch from its geometry: a vacancy-rich, ohmic part and an insulating gap in series between
 * the electrodes; the gap conducts by tunnelling, and its boundary moves by field-driven hopping.
 *
 * Tunnelling: "Generalized formula for the electric tunnel effect between similar electrodes
 * separated by a thin insulating film", Journal of Applied Physics 34 (1963) 1793-1803,
 * doi 10.1063/1.1702682. Its low-field form gives the prefactor, its exponents the dependence on
 * voltage, so that the law stays positive for gaps of any thinness. Hopping: "Exponential ionic
 * drift: fast switching and low volatility of thin-film memristors", Applied Physics A 94 (2009)
 * 515-519, doi 10.1007/s00339-008-4975-3.
 */
import { refuse } from "../../errors/problem.ts";
import { solve } from "../../numerics/roots.ts";
import { exp, expm1, sinh, sqrt } from "../../numerics/special/elementary.ts";
import { CONSTANTS } from "../../quantities/constants.ts";

const Q = CONSTANTS.elementary_charge.value;
const K = CONSTANTS.boltzmann_constant.value;
const H = CONSTANTS.planck_constant.value;
const HBAR = CONSTANTS.reduced_planck_constant.value;
const MASS = CONSTANTS.electron_mass.value;

/** All in SI: m, m^2, J, ohm m, 1/s, K, K/W. */
export interface SwitchGeometry {
  readonly film_thickness: number;
  readonly electrode_area: number;
  /** The thinnest gap that a set leaves, above 0. */
  readonly least_gap: number;
  /** The thickest gap that a reset leaves, at most the film. */
  readonly most_gap: number;
  readonly barrier_height: number;
  /** Effective mass of the tunnelling electron over the free one. */
  readonly effective_mass: number;
  readonly conductive_resistivity: number;
  readonly hop_distance: number;
  readonly attempt_frequency: number;
  readonly hop_energy: number;
  /** Charge number of the vacancy. */
  readonly vacancy_charge: number;
  readonly temperature: number;
  /** Rise of the switch's temperature per power; 0 leaves self-heating out. */
  readonly thermal_resistance: number;
}

/** What drives the switch: a source behind a resistance, with a current limit. */
export interface Circuit {
  readonly series_resistance: number;
  /** Infinity for none. */
  readonly current_limit: number;
}

export const DIRECT: Circuit = { series_resistance: 0, current_limit: Number.POSITIVE_INFINITY };

/** Voltages [V] and current [A] of the switch at a moment. */
export interface OperatingPoint {
  readonly current: number;
  readonly gapVoltage: number;
  /** Across gap and conductive part together. */
  readonly switchVoltage: number;
  /** Across the series resistance, or what the current limit takes away. */
  readonly seriesVoltage: number;
}

/** Refuses a geometry that describes no switch. */
export function requireGeometry(g: SwitchGeometry): void {
  const positive = Object.entries(g).filter(([name, x]) => {
    return name === "thermal_resistance" ? !(x >= 0) : !(x > 0);
  });
  const ordered = g.least_gap < g.most_gap && g.most_gap <= g.film_thickness;
  if (positive.length === 0 && ordered) return;
  refuse({
    code: "out-of-range",
    what: ordered
      ? `the geometry of a switch must be above zero: ${positive.map(([name, x]) => `${name} is ${x}`).join(", ")}`
      : `the gaps of a switch are out of order: least_gap ${g.least_gap} m, most_gap ${g.most_gap} m, ` +
        `film_thickness ${g.film_thickness} m`,
    expected: "0 < least_gap < most_gap <= film_thickness",
  });
}

/** Decay constant of the tunnel current with the gap [1/m]: 2 sqrt(2 m phi)/hbar. */
export function tunnelDecay(barrier: number, effectiveMass: number): number {
  return (2 * sqrt(2 * effectiveMass * MASS * barrier)) / HBAR;
}

/** Tunnel current [A] through a gap [m] at a voltage [V] across it; odd in the voltage. */
export function tunnelCurrent(g: SwitchGeometry, gap: number, voltage: number): number {
  if (voltage < 0) return -tunnelCurrent(g, gap, -voltage);
  const thickness = tunnelDecay(g.barrier_height, g.effective_mass) * gap;
  const momentum = sqrt(2 * g.effective_mass * MASS * g.barrier_height);
  const prefactor = (g.electrode_area * (Q / H) * (Q / H) * momentum) / gap;
  const scale = (2 * g.barrier_height) / (Q * thickness);
  const lowering = (Q * voltage) / (2 * g.barrier_height);
  return prefactor * scale * exponentials(thickness, lowering);
}

/** exp(-forward) - exp(-backward), with y = qV/(2 phi); beyond qV = phi the barrier also thins. */
function exponentials(thickness: number, y: number): number {
  if (y > 0.5) {
    const forward = (thickness * Math.SQRT1_2) / (2 * y);
    return exp(-forward) - exp(-thickness * sqrt(1.5));
  }
  const [lower, upper] = [sqrt(1 - y), sqrt(1 + y)];
  const difference = (2 * y) / (upper + lower);
  return -exp(-thickness * lower) * expm1(-thickness * difference);
}

/** Resistance of the conductive part [ohm] beside a gap [m]. */
export function conductiveResistance(g: SwitchGeometry, gap: number): number {
  return (g.conductive_resistivity * (g.film_thickness - gap)) / g.electrode_area;
}

/** Current and voltages when the source drives `voltage`; odd, and zero at zero. */
export function operatingPoint(
  g: SwitchGeometry,
  gap: number,
  voltage: number,
  circuit: Circuit = DIRECT,
): OperatingPoint {
  if (voltage < 0) {
    const mirrored = operatingPoint(g, gap, -voltage, circuit);
    return {
      current: -mirrored.current,
      gapVoltage: -mirrored.gapVoltage,
      switchVoltage: -mirrored.switchVoltage,
      seriesVoltage: -mirrored.seriesVoltage,
    };
  }
  if (voltage === 0) return { current: 0, gapVoltage: 0, switchVoltage: 0, seriesVoltage: 0 };
  const inner = conductiveResistance(g, gap);
  const outer = inner + circuit.series_resistance;
  const gapVoltage = solve((u) => u + outer * tunnelCurrent(g, gap, u) - voltage, 0, voltage);
  const current = tunnelCurrent(g, gap, gapVoltage);
  if (current <= circuit.current_limit) {
    return pointOf(current, gapVoltage, inner, circuit.series_resistance * current);
  }
  const limited = circuit.current_limit;
  const held = solve((u) => tunnelCurrent(g, gap, u) - limited, 0, gapVoltage);
  return pointOf(limited, held, inner, voltage - held - inner * limited);
}

function pointOf(
  current: number,
  gapVoltage: number,
  inner: number,
  seriesVoltage: number,
): OperatingPoint {
  return { current, gapVoltage, switchVoltage: gapVoltage + inner * current, seriesVoltage };
}

/** Resistance [ohm] of the whole switch at a read voltage [V]. */
export function resistanceAt(g: SwitchGeometry, gap: number, readVoltage: number): number {
  return readVoltage / operatingPoint(g, gap, readVoltage).current;
}

/**
 * Speed [m/s] at which vacancies hop along a field [V/m]: 2 a f exp(-Ea/kT) sinh(zqaE/(2kT)), and
 * no more than one hop per attempt once the field has taken the whole barrier away.
 */
export function hopSpeed(g: SwitchGeometry, field: number, temperature = g.temperature): number {
  if (field < 0) return -hopSpeed(g, -field, temperature);
  const thermal = K * temperature;
  const barrier = g.hop_energy / thermal;
  const tilt = (g.vacancy_charge * Q * g.hop_distance * field) / (2 * thermal);
  const attempt = g.hop_distance * g.attempt_frequency;
  if (tilt < barrier) return 2 * attempt * exp(-barrier) * sinh(tilt);
  return -attempt * expm1(-barrier - tilt);
}

/**
 * Rate of change of the gap [m/s] as if it had no ends. Positive voltage on the vacancy-rich side
 * drives vacancies into the gap and thins it: the resistance falls.
 */
export function freeGapRate(g: SwitchGeometry, gap: number, point: OperatingPoint): number {
  const heating = g.thermal_resistance * point.current * point.switchVoltage;
  return -hopSpeed(g, point.gapVoltage / gap, g.temperature + heating);
}

/** The same, but zero where the gap stands at an end and would go beyond it. */
export function gapRate(g: SwitchGeometry, gap: number, point: OperatingPoint): number {
  const rate = freeGapRate(g, gap, point);
  const atEnd = rate < 0 ? gap <= g.least_gap : gap >= g.most_gap;
  return atEnd ? 0 : rate;
}
