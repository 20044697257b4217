/**
 * A value and its uncertainty rounded as the Guide to the expression of uncertainty in measurement
 * asks (JCGM 100:2008, 7.2): the uncertainty to so many significant digits, the value to the same
 * place. Decimal arithmetic on the shortest decimal of each number, since 2.675 in binary lies
 * below the tie that people see.
 */
import { refuse } from "../errors/problem.ts";

/** digits x 10^exponent. */
interface Decimal {
  readonly digits: bigint;
  readonly exponent: number;
}

export interface RoundedPair {
  readonly value: string;
  /** Empty where the uncertainty is zero. */
  readonly uncertainty: string;
  /** Power of ten of the last digit; undefined where the uncertainty is zero. */
  readonly place?: number;
}

/** Below this power of ten of the last digit texts get an exponent. */
const SMALLEST_PLACE = -15;

/** Rounds both; a number stands for its shortest decimal text. Ties go to the even digit. */
export function roundWithUncertainty(
  value: number | string,
  uncertainty: number | string,
  significant = 2,
): RoundedPair {
  const u = read(uncertainty);
  const v = read(value);
  if (u === undefined || v === undefined || u.digits < 0n) {
    return refuse({
      code: "out-of-range",
      what: "only a finite value with an uncertainty of zero or more can be rounded",
      got: `${value} +- ${uncertainty}`,
    });
  }
  if (u.digits === 0n) return { value: String(value), uncertainty: "" };
  let place = u.exponent + u.digits.toString().length - significant;
  // 9.96 becomes 10: one place further up, so that two digits stay two.
  if (rounded(u, place).toString().length > significant) place++;
  return {
    value: text(rounded(v, place), place),
    uncertainty: text(rounded(u, place), place),
    place,
  };
}

/**
 * A finite number rounded at a power of ten, as text without exponent. It stands for its shortest
 * decimal; ties go to the even digit.
 */
export function decimalAt(x: number, place: number): string {
  const number = read(x);
  if (number === undefined) return String(x);
  const units = rounded(number, place);
  return place >= 0 ? (units * 10n ** BigInt(place)).toString() : pointed(units, place);
}

function read(x: number | string): Decimal | undefined {
  const match = /^([+-]?)(\d+)(?:\.(\d*))?(?:e([+-]?\d+))?$/i.exec(String(x));
  if (match === null) return undefined;
  const part = match[3] ?? "";
  const digits = BigInt(`${match[2]}${part}`) * (match[1] === "-" ? -1n : 1n);
  return { digits, exponent: Number(match[4] ?? 0) - part.length };
}

/** The number in units of 10^place. */
function rounded({ digits, exponent }: Decimal, place: number): bigint {
  if (exponent >= place) return digits * 10n ** BigInt(exponent - place);
  const unit = 10n ** BigInt(place - exponent);
  const size = digits < 0n ? -digits : digits;
  const whole = size / unit;
  const twice = (size % unit) * 2n;
  const up = twice > unit || (twice === unit && whole % 2n === 1n);
  const result = up ? whole + 1n : whole;
  return digits < 0n ? -result : result;
}

function text(units: bigint, place: number): string {
  if (place >= 0) return (units * 10n ** BigInt(place)).toString();
  const sign = units < 0n ? "-" : "";
  const size = (units < 0n ? -units : units).toString();
  return place < SMALLEST_PLACE ? sign + withExponent(size, place) : pointed(units, place);
}

/** Digits with a point, for a place below 0. */
function pointed(units: bigint, place: number): string {
  const sign = units < 0n ? "-" : "";
  const size = (units < 0n ? -units : units).toString();
  const padded = size.padStart(1 - place, "0");
  return `${sign}${padded.slice(0, place)}.${padded.slice(place)}`;
}

function withExponent(size: string, place: number): string {
  const rest = size.slice(1);
  return `${size[0]}${rest === "" ? "" : `.${rest}`}e${place + rest.length}`;
}
