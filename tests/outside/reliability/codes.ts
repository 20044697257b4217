import { checkBits } from "../../../src/models/reliability/codes.ts";
import {
  allowedErrorRate,
  allowedScrubInterval,
  blockCheckBits,
  scrubbing,
  singleErrorCheckBits,
  wordErrors,
} from "../../../src/models/reliability/index.ts";
import { type Case, firstWord, HOUR, run, type Solver } from "./run.ts";

/** A word of n coded bits; how they divide into data and check bits does not matter here. */
function coded(n: number, t: number, p: number): Record<string, number> {
  const split = { word: n - 7, check_bits: 7, capacity: 2 * (n - 7) };
  return run(wordErrors, { ...split, corrected_errors: t, bit_error_rate: p });
}

const uncorrectable =
  (n: number, t: number): Solver =>
  ({ at }) =>
    coded(n, t, at["p"]!)["word_failure"]!;

function macroFailure({ at }: Case): number {
  const words = at["words"] ?? at["uncoded_bits"]! / 64;
  const given = { word: 64, check_bits: 8, capacity: 64 * words, corrected_errors: 1 };
  const values = run(wordErrors, { ...given, bit_error_rate: 1e-7 });
  return values[at["words"] === undefined ? "uncoded_macro_failure" : "macro_failure"]!;
}

function scrub({ name }: Case): number {
  const common = { word: 64, check_bits: 8, corrected_errors: 1, words: 2 ** 20 };
  const rate = 1e-9 / HOUR;
  const values = run(scrubbing, { ...common, bit_flip_rate: rate, scrub_interval: 86400 });
  const fit = { ...common, bit_flip_rate: rate, failure_rate_target: 1e-9 / HOUR };
  const answers: Record<string, number> = {
    p: values["flipped_share"]!,
    word_failure_per_interval: values["interval_word_failure"]!,
    macro_failure_rate: values["macro_failure_rate"]! * 1e9 * HOUR,
    interval_for_1_FIT: run(allowedScrubInterval, fit)["allowed_scrub_interval"]!,
  };
  return answers[name]!;
}

export const CODES: Record<string, Solver> = {
  "ecc-bits-sec": ({ at }) => singleErrorCheckBits(at["k"]!),
  "ecc-bits-secded": ({ at }) => checkBits(at["k"]!, 1, true),
  "ecc-bits-bch": ({ name, at }) => {
    const code = blockCheckBits(at["k"]!, at["t"]!);
    return name.startsWith("m(") ? code.degree : code.bits;
  },
  "ecc-72-64-uncorrectable": uncorrectable(72, 1),
  "ecc-39-32-uncorrectable": uncorrectable(39, 1),
  "ecc-72-64-detected-silent": ({ name, at }) => {
    const values = coded(72, 1, at["p"]!);
    const detected = firstWord(name) === "detected";
    return values[detected ? "detected_word_failure" : "silent_word_failure"]!;
  },
  "ecc-bch-78-64-t2": uncorrectable(78, 2),
  "ecc-bch-85-64-t3": uncorrectable(85, 3),
  "ecc-bch-4200-4096-t8": uncorrectable(4200, 8),
  "ecc-macro-failure": macroFailure,
  "ecc-required-p": ({ at }) => {
    const given = { word: at["n"]! - 7, check_bits: 7, corrected_errors: at["t"]! };
    const found = run(allowedErrorRate, { ...given, word_failure_target: 1e-15 });
    return found["allowed_bit_error_rate"]!;
  },
  "ecc-scrub": scrub,
};
