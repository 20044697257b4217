/**
 * Error-correcting codes: check bits, and the ones of the parity-check matrix, from which gates
 * are counted.
 */
import { type Formulas, given, part } from "../define.ts";

export type Correction = "none" | "single" | "single-double" | "multiple";

const choose2 = "(code_check_bits * (code_check_bits - 1) / 2)";
const choose3 = "(code_check_bits * (code_check_bits - 1) * (code_check_bits - 2) / 6)";
const choose4 = `(${choose3} * (code_check_bits - 3) / 4)`;
const choose5 = `(${choose4} * (code_check_bits - 4) / 5)`;

const rowWeight = given(
  "ceil(code_ones / code_check_bits)",
  "1",
  "data bits in the longest parity of a matrix with balanced rows",
);

const singleBits: Formulas = {
  least_bits: given("ceil(log2(word + 1))", "1", "a bound below the number of check bits"),
  single_bits: given(
    "2 ^ least_bits >= word + least_bits + 1 ? least_bits : least_bits + 1",
    "1",
    "smallest r with 2^r >= k + r + 1",
    "ecc-book",
  ),
};

/** Corrects one bit of a word: the columns of the matrix are all different and not zero. */
export const singleCode = part({
  name: "single_code",
  title: "Single-error-correcting code",
  about:
    "Columns of data bits have the smallest weights that are free, two and up, so that the gates " +
    "are fewest. Exact up " +
    "to words that use columns of weight five.",
  formulas: {
    ...singleBits,
    code_check_bits: given("single_bits", "1", "check bits of a word", "ecc-book"),
    columns_2: given(`min(word, ${choose2})`, "1", "data columns of weight two"),
    columns_3: given(`min(word - columns_2, ${choose3})`, "1", "data columns of weight three"),
    columns_4: given(
      `min(word - columns_2 - columns_3, ${choose4})`,
      "1",
      "data columns of weight four",
    ),
    columns_5: given(
      "word - columns_2 - columns_3 - columns_4",
      "1",
      "data columns of weight five",
    ),
    code_ones: given(
      "2 * columns_2 + 3 * columns_3 + 4 * columns_4 + 5 * columns_5",
      "1",
      "ones in the data columns of the parity-check matrix",
    ),
    code_row_weight: rowWeight,
  },
});

/** Corrects one bit and detects two: all columns of the matrix have odd weight. */
export const singleDoubleCode = part({
  name: "single_double_code",
  title: "Single-error-correcting, double-error-detecting code",
  about:
    "Data columns of odd weight, three and up, so that two errors never look like one. Exact up " +
    "to words that use " +
    "columns of weight seven.",
  formulas: {
    ...singleBits,
    code_check_bits: given("single_bits + 1", "1", "check bits of a word", "ecc-book"),
    columns_3: given(`min(word, ${choose3})`, "1", "data columns of weight three", "ecc-book"),
    columns_5: given(
      `min(word - columns_3, ${choose5})`,
      "1",
      "data columns of weight five",
      "ecc-book",
    ),
    columns_7: given(
      "word - columns_3 - columns_5",
      "1",
      "data columns of weight seven",
      "ecc-book",
    ),
    code_ones: given(
      "3 * columns_3 + 5 * columns_5 + 7 * columns_7",
      "1",
      "ones in the data columns of the parity-check matrix",
      "ecc-book",
    ),
    code_row_weight: rowWeight,
  },
});

/** Corrects several bits of a word: a binary cyclic code over a field of 2^m elements. */
export const multipleCode = part({
  name: "multiple_code",
  title: "Code that corrects several errors",
  about:
    "A shortened binary cyclic code: at most m check bits for each corrected bit. Half of the " +
    "matrix is ones, which is " +
    "an estimate and not a count.",
  inputs: { corrected_bits: { unit: "1", meaning: "errors of a word that are corrected" } },
  formulas: {
    least_bits: given("ceil(log2(word + 1))", "1", "a bound below the degree of the field"),
    field_bits: given(
      "2 ^ least_bits >= word + least_bits * corrected_bits + 1 ? least_bits : least_bits + 1",
      "1",
      "smallest m with 2^m >= k + m t + 1, for words longer than m t",
      "ecc-book",
    ),
    code_check_bits: given(
      "field_bits * corrected_bits",
      "1",
      "check bits of a word, an upper bound",
      "ecc-book",
    ),
    code_ones: given("word * code_check_bits / 2", "1", "ones in the data columns, an estimate"),
    code_row_weight: rowWeight,
  },
});
