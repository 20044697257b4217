/**
 * Encoders and decoders of error-correcting codes: gates from the ones of the parity-check matrix.
 */
import { type Formulas, given, part } from "../define.ts";

/** Exclusive or of two inputs: effort 4, parasitic 4, each input and its complement loaded. */
const XOR_DELAY = "tau * 8";

const costs: Formulas = {
  area: given("transistors * transistor_area", "m^2", "area, at the density of the logic library"),
  leakage: given("transistors * transistor_leakage", "W", "leakage"),
};

/** Makes the check bits of a word. Reads `code_ones`, `code_check_bits`, `code_row_weight`. */
const codeInputs = {
  code_ones: { unit: "1", meaning: "ones in the data columns of the parity-check matrix" },
  code_check_bits: { unit: "1", meaning: "check bits of a word" },
  code_row_weight: { unit: "1", meaning: "data bits in the longest parity" },
};

export const encoder = part({
  name: "correction_encoder",
  title: "Error-correction encoder",
  about:
    "A tree of exclusive ors for each check bit. Gates that two trees could share are not shared.",
  inputs: codeInputs,
  formulas: {
    xors: given(
      "max(0, code_ones - code_check_bits)",
      "1",
      "exclusive ors: a row of w ones needs w - 1",
      "this project",
      "none where a check bit copies a single data bit",
    ),
    transistors: given("xors * xor_transistors", "1", "transistors of the encoder"),
    ...costs,
    read_energy: given("0", "J", "idle in a read"),
    write_energy: given(
      "code_activity * transistors / 2 * logic_pair_energy",
      "J",
      "energy of one word",
    ),
    write_delay: given("delay", "s", "delay of the encoder"),
    delay: given(
      `${XOR_DELAY} * ceil(log2(max(2, code_row_weight)))`,
      "s",
      "delay of the longest tree",
      "logical-effort",
    ),
  },
});

/** Decoder of the single-error-correcting codes. */
export const decoderOfSingle = part({
  name: "correction_decoder",
  title: "Error-correction decoder",
  about:
    "Syndrome trees, a gate for each data bit that recognises its column, an exclusive or that " +
    "flips it, and an or of the syndrome that flags an error.",
  inputs: codeInputs,
  formulas: {
    syndrome_xors: given(
      "code_ones",
      "1",
      "exclusive ors of the syndrome: a row of w data bits and its check bit needs w",
    ),
    syndrome_transistors: given(
      "syndrome_xors * xor_transistors",
      "1",
      "transistors of the syndrome trees",
    ),
    locator_transistors: given(
      "word * (2 * code_check_bits + 2)",
      "1",
      "transistors of a gate of r inputs and an inverter for each data bit",
    ),
    complement_transistors: given(
      "2 * code_check_bits",
      "1",
      "transistors of the inverters that complement the syndrome",
    ),
    flip_transistors: given(
      "word * xor_transistors",
      "1",
      "transistors of the exclusive ors that flip data bits",
    ),
    flag_transistors: given(
      "2 * code_check_bits + 2 + (code_check_bits - 1) * xor_transistors",
      "1",
      "transistors of the or and the parity of the syndrome",
    ),
    transistors: given(
      "syndrome_transistors + locator_transistors + complement_transistors + flip_transistors + " +
        "flag_transistors",
      "1",
      "transistors of the decoder",
    ),
    ...costs,
    read_energy: given(
      "code_activity * (syndrome_transistors + flip_transistors) / 2 * logic_pair_energy",
      "J",
      "energy of one word without an error: syndrome and output switch, the locators hardly",
    ),
    write_energy: given("0", "J", "idle in a write"),
    syndrome_delay: given(
      `${XOR_DELAY} * ceil(log2(code_row_weight + 1))`,
      "s",
      "delay of the longest syndrome tree",
      "logical-effort",
    ),
    locator_load: given(
      "word / 2",
      "1",
      "locators that each syndrome wire drives, of each polarity",
    ),
    locator_delay: given(
      "tau * (best_stage_effort + inverter_parasitic) * (1 + max(1, log(max(1, locator_load * " +
        "(code_check_bits + 2) / 3)) / log(best_stage_effort))) + tau * code_check_bits",
      "s",
      "delay of the syndrome's buffers and of a locator",
      "logical-effort",
    ),
    delay: given(
      `syndrome_delay + locator_delay + ${XOR_DELAY}`,
      "s",
      "delay of the decoder",
      "logical-effort",
    ),
  },
});

/** Decoder of a code that corrects several errors, all in parallel. An estimate, no count. */
export const decoderOfMultiple = part({
  name: "multiple_correction_decoder",
  title: "Decoder for several errors",
  about:
    "Syndromes, a solver of the key equation with t squared multipliers, and a search at every " +
    "data bit with t constant multipliers. Gate counts are estimates: a multiplier has m squared " +
    "ands and exclusive ors, a constant one a quarter of the exclusive ors.",
  inputs: {
    ...codeInputs,
    corrected_bits: { unit: "1", meaning: "errors of a word that are corrected" },
    field_bits: { unit: "1", meaning: "degree of the field" },
  },
  formulas: {
    syndrome_xors: given(
      "field_bits * corrected_bits * (word + code_check_bits) / 2",
      "1",
      "exclusive ors of the odd syndromes",
    ),
    solver_gates: given(
      "corrected_bits ^ 2 * field_bits ^ 2",
      "1",
      "ands, and as many exclusive ors, of the solver",
    ),
    search_xors: given(
      "word * corrected_bits * (field_bits ^ 2 / 4 + field_bits)",
      "1",
      "exclusive ors of the search at all data bits",
    ),
    transistors: given(
      "xor_transistors * (syndrome_xors + solver_gates + search_xors + word) + 6 * solver_gates",
      "1",
      "transistors of the decoder",
    ),
    ...costs,
    read_energy: given(
      "code_activity * xor_transistors * (syndrome_xors + word) / 2 * logic_pair_energy",
      "J",
      "energy of one word without an error",
    ),
    write_energy: given("0", "J", "idle in a write"),
    delay: given(
      `${XOR_DELAY} * (ceil(log2((word + code_check_bits) / 2)) + ` +
        "corrected_bits * 2 * (1 + ceil(log2(field_bits))) + ceil(log2(corrected_bits * " +
        "field_bits)) + 2)",
      "s",
      "delay of syndrome, solver, search and flip",
      "logical-effort",
    ),
  },
});
