/**
 * All worked checks of `shared/checks/reliability-checks.yaml`, each at its own tolerance. Every
 * check names its source (see `source` beside it and `shared/sources.yaml`).
 */
import { readFileSync } from "node:fs";
import { load } from "js-yaml";
import { describe, expect, test } from "vitest";
import { BIT_ERRORS } from "./reliability/bit-errors.ts";
import { CODES } from "./reliability/codes.ts";
import { GUIDE } from "./reliability/guide.ts";
import { LIFE } from "./reliability/life.ts";
import { ROUNDING } from "./reliability/rounding.ts";
import type { Answer, Case, Solver } from "./reliability/run.ts";
import { SAMPLING } from "./reliability/sampling.ts";
import { SUPPLEMENT } from "./reliability/supplement.ts";
import { YIELD } from "./reliability/yield.ts";

interface Expected {
  readonly name: string;
  readonly value: number | number[] | string;
  readonly relative_tolerance?: number;
  readonly at?: Case["at"];
}

interface Check {
  readonly id: string;
  readonly words: string;
  readonly source: string;
  readonly relative_tolerance: number;
  readonly inputs: Case["inputs"];
  readonly expected: readonly Expected[];
}

const SOLVERS: Record<string, Solver> = {
  ...CODES,
  ...YIELD,
  ...BIT_ERRORS,
  ...LIFE,
  ...GUIDE,
  ...SUPPLEMENT,
  ...ROUNDING,
  ...SAMPLING,
};

const file = new URL("../../shared/checks/reliability-checks.yaml", import.meta.url);
const data = load(readFileSync(file, "utf8")) as { checks: (Check & { parts?: Check[] })[] };
const checks = data.checks.flatMap((check) => check.parts ?? [check]);

/** The largest relative error of an answer; an absolute one where zero is expected. */
function errorOf(got: Answer, want: Expected["value"]): number {
  if (typeof want === "string") return got === want ? 0 : Number.POSITIVE_INFINITY;
  const [a, b] = [got, want].map((v) => (Array.isArray(v) ? v : [v]) as number[]);
  if (a!.length !== b!.length) return Number.POSITIVE_INFINITY;
  return Math.max(...b!.map((v, i) => Math.abs(a![i]! - v) / (v === 0 ? 1 : Math.abs(v))));
}

test("every check has a solver and every value is looked at", () => {
  expect(data.checks.length).toBe(60);
  expect(checks.map((check) => check.id).sort()).toEqual(Object.keys(SOLVERS).sort());
  expect(checks.reduce((n, check) => n + check.expected.length, 0)).toBe(687);
});

describe("worked checks of reliability and uncertainty", () => {
  for (const check of checks) {
    test(`${check.id} (${check.source}): ${check.words}`, () => {
      for (const expected of check.expected) {
        const { name, value, at = {} } = expected;
        const got = SOLVERS[check.id]!({ name, at, inputs: check.inputs });
        const allowed = expected.relative_tolerance ?? check.relative_tolerance;
        const error = errorOf(got, value);
        expect(error, `${name}: ${got}, not ${value}`).toBeLessThanOrEqual(allowed);
      }
    });
  }
});
