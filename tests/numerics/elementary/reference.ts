import { all, create } from "mathjs";

/** A general library's decimals of any length: the reference. */
const DIGITS = 70;
const library = create(all!, { number: "BigNumber", precision: DIGITS });
export type Decimal = ReturnType<typeof decimal>;
const DecimalClass = (library as unknown as { BigNumber: DecimalConstructor }).BigNumber;

interface DecimalConstructor {
  new (x: number): DecimalNumber;
  clone(options: { precision: number }): DecimalConstructor;
}
interface DecimalNumber {
  plus(x: DecimalNumber | number): DecimalNumber;
  minus(x: DecimalNumber | number): DecimalNumber;
  times(x: DecimalNumber | number): DecimalNumber;
  div(x: DecimalNumber | number): DecimalNumber;
  pow(x: DecimalNumber | number): DecimalNumber;
  abs(): DecimalNumber;
  exp(): DecimalNumber;
  ln(): DecimalNumber;
  log(base: number): DecimalNumber;
  sqrt(): DecimalNumber;
  cbrt(): DecimalNumber;
  sinh(): DecimalNumber;
  cosh(): DecimalNumber;
  tanh(): DecimalNumber;
  asinh(): DecimalNumber;
  acosh(): DecimalNumber;
  sin(): DecimalNumber;
  cos(): DecimalNumber;
  tan(): DecimalNumber;
  atan(): DecimalNumber;
  toNumber(): number;
  toString(): string;
}

/**
 * A double as a decimal: its own value, where the library would take the shortest text for it; more
 * digits where they cancel, or where a large argument is reduced.
 */
export function decimal(x: number, digits = DIGITS): DecimalNumber {
  const made = new (DecimalClass.clone({ precision: digits }))(2);
  let whole = x;
  let power = 0;
  for (; !Number.isInteger(whole) && power < 1200; power++) whole *= 2;
  for (; Math.abs(whole) >= 2 ** 53; power--) whole /= 2;
  return made.pow(-power).times(whole);
}

/** The distance of neighbouring doubles around x. */
export function unitInLastPlace(x: number): number {
  const size = Math.abs(x);
  if (size < 2 ** -1021) return 5e-324;
  let power = 2 ** -1022;
  while (2 * power <= size) power *= 2;
  return power * 2 ** -52;
}

/** How far a result is from the exact one, in units in the last place of that. */
export function unitsApart(got: number, exact: DecimalNumber): number {
  const nearest = exact.toNumber();
  if (!Number.isFinite(nearest) || !Number.isFinite(got)) return got === nearest ? 0 : Infinity;
  return exact.minus(decimal(got)).abs().div(unitInLastPlace(nearest)).toNumber();
}
