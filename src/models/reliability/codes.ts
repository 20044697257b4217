/** Error-correcting codes: check bits, and what is left uncorrected. */
import { refuse } from "../../errors/problem.ts";
import { solve } from "../../numerics/roots.ts";
import { binomialTail, logBinomialTail } from "../../numerics/special/discrete.ts";
import { exp, expm1, log, pow } from "../../numerics/special/elementary.ts";
import { formula, reliabilityProcedure, reliabilitySheet } from "./define.ts";

/** Check bits of a code that corrects one error in k data bits: the least r with 2^r >= k + r + 1. */
export function singleErrorCheckBits(k: number): number {
  requireBits(k);
  let r = 2;
  while (pow(2, r) < k + r + 1) r++;
  return r;
}

/**
 * Check bits of a shortened binary BCH code that corrects t errors in k data bits: m t, where the
 * field degree m comes from the whole length k + m t. An upper bound on the bits.
 */
export function blockCheckBits(k: number, t: number): { degree: number; bits: number } {
  requireBits(k);
  if (!(Number.isInteger(t) && t >= 1)) {
    refuse({ code: "not-whole", what: "a code corrects a whole number of errors", got: String(t) });
  }
  let degree = 2;
  while (pow(2, degree) - 1 < k + degree * t) degree++;
  return { degree, bits: degree * t };
}

function requireBits(k: number): void {
  if (Number.isInteger(k) && k >= 1) return;
  refuse({ code: "not-whole", what: "a word has a whole number of data bits", got: String(k) });
}

/** Check bits for t corrected errors, with one more bit where t + 1 errors must be detected. */
export function checkBits(k: number, t: number, detectOneMore: boolean): number {
  if (t === 0) return detectOneMore ? 1 : 0;
  const correcting = t === 1 ? singleErrorCheckBits(k) : blockCheckBits(k, t).bits;
  return correcting + (detectOneMore ? 1 : 0);
}

/** The bit error rate at which more than t of n bits are wrong with the target probability. */
export function allowedBitErrorRate(n: number, t: number, target: number): number {
  if (!(target > 0 && target < 1)) {
    const what = "a target probability must lie between 0 and 1";
    refuse({ code: "bad-probability", what, got: String(target) });
  }
  const goal = log(target);
  const excess = (logP: number): number => logBinomialTail(n, t + 1, exp(logP)) - goal;
  return exp(solve(excess, -700, -1e-12));
}

/** The scrub interval [s] at which the macro fails at the target rate [1/s]. */
export function scrubIntervalFor(
  rate: number,
  n: number,
  t: number,
  words: number,
  target: number,
): number {
  const failureRate = (logInterval: number): number => {
    const interval = exp(logInterval);
    const flipped = -expm1(-rate * interval);
    return log((words * binomialTail(n, t + 1, flipped)) / interval) - log(target);
  };
  const high = log(1 / rate);
  if (failureRate(high) < 0) return exp(high);
  return exp(solve(failureRate, high - 60 * log(10), high));
}

const DETECTS = { note: "one more check bit detects one error more than is corrected" };

export const wordErrors = reliabilitySheet(
  "word_errors",
  "Errors of a coded word and of the macro",
  "Independent bit errors in a word of data and check bits. The tails are summed from their own " +
    "largest term, so that they are right at any size.",
  {
    code_length: formula("1", "word + check_bits", "bits of a coded word", "ecc-book", {
      symbol: "n",
    }),
    word_failure: formula(
      "1",
      "binomial_tail(code_length, corrected_errors + 1, bit_error_rate)",
      "probability that a word has more errors than are corrected",
      "ecc-book",
      { symbol: "P_w" },
    ),
    silent_word_failure: formula(
      "1",
      "binomial_tail(code_length, corrected_errors + 2, bit_error_rate)",
      "probability of errors that may pass unseen: an upper bound",
      "ecc-book",
      DETECTS,
    ),
    detected_word_failure: formula(
      "1",
      "word_failure - silent_word_failure",
      "probability of just one error more than is corrected",
      "ecc-book",
      DETECTS,
    ),
    macro_words: formula("1", "capacity / word", "words of the macro", "this project"),
    macro_failure: formula(
      "1",
      "-expm1(macro_words * log1p(-word_failure))",
      "probability that any word of the macro fails",
      "ecc-book",
    ),
    uncoded_macro_failure: formula(
      "1",
      "-expm1(capacity * log1p(-bit_error_rate))",
      "probability that any bit is wrong, without a code",
      "ecc-book",
    ),
  },
);

export const scrubbing = reliabilitySheet(
  "scrubbing",
  "Correction at intervals",
  "Bits flip at a constant rate; every word is read, corrected and written back once per " +
    "interval. The word's failure rises with the square of the interval, the rate with the interval.",
  {
    flipped_share: formula(
      "1",
      "-expm1(-bit_flip_rate * scrub_interval)",
      "share of bits that flip in an interval",
      "ecc-book",
    ),
    interval_word_failure: formula(
      "1",
      "binomial_tail(word + check_bits, corrected_errors + 1, flipped_share)",
      "probability that a word is lost in an interval",
      "ecc-book",
    ),
    macro_failure_rate: formula(
      "1/s",
      "words * interval_word_failure / scrub_interval",
      "rate at which words of the macro are lost",
      "ecc-book",
    ),
  },
);

export const allowedErrorRate = reliabilityProcedure(
  "allowed_bit_error_rate",
  {
    title: "Bit error rate that a code allows",
    about: "Root in the logarithm of the rate, to the last digits of the binomial tail.",
    source: "ecc-book",
  },
  ["word", "check_bits", "corrected_errors", "word_failure_target"],
  {
    allowed_bit_error_rate: { unit: "1", meaning: "largest bit error rate that meets the target" },
  },
  (word, bits, t, target) => [allowedBitErrorRate(word! + bits!, t!, target!)],
);

export const allowedScrubInterval = reliabilityProcedure(
  "allowed_scrub_interval",
  {
    title: "Longest scrub interval",
    about: "Root in the logarithm of the interval; never more than the mean time of a bit's flip.",
    source: "ecc-book",
  },
  ["bit_flip_rate", "word", "check_bits", "corrected_errors", "words", "failure_rate_target"],
  { allowed_scrub_interval: { unit: "s", meaning: "longest interval that meets the target" } },
  (rate, word, bits, t, words, target) => [
    scrubIntervalFor(rate!, word! + bits!, t!, words!, target!),
  ],
);
