/**
 * Error-correcting codes: check bits, and the ones of the parity-check matrix, from which gates
 * are counted.
 */
import { type Formulas, given, part } from "../define.ts";

export type Correction = "none" | "single" | "single-double" | "multiple";

/** Heaviest columns that are counted: enough for any word below 2^9 bits, and some longer ones. */
const HEAVIEST = 9;

/** How many columns of each allowed weight the data bits take, lightest first; all their ones. */
function columnsOf(allowed: (weight: number) => boolean): Formulas {
  const formulas: Formulas = {};
  const taken: number[] = [];
  for (let weight = 1; weight <= HEAVIEST; weight++) {
    formulas[`choices_${weight}`] = given(
      weight === 1
        ? "code_check_bits"
        : `choices_${weight - 1} * (code_check_bits - ${weight - 1}) / ${weight}`,
      "1",
      `columns that have weight ${weight}`,
      "ecc-book",
    );
    if (!allowed(weight)) continue;
    const left = ["word", ...taken.map((lighter) => `columns_${lighter}`)].join(" - ");
    const last = weight + 2 > HEAVIEST && !(weight + 1 <= HEAVIEST && allowed(weight + 1));
    formulas[`columns_${weight}`] = given(
      last ? left : `min(${left}, choices_${weight})`,
      "1",
      `data columns of weight ${weight}`,
      "ecc-book",
    );
    taken.push(weight);
  }
  formulas["code_ones"] = given(
    taken.map((weight) => `${weight} * columns_${weight}`).join(" + "),
    "1",
    "ones in the data columns of the parity-check matrix",
    "ecc-book",
  );
  return formulas;
}

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
    "are fewest. Exact up to words that use columns of weight five.",
  formulas: {
    ...singleBits,
    code_check_bits: given("single_bits", "1", "check bits of a word", "ecc-book"),
    ...columnsOf((weight) => weight > 1),
    code_row_weight: rowWeight,
  },
});

/** Corrects one bit and detects two: all columns of the matrix have odd weight. */
export const singleDoubleCode = part({
  name: "single_double_code",
  title: "Single-error-correcting, double-error-detecting code",
  about:
    "Data columns of odd weight, three and up, so that two errors never look like one. Exact " +
    "while no column is heavier than nine.",
  formulas: {
    ...singleBits,
    code_check_bits: given("single_bits + 1", "1", "check bits of a word", "ecc-book"),
    ...columnsOf((weight) => weight > 1 && weight % 2 === 1),
    code_row_weight: rowWeight,
  },
});

/** Corrects several bits of a word: a binary cyclic code over a field of 2^m elements. */
export const multipleCode = part({
  name: "multiple_code",
  title: "Code that corrects several errors",
  about:
    "A shortened binary cyclic code: at most m check bits for each corrected bit. Half of the " +
    "matrix is ones, which is an estimate and not a count.",
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
