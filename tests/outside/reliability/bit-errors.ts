import {
  currentAbove,
  currentBelow,
  driftErrors,
  levelErrors,
  optimumThreshold,
  senseErrors,
  sharedReference,
  thresholdErrors,
} from "../../../src/models/reliability/index.ts";
import { logNormalTail, normalTail, normalTailQuantile } from "../../../src/numerics/index.ts";
import { type Case, firstWord, run, type Solver } from "./run.ts";

const POPULATIONS = { on_resistance: 1e4, off_resistance: 1e5, on_spread: 0.1, off_spread: 0.25 };

function tail({ name }: Case): number {
  const z = Number(/\((\d+)\)/.exec(name)![1]);
  return name.startsWith("log10") ? logNormalTail(z) / Math.LN10 : normalTail(z);
}

function twoPopulations({ name, at }: Case): number {
  const values = run(thresholdErrors, { ...POPULATIONS, threshold_resistance: at["T"]! });
  const first = firstWord(name);
  return values[first === "ber" ? "read_error" : first]!;
}

const optimum =
  (given: typeof POPULATIONS): Solver =>
  ({ name }) => {
    const names: Record<string, string> = {
      optimum_threshold: "optimum_threshold_resistance",
      optimum_ber: "least_read_error",
      equal_error_threshold: "equal_error_resistance",
      equal_error_z: "equal_error_sigmas",
      equal_error_ber: "equal_read_error",
    };
    return run(optimumThreshold, given)[names[name]!]!;
  };

function offsetNoise({ name, at }: Case): number {
  const values = run(senseErrors, {
    sense_margin: at["d"]!,
    offset_deviation: at["offset"]!,
    noise_deviation: at["noise"]!,
    cell_deviation: at["cell"]!,
  });
  return values[firstWord(name) === "sigma" ? "sense_deviation" : "sense_error"]!;
}

function current({ name, at }: Case): number {
  const probability = name.endsWith("low") ? currentBelow : currentAbove;
  return probability(at["V"]!, at["R"]!, at["s"]!, at["noise"]!, at["Ith"]!);
}

function reference({ name }: Case): number {
  const values = run(sharedReference, {
    sense_margin: 0.045,
    offset_deviation: 0.004,
    reference_deviation: 0.005,
    word: 64,
  });
  const names: Record<string, string> = {
    bit_error: "shared_bit_error",
    word_shared: "shared_word_error",
    word_independent: "independent_word_error",
  };
  return values[names[name]!]!;
}

function levels({ name, at }: Case): number {
  const spacing = Number.parseFloat(String(at["spacing"]));
  const values = run(levelErrors, { levels: at["L"]!, level_spacing: spacing });
  return values[firstWord(name) === "symbol_error" ? "symbol_error" : "level_bit_error"]!;
}

function drift({ at }: Case): number {
  const values = run(driftErrors, {
    off_resistance: 1e5,
    off_spread: 0.2,
    drift_exponent: 0.02,
    drift_exponent_deviation: 0.005,
    drift_start: 1,
    storage_time: at["t"]!,
    threshold_resistance: 31622.776601683796,
  });
  return values["off_lost"]!;
}

export const BIT_ERRORS: Record<string, Solver> = {
  "ber-normal-tail": tail,
  "ber-normal-tail-inverse": ({ at, name }) => {
    return normalTailQuantile(at["p"] ?? Number(name.split("p=")[1]));
  },
  "ber-two-lognormal": twoPopulations,
  "ber-optimum-threshold": optimum(POPULATIONS),
  "ber-optimum-equal-sigma": optimum({
    on_resistance: 1e4,
    off_resistance: 6e4,
    on_spread: 0.2,
    off_spread: 0.2,
  }),
  "ber-offset-noise": offsetNoise,
  "ber-lognormal-plus-offset": current,
  "ber-shared-reference": reference,
  "ber-levels": levels,
  "ber-drift": drift,
};
