/** The terminals of a case: per side a list of rules, a later one replaces an earlier one. */

import { refuse } from "../../errors/problem.ts";
import type { SideName, TerminalSide } from "../../numerics/crossbar/problem.ts";
import {
  asIndex,
  asNumber,
  type Fields,
  fieldsOf,
  listAt,
  notNegativeAt,
  numberAt,
  onlyKeys,
  wholeAt,
} from "./fields.ts";

const SIDES = ["left", "right", "top", "bottom"] as const;
const RULE = ["lines", "voltage", "voltages", "steps", "resistance", "floating"];

function linesOf(from: Fields, count: number): number[] {
  const lines = from.values["lines"];
  if (lines === "all") return Array.from({ length: count }, (_, k) => k);
  if (typeof lines === "string") {
    refuse({
      code: "unknown-name",
      what: `${from.at}/lines must be "all" or a list of line numbers`,
      path: `${from.at}/lines`,
      got: lines,
    });
  }
  return listAt(from, "lines").map((line, k) => asIndex(line, count, `${from.at}/lines/${k}`));
}

function voltagesOf(from: Fields, lines: readonly number[]): (k: number) => number {
  if (from.values["voltages"] !== undefined) {
    const list = listAt(from, "voltages", lines.length);
    const numbers = list.map((v, k) => asNumber(v, `${from.at}/voltages/${k}`));
    return (k) => numbers[k]!;
  }
  if (from.values["steps"] !== undefined) {
    const steps = fieldsOf(from.values["steps"], `${from.at}/steps`);
    onlyKeys(steps, ["base", "step", "factor", "modulus"]);
    const base = numberAt(steps, "base");
    const step = numberAt(steps, "step");
    const factor = wholeAt(steps, "factor");
    const modulus = wholeAt(steps, "modulus");
    if (!(modulus > 0)) {
      refuse({
        code: "not-positive",
        what: `${steps.at}/modulus must be above zero`,
        path: `${steps.at}/modulus`,
        got: String(modulus),
      });
    }
    return (k) => base + step * ((((factor * lines[k]!) % modulus) + modulus) % modulus);
  }
  const voltage = numberAt(from, "voltage");
  return () => voltage;
}

function sideOf(rules: readonly unknown[], at: string, count: number): TerminalSide {
  const voltage = new Float64Array(count);
  const resistance = new Float64Array(count).fill(Number.NaN);
  for (const [index, rule] of rules.entries()) {
    const from = fieldsOf(rule, `${at}/${index}`);
    onlyKeys(from, RULE);
    const lines = linesOf(from, count);
    if (from.values["floating"] === true) {
      for (const k of lines) resistance[k] = Number.NaN;
      continue;
    }
    const r = notNegativeAt(from, "resistance");
    const of = voltagesOf(from, lines);
    for (const [k, line] of lines.entries()) {
      voltage[line] = of(k);
      resistance[line] = r;
    }
  }
  return { voltage, resistance };
}

/** Reads `terminals`; a side that is left out floats. */
export function terminalsOf(
  theCase: Fields,
  rows: number,
  columns: number,
): { [side in SideName]?: TerminalSide } {
  const given = theCase.values["terminals"];
  if (given === undefined) return {};
  const from = fieldsOf(given, `${theCase.at}/terminals`);
  onlyKeys(from, SIDES);
  const out: { [side in SideName]?: TerminalSide } = {};
  for (const side of SIDES) {
    if (from.values[side] === undefined) continue;
    const count = side === "left" || side === "right" ? rows : columns;
    out[side] = sideOf(listAt(from, side), `${from.at}/${side}`, count);
  }
  return out;
}
