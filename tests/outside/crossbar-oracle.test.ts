/**
 * Source: `shared/checks/crossbar-oracle.json`, a set of crossbar cases solved in more than double precision, with the
 * tolerance and the ill-conditioned outputs of each case stated beside it.
 */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { TenfoldError } from "../../src/errors/problem.ts";
import { solveCrossbar } from "../../src/numerics/crossbar/solve.ts";
import { outputsOf } from "../../src/studies/solve/answer.ts";
import { readCase } from "../../src/studies/solve/case.ts";
import { validate } from "../numerics/crossbar/build.ts";

interface OracleCase {
  readonly id: string;
  readonly tolerance: number;
  readonly ill_conditioned?: readonly string[];
  readonly expect: Record<string, number | number[] | Record<string, number> | string>;
}

const file = new URL("../../shared/checks/crossbar-oracle.json", import.meta.url);
const { cases } = JSON.parse(readFileSync(file, "utf8")) as { cases: OracleCase[] };
/** Differences, not ratios: `column_errors` are ratios already. */
const RATIOS = ["column_errors", "worst_column_error"];

function scaleOf(name: string, scale: Record<string, number>): number {
  if (name.includes("voltage")) return scale["voltage"]!;
  return name.includes("power") ? scale["power"]! : scale["current"]!;
}

function errors(name: string, got: number[], want: number[], scale: Record<string, number>) {
  return want.map((w, k) => {
    const difference = Math.abs(got[k]! - w);
    if (RATIOS.includes(name)) return difference;
    return difference / (w === 0 ? scaleOf(name, scale) : Math.abs(w));
  });
}

const list = (value: unknown): number[] => (Array.isArray(value) ? value : [value as number]);

describe.each(["line", "coarsened", undefined] as const)("solved by method %s", (method) => {
  test.each(cases.filter((c) => !("refused" in c.expect)).map((c) => [c.id, c] as const))(
    "%s comes out to the oracle's tolerance",
    (_, one) => {
      const theCase = readCase(one);
      const solution = solveCrossbar(theCase.problem, method === undefined ? {} : { method });
      validate(theCase.problem, solution);
      const got = outputsOf(theCase, solution);
      const { scale, ...want } = one.expect;
      expect(Object.keys(got).sort()).toEqual(Object.keys(want).sort());
      for (const [name, value] of Object.entries(want)) {
        expect(list(got[name]).length).toBe(list(value).length);
        const bound = one.ill_conditioned?.includes(name) ? 1e-6 : one.tolerance;
        const found = errors(name, list(got[name]), list(value), scale as Record<string, number>);
        expect(Math.max(...found), name).toBeLessThanOrEqual(bound);
      }
    },
  );
});

test.each(cases.filter((c) => "refused" in c.expect).map((c) => [c.id, c] as const))(
  "%s is refused with its reason",
  (_, one) => {
    let reason: string | undefined;
    try {
      solveCrossbar(readCase(one).problem);
    } catch (error) {
      if (error instanceof TenfoldError) reason = error.problems[0]!.code;
      else throw error;
    }
    expect(reason).toBe(one.expect["refused"]);
  },
);
