/** What programs over columns are made of, and what each operation does to one set of numbers. */

import { exp, log, log1p, pow } from "../elementary/index.ts";
import { ceil, floor, round } from "../special/whole.ts";

/** Operations by name; a number stands for one in code. */
export const OPERATIONS = [
  "add",
  "subtract",
  "multiply",
  "divide",
  "min",
  "max",
  "less",
  "atMost",
  "equal",
  "negate",
  "abs",
  "sqrt",
  "ceil",
  "floor",
  "round",
  "exp",
  "log",
  "log1p",
  "pow",
  "choose",
] as const;
export type Operation = (typeof OPERATIONS)[number];

/** 1 where the order holds, 0 where it does not, NaN where one side is NaN. */
const order = (holds: boolean, a: number, b: number): number =>
  holds ? 1 : Number.isNaN(a) || Number.isNaN(b) ? Number.NaN : 0;

/**
 * Each operation on one set of operands. `choose` takes its second operand where the first is 1,
 * its third where that is 0, and is NaN where it is NaN.
 */
export const APPLY: Readonly<Record<Operation, (a: number, b: number, c: number) => number>> = {
  add: (a, b) => a + b,
  subtract: (a, b) => a - b,
  multiply: (a, b) => a * b,
  divide: (a, b) => a / b,
  min: (a, b) => Math.min(a, b),
  max: (a, b) => Math.max(a, b),
  less: (a, b) => order(a < b, a, b),
  atMost: (a, b) => order(a <= b, a, b),
  equal: (a, b) => order(a === b, a, b),
  negate: (a) => -a,
  abs: (a) => Math.abs(a),
  sqrt: (a) => Math.sqrt(a),
  ceil: (a) => ceil(a),
  floor: (a) => floor(a),
  round: (a) => round(a),
  exp: (a) => exp(a),
  log: (a) => log(a),
  log1p: (a) => log1p(a),
  pow: (a, b) => pow(a, b),
  choose: (a, b, c) => (a === 1 ? b : a === 0 ? c : Number.NaN),
};

/** How many operands an operation has. */
export function operandsOf(operation: Operation): 1 | 2 | 3 {
  if (operation === "choose") return 3;
  const place = OPERATIONS.indexOf(operation);
  return place < OPERATIONS.indexOf("negate") || operation === "pow" ? 2 : 1;
}
