import { describe, expect, test } from "vitest";
import type { Sheet } from "../../src/formulas/index.ts";
import { effort } from "../../src/models/periphery/effort.ts";
import { singleCode, singleDoubleCode } from "../../src/models/periphery/macro/code.ts";
import { decoderOfSingle, encoder } from "../../src/models/periphery/macro/correction.ts";
import { evaluate } from "../models/periphery/fixture.ts";

const weight = (column: number) => column.toString(2).replaceAll("0", "").length;

/** Data columns of a parity-check matrix with r rows: the lightest that are allowed and free. */
function dataColumns(r: number, data: number, odd: boolean): number[] {
  const all = Array.from({ length: 2 ** r }, (_, column) => column);
  return all
    .filter((column) => weight(column) > 1 && (!odd || weight(column) % 2 === 1))
    .sort((a, b) => weight(a) - weight(b) || a - b)
    .slice(0, data);
}

/** The fewest check bits for which there are enough columns. */
function fewestRows(data: number, odd: boolean): number {
  let r = 1;
  while (dataColumns(r, data, odd).length < data) r++;
  return r;
}

function run(code: Sheet, word: number) {
  return evaluate(
    [
      { of: effort },
      { of: code },
      { of: encoder, prefix: "encoder_" },
      { of: decoderOfSingle, prefix: "decoder_" },
    ],
    { word, xor_transistors: 10 },
  );
}

// Source: a linear code by its parity-check matrix, textbook Error Control Coding (2004).
describe("error correction counted from the matrix", () => {
  const words = [4, 8, 11, 12, 16, 26, 27, 32, 57, 58, 64, 120, 128, 247, 256, 502];
  for (const word of words) {
    for (const odd of [false, true]) {
      const kind = odd ? "one corrected, two detected" : "one corrected";
      test(`${word} bits, ${kind}: check bits and gates are those of the matrix`, () => {
        const values = run(odd ? singleDoubleCode : singleCode, word);
        const r = fewestRows(word, odd);
        const columns = dataColumns(r, word, odd);
        expect(values["code_check_bits"]).toBe(r);
        const ones = columns.reduce((sum, column) => sum + weight(column), 0);
        // Each check bit: a tree over its data bits; each syndrome bit: one input more.
        const rows = Array.from(
          { length: r },
          (_, i) => columns.filter((c) => (c >> i) & 1).length,
        );
        const encoderGates = rows.reduce((sum, inputs) => sum + inputs - 1, 0);
        const syndromeGates = rows.reduce((sum, inputs) => sum + inputs, 0);
        expect(values["code_ones"]).toBe(ones);
        expect(values["encoder_xors"]).toBe(encoderGates);
        expect(values["decoder_syndrome_xors"]).toBe(syndromeGates);
        expect(values["encoder_transistors"]).toBe(10 * encoderGates);
      });

      test(`${word} bits, ${kind}: the matrix that was counted corrects what it says`, () => {
        const r = fewestRows(word, odd);
        const columns = [
          ...dataColumns(r, word, odd),
          ...Array.from({ length: r }, (_, i) => 2 ** i),
        ];
        const single = new Set(columns);
        expect(single.size).toBe(columns.length);
        expect(single.has(0)).toBe(false);
        if (!odd) return;
        for (const [i, a] of columns.entries()) {
          for (const b of columns.slice(i + 1)) {
            if (single.has(a ^ b) || a === b) expect.fail(`${a} and ${b} look like one error`);
          }
        }
      });
    }
  }

  // Source: the standard table of single-error-correcting codes; 216 ones of the (72, 64) matrix
  // with odd columns and 103 of the (39, 32) one, identity included: from memory of the paper of
  // 1970.
  test("check bits and ones of well-known codes", () => {
    const bits = [8, 16, 32, 64, 128].map((word) => run(singleCode, word)["code_check_bits"]);
    expect(bits).toEqual([4, 5, 6, 7, 8]);
    for (const [word, ones] of [
      [64, 216],
      [32, 103],
    ] as const) {
      const values = run(singleDoubleCode, word);
      expect((values["code_ones"] ?? 0) + (values["code_check_bits"] ?? 0)).toBe(ones);
    }
  });
});
