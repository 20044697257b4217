/** The model error that published silicon shows, as its file holds it. */

import { refuse } from "../errors/problem.ts";
import { readPlain } from "./read.ts";

/** The ratios predicted over published of one quantity, over all kinds of memory or of one. */
export interface ErrorSample {
  readonly chips: number;
  /** Of the chips, those whose figure was recalled and not read: each weighs half. */
  readonly recalled: number;
  /** Weighted median ratio. */
  readonly median: number;
  /** (Σw)²/Σw² of the weights: the chips that equal weights would take. */
  readonly effective: number;
  /** Weighted standard deviation of ln ratio about the median; absent for fewer than three chips. */
  readonly spread?: number;
}

/** Samples of one quantity. */
export interface QuantityError {
  readonly all: ErrorSample;
  readonly kinds: Readonly<Record<string, ErrorSample>>;
  /** Spread within the kinds alone, pooled, where some kind has several chips. */
  readonly within?: { readonly spread: number; readonly freedom: number };
}

/** By quantity of an estimate. */
export type ModelErrors = Readonly<Record<string, QuantityError>>;

const FORMAT = "tenfold.error/1";

/**
 * Reads the file that the evidence writes.
 * @throws TenfoldError `unknown-format`, and why it is no YAML
 */
export function readModelErrors(text: string, file: string): ModelErrors {
  const { format, quantities } = readPlain(text, file);
  if (format !== FORMAT) {
    refuse({
      code: "unknown-format",
      what: `${file} does not hold the model error`,
      got: String(format),
      expected: FORMAT,
    });
  }
  return quantities as ModelErrors;
}
