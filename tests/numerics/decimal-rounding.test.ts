/** Rounding as people round decimals: the Guide to the expression of uncertainty in measurement, JCGM 100:2008, 7.2.6. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { decimalAt, roundWithUncertainty } from "../../src/numerics/index.ts";

const pair = (value: number | string, uncertainty: number | string, digits?: number) => {
  const { value: v, uncertainty: u, place } = roundWithUncertainty(value, uncertainty, digits);
  return [v, u, place];
};

test.each([
  // 7.2.6: y = 10.057 62 ohm with u = 27 mohm is 10.058 ohm.
  [10.05762, 0.027, "10.058", "0.027", -3],
  // 7.2.2: m_S = 100.021 47 g with u = 0.35 mg.
  [100.02147, 0.00035, "100.02147", "0.00035", -5],
  [12345.678, 123, "12350", "120", 1],
  [12345.678, 5.5, "12345.7", "5.5", -1],
  [-12345.678, 5.5, "-12345.7", "5.5", -1],
  [3, 10, "3", "10", 0],
  [31, 100, "30", "100", 1],
  [0, 0.01, "0.000", "0.010", -3],
  [1e21, 1e20, "1000000000000000000000", "100000000000000000000", 19],
])("%d with %d is %s and %s", (value, uncertainty, rounded, spread, place) => {
  expect(pair(value, uncertainty)).toEqual([rounded, spread, place]);
});

test("an uncertainty that rounds up to one more digit moves the place", () => {
  expect(pair(1.2345, 0.0996)).toEqual(["1.23", "0.10", -2]);
  expect(pair(1.2345, 0.0994)).toEqual(["1.234", "0.099", -3]);
  expect(pair(123, 9.96, 1)).toEqual(["120", "10", 1]);
  expect(pair(123.456, 0.0123, 1)).toEqual(["123.46", "0.01", -2]);
  expect(pair(123.456, 0.0123, 3)).toEqual(["123.4560", "0.0123", -4]);
});

test("ties of the decimal that is written go to the even digit, of either sign", () => {
  // In binary 2.675 lies below the tie.
  expect(decimalAt(2.675, -2)).toBe("2.68");
  expect(decimalAt(2.665, -2)).toBe("2.66");
  expect(decimalAt(-2.675, -2)).toBe("-2.68");
  expect(decimalAt(-2.665, -2)).toBe("-2.66");
  expect(decimalAt(2.6651, -2)).toBe("2.67");
  expect(decimalAt(0.5, 0)).toBe("0");
  expect(decimalAt(1.5, 0)).toBe("2");
  expect(decimalAt(25, 1)).toBe("20");
  expect(decimalAt(35, 1)).toBe("40");
});

test("texts of any size have their digits, with an exponent only where the last one is far below", () => {
  expect(decimalAt(1e-7, -9)).toBe("0.000000100");
  expect(decimalAt(-1e-7, -9)).toBe("-0.000000100");
  expect(decimalAt(1.5e-30, -31)).toBe(`0.${"0".repeat(29)}15`);
  expect(decimalAt(123, -2)).toBe("123.00");
  expect(decimalAt(1e22, 0)).toBe("10000000000000000000000");
  expect(decimalAt(Number.NaN, -2)).toBe("NaN");
  expect(pair(1.23456e-14, 1e-15)).toEqual(["1.23e-14", "1.0e-15", -16]);
  expect(pair(-1.23456e-14, 1.1e-14)).toEqual(["-0.000000000000012", "0.000000000000011", -15]);
  expect(pair(-1.23456e-14, 1.1e-15)).toEqual(["-1.23e-14", "1.1e-15", -16]);
  expect(pair(1.5e-20, 3e-20, 1)).toEqual(["2e-20", "3e-20", -20]);
});

test("a decimal as text keeps its digits beyond those of a double", () => {
  const digits = "1.23456789012345678901";
  expect(pair(digits, "1e-20")).toEqual([`${digits}0e0`, "1.0e-20", -21]);
  expect(pair("+12.50", "1.5")).toEqual(["12.5", "1.5", -1]);
  expect(pair("-1.5E+3", "1e2")).toEqual(["-1500", "100", 1]);
  expect(pair("5.", "1")).toEqual(["5.0", "1.0", -1]);
});

test("no uncertainty rounds nothing", () => {
  expect(roundWithUncertainty(0.1 + 0.2, 0)).toEqual({
    value: "0.30000000000000004",
    uncertainty: "",
  });
});

test.each([
  [Number.NaN, 1],
  [1, Number.NaN],
  [1, -0.5],
  [Number.POSITIVE_INFINITY, 1],
  [1, Number.POSITIVE_INFINITY],
  ["", 1],
  ["1 m", 1],
  ["x1", 1],
])("%s with %s is refused", (value, uncertainty) => {
  expect(() => roundWithUncertainty(value, uncertainty)).toThrow(/out-of-range/);
});

test("a rounded number is the nearest of its place: never half a unit away", () => {
  fc.assert(
    fc.property(
      fc.double({ min: -1e9, max: 1e9, noNaN: true }),
      fc.integer({ min: -6, max: 3 }),
      (x, place) => {
        const text = decimalAt(x, place);
        const unit = 10 ** place;
        expect(Math.abs(Number(text) - x)).toBeLessThanOrEqual(unit * (0.5 + 1e-6));
        expect(/e/.test(text)).toBe(false);
        expect(text.split(".")[1]?.length ?? 0).toBe(Math.max(0, -place));
      },
    ),
    { seed: 20261125, numRuns: 2000 },
  );
});
