/** Numbers as text, written into bytes. */

const [ZERO, POINT, MINUS, PLUS, EXPONENT] = [48, 46, 45, 43, 101];
/** Bytes of a number at most: `-1.2345678901234567e-308`. */
export const LONGEST_NUMBER = 32;
/** Decimal places before which, and zeros after the point up to which, no exponent is written. */
const [MOST_PLACES, MOST_ZEROS] = [21, 6];

const digits = new Uint8Array(24);

/**
 * Writes the shortest text that reads back as the same number: that of `String(value)` (ECMA-262,
 * Number::toString). The engine keeps the last texts of `String` in a table, so that in a long run
 * they grow old by the million; texts with an exponent it does not keep, and these have the digits.
 *
 * @param bytes with room for `LONGEST_NUMBER` from `at`
 * @param value finite
 * @returns the place behind the last byte
 */
export function writeNumber(bytes: Uint8Array, at: number, value: number): number {
  if (value < 0) bytes[at++] = MINUS;
  const size = Math.abs(value);
  if (size < 1e9 && Number.isInteger(size)) return writeWhole(bytes, at, size);
  const text = size.toExponential();
  const mark = text.indexOf("e");
  const count = mark > 1 ? mark - 1 : 1;
  digits[0] = text.charCodeAt(0);
  for (let i = 1; i < count; i++) digits[i] = text.charCodeAt(i + 1);
  const exponent = wholeAt(text, mark + 1);
  const places = exponent + 1;
  if (places > MOST_PLACES || places <= -MOST_ZEROS) {
    return writeExponent(bytes, writeDigits(bytes, at, count, 1), exponent);
  }
  if (places > 0) return writeDigits(bytes, at, count, places);
  bytes[at++] = ZERO;
  bytes[at++] = POINT;
  for (let i = places; i < 0; i++) bytes[at++] = ZERO;
  for (let i = 0; i < count; i++) bytes[at++] = digits[i]!;
  return at;
}

/** Digits with the point behind so many of them; zeros where there are fewer. */
function writeDigits(bytes: Uint8Array, start: number, count: number, places: number): number {
  let at = start;
  for (let i = 0; i < Math.max(count, places); i++) {
    if (i === places) bytes[at++] = POINT;
    bytes[at++] = i < count ? digits[i]! : ZERO;
  }
  return at;
}

function writeExponent(bytes: Uint8Array, start: number, exponent: number): number {
  let at = start;
  bytes[at++] = EXPONENT;
  bytes[at++] = exponent < 0 ? MINUS : PLUS;
  return writeWhole(bytes, at, Math.abs(exponent));
}

function writeWhole(bytes: Uint8Array, start: number, value: number): number {
  let power = 1;
  while (power * 10 <= value) power *= 10;
  let at = start;
  for (let rest = value; power >= 1; power /= 10) {
    const digit = Math.floor(rest / power);
    bytes[at++] = ZERO + digit;
    rest -= digit * power;
  }
  return at;
}

/** The whole number with a sign at the end of a text. */
function wholeAt(text: string, start: number): number {
  let value = 0;
  for (let i = start + 1; i < text.length; i++) value = 10 * value + text.charCodeAt(i) - ZERO;
  return text.charCodeAt(start) === MINUS ? -value : value;
}
