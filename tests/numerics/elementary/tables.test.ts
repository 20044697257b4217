import { expect, test } from "vitest";
import { ATAN_TABLE } from "../../../src/numerics/elementary/arctangent.ts";
import { DOUBLE, HIGH, LOW, WORDS } from "../../../src/numerics/elementary/bits.ts";
import { EXP_TABLE } from "../../../src/numerics/elementary/exp-table.ts";
import { LOG_FROM, LOG_TABLE } from "../../../src/numerics/elementary/log-table.ts";
import { decimal } from "./reference.ts";

test("the table of exponentials is 2^(i/128) and what the nearest double leaves", () => {
  for (let i = 0; i < 128; i++) {
    const exact = decimal(2).ln().times(i).div(128).exp();
    const nearest = exact.toNumber();
    expect(EXP_TABLE[2 * i]).toBe(nearest);
    expect(EXP_TABLE[2 * i + 1]).toBe(exact.div(decimal(nearest)).minus(1).toNumber());
  }
  expect(EXP_TABLE).toHaveLength(256);
});

/** The double with an upper word and nothing below. */
function fromUpper(word: number): number {
  WORDS[LOW] = 0;
  WORDS[HIGH] = word;
  return DOUBLE[0]!;
}

test("the table of logarithms holds -log(n / 256) in two parts, exact at one", () => {
  for (let i = 0; i < 128; i++) {
    const [n, high, low] = [0, 1, 2].map((k) => LOG_TABLE[3 * i + k]!) as [number, number, number];
    const exact = decimal(n).div(256).ln().times(-1);
    expect(high).toBe(Math.round(exact.times(2 ** 42).toNumber()) / 2 ** 42 + 0);
    expect(low).toBe(exact.minus(decimal(high)).toNumber() + 0);
  }
});

test("each piece of the logarithm reduces to a double, and to less than its tabled part", () => {
  for (let i = 0; i < 128; i++) {
    const [n, high] = [LOG_TABLE[3 * i]!, LOG_TABLE[3 * i + 1]!];
    for (const end of [fromUpper(LOG_FROM + (i << 13)), fromUpper(LOG_FROM + ((i + 1) << 13))]) {
      const r = Math.abs((end * n) / 256 - 1);
      expect(r).toBeLessThan(0.0057);
      // The last bit of x n / 256: what it takes for r to be exact in 53 bits.
      let odd = n;
      while (odd % 2 === 0) odd /= 2;
      const last = (2 ** (end > 1 ? -52 : -53) * (n / odd)) / 256;
      expect(r).toBeLessThanOrEqual(last * 2 ** 53);
      if (n !== 256) expect(Math.abs(high)).toBeGreaterThan(r);
    }
  }
});

test("the table of arcs is atan(i / 16) and what the nearest double leaves", () => {
  for (let i = 0; i <= 16; i++) {
    const exact = decimal(i).div(16).atan();
    expect(ATAN_TABLE[2 * i]).toBe(exact.toNumber());
    expect(ATAN_TABLE[2 * i + 1]).toBe(exact.minus(decimal(exact.toNumber())).toNumber());
  }
});
