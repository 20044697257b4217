/** The bits of doubles, against powers of two made by halving and doubling, and exact sums of whole numbers. */
import { expect, test } from "vitest";
import {
  isPowerOfTwo,
  POWERS,
  productPair,
  SECOND,
  scaled,
  sumPair,
  upper,
} from "../../../src/numerics/elementary/bits.ts";

test("powers of two whose reciprocal is one too are known, of either sign", () => {
  let power = 1;
  for (let n = 0; n <= 1021; n++, power *= 2) {
    for (const x of [power, -power, 1 / power, -1 / power])
      expect(isPowerOfTwo(x), `${x}`).toBe(true);
    for (const x of [3 * power, power * (1 + 2 ** -52), power * (1 + 2 ** -20), 1.5 / power]) {
      expect(isPowerOfTwo(x), `${x}`).toBe(false);
    }
  }
  for (const x of [0, -0, 2 ** -1023, 5e-324, 2 ** 1023, 1 / 0, Number.NaN]) {
    expect(isPowerOfTwo(x), `${x}`).toBe(false);
  }
});

test("the table of powers and scaling by them are exact, also into subnormals, rounded once", () => {
  for (let n = -1022; n <= 1023; n++) expect(POWERS[n + 1024]).toBe(2 ** n);
  expect(POWERS[0]).toBe(2 ** -1024);
  for (const n of [-1074, -1050, -1001, -1000, -3, 0, 5, 999, 1000, 1001, 1023]) {
    expect(scaled(1, n)).toBe(2 ** n);
  }
  expect(scaled(2 ** -1074, 2097)).toBe(2 ** 1023);
  expect(scaled(2 ** 1023, -2097)).toBe(2 ** -1074);
  expect(scaled(3, -1074)).toBe(3 * 2 ** -1074);
  expect(scaled(1, 1024)).toBe(1 / 0);
  expect(scaled(1, -1076)).toBe(0);
});

test("sums and products as pairs lose nothing", () => {
  // Whole numbers below 2^106 say exactly what both halves must add up to.
  const numbers = [1, 3, 2 ** 52 + 1, 2 ** 53 - 1, 123456789, -987654321, -(2 ** 51) + 7];
  for (const a of numbers) {
    for (const b of numbers) {
      const sum = sumPair(a, b * 2 ** 30);
      expect(BigInt(sum) + BigInt(SECOND[0]!)).toBe(BigInt(a) + BigInt(b * 2 ** 30));
      expect(sum).toBe(a + b * 2 ** 30);
      const product = productPair(a, b);
      expect(BigInt(product) + BigInt(SECOND[0]!)).toBe(BigInt(a) * BigInt(b));
      expect(product).toBe(a * b);
      const high = upper(a);
      // 26 bits: a square of it is exact.
      expect(BigInt(high) * BigInt(high)).toBe(BigInt(high * high));
      expect(Math.abs(a - high)).toBeLessThanOrEqual(Math.abs(a) * 2 ** -25);
    }
  }
});
