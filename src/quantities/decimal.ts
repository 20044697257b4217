/**
 * Exact positive scale factors: numerator / denominator × 10^exponent. Every unit of the table is
 * one, so that `0.2 fF/um` becomes the double nearest 2e-10 and not a product of rounded factors.
 */
export interface Scale {
  readonly numerator: bigint;
  readonly denominator: bigint;
  readonly exponent: number;
}

export const ONE: Scale = { numerator: 1n, denominator: 1n, exponent: 0 };

const DECIMAL = /^([+-]?)(\d*)(?:\.(\d*))?(?:[eE]([+-]?\d+))?$/;
/** Digits of a quotient before it is rounded once to a double. */
const GUARD_DIGITS = 60;

/** Reads decimal text such as `-1.602e-19`; undefined where it is no number. */
export function parseDecimal(text: string): Scale | undefined {
  const match = DECIMAL.exec(text);
  const digits = (match?.[2] ?? "") + (match?.[3] ?? "");
  if (match === null || digits === "") return undefined;
  const numerator = BigInt(digits) * (match[1] === "-" ? -1n : 1n);
  const exponent = Number(match[4] ?? 0) - (match[3]?.length ?? 0);
  return { numerator, denominator: 1n, exponent };
}

/** The scale of a decimal constant of the program; a mistake in it is a bug. */
export function scale(text: string): Scale {
  const value = parseDecimal(text);
  if (value === undefined) throw new RangeError(`${text} is no decimal number`);
  return value;
}

export function multiplyScales(a: Scale, b: Scale): Scale {
  return {
    numerator: a.numerator * b.numerator,
    denominator: a.denominator * b.denominator,
    exponent: a.exponent + b.exponent,
  };
}

/** `a` to a whole power. */
export function powerScale(a: Scale, power: number): Scale {
  const size = BigInt(Math.abs(power));
  const up = { numerator: a.numerator ** size, denominator: a.denominator ** size };
  const exponent = a.exponent * power;
  if (power >= 0) return { ...up, exponent };
  return { numerator: up.denominator, denominator: up.numerator, exponent };
}

/** The sum of two decimal numbers; both denominators are 1. */
export function addDecimals(a: Scale, b: Scale): Scale {
  const exponent = Math.min(a.exponent, b.exponent);
  const shift = (x: Scale): bigint => x.numerator * 10n ** BigInt(x.exponent - exponent);
  return { numerator: shift(a) + shift(b), denominator: 1n, exponent };
}

/** The nearest double. */
export function toNumber(a: Scale): number {
  if (a.denominator === 1n) return Number(`${a.numerator}e${a.exponent}`);
  const quotient = (a.numerator * 10n ** BigInt(GUARD_DIGITS)) / a.denominator;
  return Number(`${quotient}e${a.exponent - GUARD_DIGITS}`);
}
