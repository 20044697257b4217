/** Bit errors of a cell in its array: spread of the switch, leak of the others, offset and noise. */
import { type Procedure, procedure } from "../../formulas/sheet.ts";
import { solve } from "../../numerics/roots.ts";
import { exp, log } from "../../numerics/special/elementary.ts";
import { currentBeyond } from "./current-tails.ts";

/** What a sense amplifier compares, worst pattern. Currents in A, spreads of ln R. */
export interface ReadPopulations {
  readonly on: number;
  /** Of an off cell with what the other cells of its column may add. */
  readonly off: number;
  readonly leak: number;
  readonly onSpread: number;
  readonly offSpread: number;
  readonly noise: number;
}

export interface ReadErrors {
  readonly reference: number;
  readonly onAsOff: number;
  readonly offAsOn: number;
}

/** The reference is sought to this share. */
const PLACE = 1e-10;
/** Stands for an error that no number holds, so that its logarithm stays finite. */
const LEAST = 1e-300;

/**
 * Errors at the reference at which both are equal. The error rate there is less than twice that of
 * the best reference: one of the two errors is larger at any other.
 */
export function readErrors(p: ReadPopulations): ReadErrors {
  const below = (t: number) => currentBeyond("below", p.on, p.onSpread, p.noise, t);
  const above = (t: number) => currentBeyond("above", p.off, p.offSpread, p.noise, t - p.leak);
  const balance = (t: number) => log(below(t) + LEAST) - log(above(t) + LEAST);
  const [least, most] = [p.off + p.leak, p.on];
  const at = most > least ? equalAt(balance, least, most) : (least + most) / 2;
  return { reference: at, onAsOff: below(at), offAsOn: above(at) };
}

/** Between the medians one error falls and the other rises, but one may be the larger throughout. */
export function equalAt(balance: (t: number) => number, least: number, most: number): number {
  if (balance(least) >= 0) return least;
  if (balance(most) <= 0) return most;
  // The logarithm of the reference, since the currents may be decades apart.
  return exp(solve((x) => balance(exp(x)), log(least), log(most), { relative: PLACE }));
}

/** `bit_error_rate` of cells whose states are told apart by a current against a reference. */
export const arrayReadErrors: Procedure = procedure({
  name: "array_read_errors",
  title: "Bit errors of a read in the array",
  about:
    "Lognormal currents of median on and off cells, the leak of the other cells in the worst " +
    "pattern, normal offset and noise. The reference stands where both errors are equal, which is " +
    "less than twice the least error rate. Means over spread or noise by the trapezoidal rule to " +
    "1e-9; tails are never one minus something near one.",
  source: "detection",
  inputs: {
    signal_current: { unit: "A", meaning: "difference between the states of median cells" },
    cell_on_current: { unit: "A", meaning: "current of a median cell that is on" },
    cell_off_current: { unit: "A", meaning: "current of a median cell that is off" },
    on_spread: { unit: "1", meaning: "standard deviation of ln R, on" },
    off_spread: { unit: "1", meaning: "standard deviation of ln R, off" },
    sense_current_sigma: { unit: "A", meaning: "standard deviation of offset and noise" },
  },
  outputs: {
    bit_error_rate: { unit: "1", meaning: "probability that a bit is read wrong, uncorrected" },
    on_read_as_off: { unit: "1", meaning: "probability that an on state is read as off" },
    off_read_as_on: { unit: "1", meaning: "probability that an off state is read as on" },
    balanced_reference: { unit: "A", meaning: "reference current at which both are equal" },
  },
  run(inputs, outputs) {
    const [signal, on, off, onSpread, offSpread, noise] = inputs as unknown as number[];
    const leak = Math.max(0, on! - off! - signal!);
    const found = readErrors({
      on: on!,
      off: off!,
      leak,
      onSpread: onSpread!,
      offSpread: offSpread!,
      noise: noise!,
    });
    outputs.set([
      (found.onAsOff + found.offAsOn) / 2,
      found.onAsOff,
      found.offAsOn,
      found.reference,
    ]);
  },
});
