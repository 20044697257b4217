/** Bit errors of a cell of two switches that are compared with each other. */
import { type Procedure, procedure } from "../../formulas/sheet.ts";
import { exp, log } from "../../numerics/special/elementary.ts";
import { normalDensity, normalTail } from "../../numerics/special/normal.ts";
import { tailAt } from "./current-tails.ts";

/** The integrand is hardly narrower than its weights, which this step resolves: to 1e-5, see the test. */
const STEP = 0.375;
const NODES = Float64Array.from({ length: 103 }, (_, i) => i * STEP);
const WEIGHTS = NODES.map((g) => STEP * normalDensity(g));
/** What the nodes beyond each one may still add, both sides together, of what is at most one. */
const BEYOND = NODES.map((g) => 2 * normalTail(g));
/** A remainder below this share of a sum is left out. */
const NOTHING = 1e-12;

/** Median currents [A], deviations of their logarithms, and that of offset and noise [A]. */
export interface SwitchPair {
  readonly on: number;
  readonly off: number;
  readonly onSpread: number;
  readonly offSpread: number;
  readonly noise: number;
}

/**
 * Probability that the off switch, with offset and noise, carries more than the on switch.
 *
 * Of the three that err, the widest where the two currents meet is taken as a tail in closed form
 * and the mean goes over the other two, so that the integrand is no narrower than the weights and
 * the trapezoidal rule of fixed step holds. Without noise it is the tail of
 * ln(on/off) / hypot(onSpread, offSpread).
 */
export function pairError(pair: SwitchPair): number {
  const tail = tailOf(pair);
  let sum = 0;
  for (let i = 0; i < NODES.length; i++) {
    const a = NODES[i]!;
    const weight = WEIGHTS[i]!;
    const row = i === 0 ? inner(tail, 0, sum / weight) : both(tail, a, sum / weight);
    sum += weight * row;
    if (i > 0 && BEYOND[i]! <= NOTHING * sum) break;
  }
  return sum;
}

type Tail = (a: number, b: number) => number;

function both(tail: Tail, a: number, known: number): number {
  return inner(tail, a, known) + inner(tail, -a, known);
}

/** @param known what is there already, beside which little may be left out */
function inner(tail: Tail, a: number, known: number): number {
  let sum = WEIGHTS[0]! * tail(a, 0);
  for (let j = 1; j < NODES.length; j++) {
    const b = NODES[j]!;
    sum += WEIGHTS[j]! * (tail(a, b) + tail(a, -b));
    if (BEYOND[j]! <= NOTHING * Math.max(sum, known)) break;
  }
  return sum;
}

/** The error for given deviations of the two narrower of on, off and noise. */
function tailOf({ on, off, onSpread, offSpread, noise }: SwitchPair): Tail {
  const apart = Math.max(log(on / off), 0);
  const spread = onSpread + offSpread;
  const meet = spread > 0 ? off * exp((offSpread * apart) / spread) : Math.sqrt(on * off);
  const widest = Math.max(onSpread * meet, offSpread * meet, noise);
  if (noise === widest) {
    return (a, b) => tailAt((on * exp(onSpread * a) - off * exp(offSpread * b)) / noise);
  }
  if (offSpread >= onSpread) {
    return (a, b) => {
      const left = on * exp(onSpread * a) - noise * b;
      return left <= 0 ? 1 : tailAt(log(left / off) / offSpread);
    };
  }
  return (a, b) => {
    const left = off * exp(offSpread * a) + noise * b;
    return left <= 0 ? 0 : tailAt(log(on / left) / onSpread);
  };
}

export const pairReadErrors: Procedure = procedure({
  name: "pair_read_errors",
  title: "Bit errors of a pair of switches",
  about:
    "One switch of the pair is on, the other off, and their currents are compared: no reference, " +
    "but both spreads act at once. Lognormal currents, normal offset and noise. Means by the " +
    "trapezoidal rule to 1e-5.",
  source: "detection",
  inputs: {
    cell_on_current: { unit: "A", meaning: "current of a median switch that is on" },
    cell_off_current: { unit: "A", meaning: "current of a median switch that is off" },
    on_spread: { unit: "1", meaning: "standard deviation of ln R, on" },
    off_spread: { unit: "1", meaning: "standard deviation of ln R, off" },
    sense_current_sigma: { unit: "A", meaning: "standard deviation of offset and noise" },
  },
  outputs: {
    read_error: { unit: "1", meaning: "probability that a bit is read wrong" },
  },
  run(inputs, outputs) {
    const [on, off, onSpread, offSpread, noise] = inputs as unknown as [
      number,
      number,
      number,
      number,
      number,
    ];
    outputs[0] = pairError({ on, off, onSpread, offSpread, noise });
  },
});
