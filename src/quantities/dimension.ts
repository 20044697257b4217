/** Dimensions as vectors of rational exponents over the base units m, kg, s, A, K. */

/** A reduced fraction; the denominator is positive. */
export type Rational = readonly [numerator: number, denominator: number];

export const BASE_UNITS = ["m", "kg", "s", "A", "K"] as const;

/** One exponent per base unit, in the order of `BASE_UNITS`. */
export type Dimension = readonly Rational[];

const ZERO: Rational = [0, 1];
const LARGEST_DENOMINATOR = 12;

export const DIMENSIONLESS: Dimension = BASE_UNITS.map(() => ZERO);

function greatestDivisor(a: number, b: number): number {
  return b === 0 ? Math.abs(a) : greatestDivisor(b, a % b);
}

/** The reduced fraction numerator / denominator; both are whole, the denominator is not zero. */
export function rational(numerator: number, denominator = 1): Rational {
  const divisor = greatestDivisor(numerator, denominator) || 1;
  const sign = denominator < 0 ? -1 : 1;
  // Adding zero turns -0 into 0.
  return [(sign * numerator) / divisor + 0, (sign * denominator) / divisor];
}

/** The fraction with a denominator up to 12 that equals `x` within rounding, if there is one. */
export function rationalOf(x: number): Rational | undefined {
  for (let denominator = 1; denominator <= LARGEST_DENOMINATOR; denominator++) {
    const numerator = Math.round(x * denominator);
    const error = Math.abs(numerator / denominator - x);
    if (error <= 1e-12 * Math.max(1, Math.abs(x))) return rational(numerator, denominator);
  }
  return undefined;
}

export function addRational(a: Rational, b: Rational): Rational {
  return rational(a[0] * b[1] + b[0] * a[1], a[1] * b[1]);
}

export function timesRational(a: Rational, b: Rational): Rational {
  return rational(a[0] * b[0], a[1] * b[1]);
}

export function multiplyDimensions(a: Dimension, b: Dimension): Dimension {
  return a.map((exponent, i) => addRational(exponent, b[i]!));
}

export function divideDimensions(a: Dimension, b: Dimension): Dimension {
  return multiplyDimensions(a, powerDimension(b, [-1, 1]));
}

/** `a` to a power; a number must be a fraction with a denominator up to 12, else RangeError. */
export function powerDimension(a: Dimension, power: Rational | number): Dimension {
  const exact = typeof power === "number" ? rationalOf(power) : power;
  if (exact === undefined) throw new RangeError(`${power} is no simple fraction`);
  return a.map((exponent) => timesRational(exponent, exact));
}

export function sameDimension(a: Dimension, b: Dimension): boolean {
  return a.every((exponent, i) => exponent[0] === b[i]![0] && exponent[1] === b[i]![1]);
}

export function isDimensionless(a: Dimension): boolean {
  return a.every((exponent) => exponent[0] === 0);
}

/** In base units, such as `kg m^2/(s^3 A)`; `1` where dimensionless. */
export function dimensionText(a: Dimension): string {
  const above: string[] = [];
  const below: string[] = [];
  for (const [i, [numerator, denominator]] of a.entries()) {
    if (numerator === 0) continue;
    const size = Math.abs(numerator);
    const power = denominator === 1 ? `${size}` : `(${size}/${denominator})`;
    (numerator > 0 ? above : below).push(BASE_UNITS[i]! + (power === "1" ? "" : `^${power}`));
  }
  const top = above.join(" ") || "1";
  if (below.length === 0) return top;
  return `${top}/${below.length > 1 ? `(${below.join(" ")})` : below[0]}`;
}
