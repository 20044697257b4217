/**
 * Junction elements as current and voltage, for two-terminal elements in series. Every law
 * increases strictly; in a series the current is the unknown, because each law's voltage at a
 * current is a closed form that cannot overflow.
 */
import { refuse } from "../../errors/problem.ts";
import { solve } from "../../numerics/roots.ts";
import { acosh, asinh, expm1, log1p, sinh, sqrt } from "../../numerics/special/elementary.ts";

/** A two-terminal element at positive current. */
export interface Law {
  /** Current [A] at a voltage [V]; may be infinite where it overflows. */
  current(voltage: number): number;
  /** Voltage [V] at a current [A]. */
  voltage(current: number): number;
  /** Slope of voltage against current [ohm]. */
  resistance(current: number): number;
}

/** V = R I. */
export function ohmic(resistance: number): Law {
  return {
    current: (v) => v / resistance,
    voltage: (i) => i * resistance,
    resistance: () => resistance,
  };
}

/** I = I0 sinh(V / S). */
export function sinhLaw(prefactor: number, scale: number): Law {
  return {
    current: (v) => prefactor * sinh(v / scale),
    voltage: (i) => scale * asinh(i / prefactor),
    resistance: (i) => scale / sqrt(i * i + prefactor * prefactor),
  };
}

/** The sinh law through a current at a voltage, with scale S. */
export function sinhThrough(voltage: number, current: number, scale: number): Law {
  const x = voltage / scale;
  if (!(x < 700)) {
    refuse({
      code: "out-of-range",
      what: "the voltage scale of a junction is too small for its voltage",
      got: `${scale} V at ${voltage} V`,
      expected: "a scale above a seven hundredth of the voltage",
    });
  }
  return sinhLaw(current / sinh(x), scale);
}

/** S of a sinh law whose current at V is `nonlinearity` times (above 2) that at V/2. */
export function scaleOf(voltage: number, nonlinearity: number): number {
  return voltage / (2 * acosh(nonlinearity / 2));
}

/** I = Is (exp(V / S) - 1). */
export function diodeLaw(saturation: number, emission: number): Law {
  return {
    current: (v) => saturation * expm1(v / emission),
    voltage: (i) => emission * log1p(i / saturation),
    resistance: (i) => emission / (i + saturation),
  };
}

/** A constant voltage and a resistance: a threshold selector that is on, above its hold voltage. */
export function held(hold: number, resistance: number): Law {
  return {
    current: (v) => Math.max(0, (v - hold) / resistance),
    voltage: (i) => hold + i * resistance,
    resistance: () => resistance,
  };
}

/** Elements in series. The current is found inside a bracket, to the last digits. */
export function series(...parts: readonly Law[]): Law {
  const voltage = (i: number) => parts.reduce((sum, part) => sum + part.voltage(i), 0);
  return {
    voltage,
    resistance: (i) => parts.reduce((sum, part) => sum + part.resistance(i), 0),
    current(v) {
      if (!(v > voltage(0))) return 0;
      // No element can carry more than it would with the whole voltage across it.
      const high = Math.min(...parts.map((part) => part.current(v)));
      if (!(high > 0) || voltage(high) <= v) return high;
      return solve((i) => voltage(i) - v, 0, high);
    },
  };
}
