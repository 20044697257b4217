/** A number with a unit, read into SI. */

import { type Problem, refuse, TenfoldError } from "../errors/problem.ts";
import { addDecimals, multiplyScales, parseDecimal, scale, toNumber } from "./decimal.ts";
import {
  type Dimension,
  dimensionText,
  isDimensionless,
  type Rational,
  sameDimension,
} from "./dimension.ts";
import { parseUnit, type Unit } from "./unit.ts";

const PARTS = /^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*(.*?)\s*$/su;
const MOST_LETTERS = 200;
const SMALLEST_NORMAL = 2.2250738585072014e-308;

/** A quantity text in its two halves; undefined where it doesn't begin with a number. */
export function splitQuantity(text: string): { number: string; unit: string } | undefined {
  const match = text.length > MOST_LETTERS ? null : PARTS.exec(text.replace(/^\s*\u2212/, "-"));
  return match === null ? undefined : { number: match[1]!, unit: match[2]! };
}

/**
 * Reads text such as `2.5 kohm` into SI: the double nearest the exact decimal value.
 * @param expectedUnit what it must be comparable with; bits are asked for by `bit`
 * @throws TenfoldError `bad-number`, `unit-missing`, `wrong-dimension`, `unknown-unit`, `bad-unit`,
 *   `number-out-of-range`
 */
export function readQuantity(text: string, expectedUnit: string): number {
  const parts = splitQuantity(text);
  if (parts === undefined) return refuseNumber(text, expectedUnit);
  const expected = parseUnit(expectedUnit);
  const unit = readUnit(parts.unit, text, expected);
  if (!comparable(unit, expected)) refuseDimension(text, parts.unit, unit, expected);
  return scaled(parts.number, unit, text);
}

/** Reads a quantity of any dimension, with the unit that it was written in. */
export function readAnyQuantity(text: string): { value: number; unit: Unit } {
  const parts = splitQuantity(text) ?? refuseNumber(text, "1");
  const unit = readUnit(parts.unit, text);
  return { value: scaled(parts.number, unit, text), unit };
}

function readUnit(unitText: string, text: string, expected?: Unit): Unit {
  if (/^[,_]\d/.test(unitText)) {
    refuse({
      code: "bad-number",
      what: `\`${text}\` has a comma or underscore in its number`,
      got: text,
      expected: "digits with a decimal point, such as `1.5 V` or `1000 s`",
      fix: "write a point for decimals and nothing between thousands",
    });
  }
  try {
    return parseUnit(unitText);
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    throw new TenfoldError(error.problems.map((p) => inContext(p, text, expected)));
  }
}

/**
 * The unit is a part of what the user wrote; a suggestion of another dimension than needed helps
 * nobody.
 */
function inContext(problem: Problem, text: string, expected: Unit | undefined): Problem {
  const { nearest, ...rest } = problem;
  const suits =
    nearest !== undefined && (expected === undefined || namesOnly(nearest, expected.dimension));
  return {
    ...rest,
    got: text,
    ...(expected === undefined
      ? {}
      : { expected: `a number with a unit, ${unitExample(expected.text)}` }),
    ...(suits ? { nearest } : {}),
  };
}

/** Whether each unit that a suggestion names has the dimension; a suggestion in words passes. */
function namesOnly(suggestion: string, dimension: Dimension): boolean {
  if (suggestion.includes("(")) return true;
  return suggestion
    .split(" or ")
    .some((unit) => sameDimension(parseUnit(unit.replace(/^[\d.]+ /, "")).dimension, dimension));
}

function scaled(number: string, unit: Unit, text: string): number {
  const exponent = Number(/[eE]([+-]?\d+)$/.exec(number)?.[1] ?? 0);
  const decimal = Math.abs(exponent) < 400 ? parseDecimal(number) : undefined;
  if (decimal === undefined) return refuseSize(text);
  const product = multiplyScales(decimal, unit.scale);
  const value = toNumber(
    unit.offset === undefined ? product : addDecimals(product, scale(unit.offset)),
  );
  const vanished = Math.abs(value) < SMALLEST_NORMAL && decimal.numerator !== 0n;
  return Number.isFinite(value) && !vanished ? value : refuseSize(text);
}

/**
 * Bits must be asked for to be given, and given where asked for; elsewhere `pJ/bit` is an energy.
 */
function comparable(unit: Unit, expected: Unit): boolean {
  if (!sameDimension(unit.dimension, expected.dimension)) return false;
  const strict = expected.information[0] !== 0 || isDimensionless(expected.dimension);
  return !strict || sameRational(unit.information, expected.information);
}

function sameRational(a: Rational, b: Rational): boolean {
  return a[0] === b[0] && a[1] === b[1];
}

function unitExample(expected: string): string {
  if (expected === "1") return "or none";
  return expected === "bit" ? "such as `1 Mib` or `32 bit`" : `in ${expected} or a multiple of it`;
}

function refuseNumber(text: string, expectedUnit: string): never {
  const shown = text.length > 60 ? `${text.slice(0, 60)}…` : text;
  const bare =
    expectedUnit === "1" ? "a number" : `a number with a unit, ${unitExample(expectedUnit)}`;
  return refuse({
    code: "bad-number",
    what: `\`${shown}\` doesn't begin with a number`,
    got: shown,
    expected: bare,
  });
}

function refuseDimension(text: string, unitText: string, unit: Unit, expected: Unit): never {
  if (unitText === "") {
    refuse({
      code: "unit-missing",
      what: `\`${text.trim()}\` has no unit`,
      got: text,
      expected: `a number with a unit, ${unitExample(expected.text)}`,
    });
  }
  return refuse({
    code: "wrong-dimension",
    what: `\`${text.trim()}\` is in ${described(unit)}, but ${described(expected)} is needed`,
    got: text,
    expected: expected.text === "1" ? "a plain number" : `a quantity ${unitExample(expected.text)}`,
  });
}

function described(unit: Unit): string {
  if (unit.information[0] !== 0) return `${unit.text} (bits)`;
  const base = dimensionText(unit.dimension);
  if (base === "1") return unit.text === "1" || unit.text === "" ? "a plain number" : unit.text;
  return base === unit.text ? unit.text : `${unit.text} (${base})`;
}

function refuseSize(text: string): never {
  return refuse({
    code: "number-out-of-range",
    what: `\`${text.trim()}\` is too large or too small to compute with`,
    got: text,
    expected: "a finite number of a size that occurs in nature",
  });
}
