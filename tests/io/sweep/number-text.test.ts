import fc from "fast-check";
import { expect, test } from "vitest";
import { LONGEST_NUMBER, writeNumber } from "../../../src/io/sweep/number-text.ts";

function written(value: number): string {
  const bytes = new Uint8Array(LONGEST_NUMBER + 3);
  const end = writeNumber(bytes, 3, value);
  return new TextDecoder().decode(bytes.subarray(3, end));
}

// ECMA-262, Number::toString, and the ends of its cases.
test("a number is written as the language writes it", () => {
  const hard = [0, -0, 1, -1, 1e21, 1e20, 123456789012345680000, 1e-6, 1e-7, 1.5e-7, 5e-324];
  const more = [1.7976931348623157e308, 2 ** 53, 2 ** 31, 1e9, 999999999, 0.1, 123.456, -2.5e-9];
  for (const value of [...hard, ...more]) expect(written(value)).toBe(String(value));
  fc.assert(
    fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
      expect(written(value)).toBe(String(value));
    }),
    { seed: 1, numRuns: 20_000 },
  );
  fc.assert(
    fc.property(fc.integer(), fc.integer({ min: -25, max: 25 }), (n, e) => {
      expect(written(n * 10 ** e)).toBe(String(n * 10 ** e));
    }),
    { seed: 1, numRuns: 5000 },
  );
});
