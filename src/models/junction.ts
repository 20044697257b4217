/**
 * Junction elements as current and voltage, for two-terminal elements in series. Every law
 * increases strictly; in a series the current is the unknown, because each law's voltage at a
 * current is a closed form that cannot overflow.
 */
import { fail, refuse } from "../errors/problem.ts";
import { acosh, asinh, exp, expm1, log1p, sinh, sqrt } from "../numerics/special/elementary.ts";

/** A two-terminal element at positive current. */
export interface Law {
  /** Current [A] at a voltage [V]; may be infinite where it overflows. */
  current(voltage: number): number;
  /** Voltage [V] at a current [A]. */
  voltage(current: number): number;
  /** Slope of voltage against current [ohm]. */
  resistance(current: number): number;
  /** A current [A] that it does not exceed at a voltage, where that is easier than the current. */
  most?(voltage: number): number;
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

/** Newton steps after which a series gives up; a hard case takes some ten. */
const MOST_STEPS = 200;
/** Above it the square of a current overflows. */
const LARGEST = 1e150;

/**
 * Elements in series. Against the logarithm of the current the voltage of every law here is convex,
 * so that Newton steps from above never pass the solution: the current falls to it, to the last
 * digits, in a few steps also where exponentials span decades.
 *
 * @throws TenfoldError `not-converged`, which no law of this file can cause
 */
export function series(...parts: readonly Law[]): Law {
  const voltage = (i: number) => {
    let sum = 0;
    for (const part of parts) sum += part.voltage(i);
    return sum;
  };
  const resistance = (i: number) => {
    let sum = 0;
    for (const part of parts) sum += part.resistance(i);
    return sum;
  };
  // No element carries more than it would with the whole voltage across it.
  const most = (v: number) => {
    let found = LARGEST;
    for (const part of parts) found = Math.min(found, part.most?.(v) ?? part.current(v));
    return found;
  };
  return {
    voltage,
    resistance,
    most,
    current(v) {
      if (!(v > voltage(0))) return 0;
      let i = most(v);
      for (let step = 0; step < MOST_STEPS; step++) {
        const next = i * exp((v - voltage(i)) / (i * resistance(i)));
        if (!(next < i * (1 - 4e-16))) return i;
        i = next;
      }
      return fail({ code: "not-converged", what: "a junction's current was not found" });
    },
  };
}
