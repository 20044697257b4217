import { refuse } from "../../errors/problem.ts";
import { sin } from "../../numerics/special/elementary.ts";
import { normalCumulative, normalQuantile } from "../../numerics/special/normal.ts";

/** Two parameters, by their places, and how their ranks go together. */
export interface RankCorrelation {
  readonly first: number;
  readonly second: number;
  /** Spearman's coefficient, strictly between -1 and 1. */
  readonly rank: number;
}

/**
 * Parameters that are drawn together: a normal copula. Its scores have the correlation coefficients
 * 2 sin(pi r / 6), at which the ranks of a normal pair have the coefficient r; drawing by ranks
 * after "A distribution-free approach to inducing rank correlation among input variables",
 * Communications in Statistics B 11 (1982) 311-334, doi 10.1080/03610918208812265. Each parameter
 * keeps its own distribution.
 */
export interface CorrelatedGroup {
  readonly members: readonly number[];
  /** Lower triangle of the Cholesky factor, row by row. */
  readonly factor: readonly (readonly number[])[];
}

/**
 * The groups that correlations tie together.
 *
 * @throws TenfoldError `impossible-correlation` where no distribution has all these coefficients
 */
export function correlatedGroups(correlations: readonly RankCorrelation[]): CorrelatedGroup[] {
  const groups: Set<number>[] = [];
  for (const { first, second } of correlations) {
    const joined = groups.filter((group) => group.has(first) || group.has(second));
    const merged = new Set([first, second, ...joined.flatMap((group) => [...group])]);
    for (const group of joined) groups.splice(groups.indexOf(group), 1);
    groups.push(merged);
  }
  return groups.map((group) => {
    const members = [...group].sort((a, b) => a - b);
    const matrix = members.map((i) =>
      members.map((j) => (i === j ? 1 : coefficient(correlations, i, j))),
    );
    return { members, factor: cholesky(matrix) };
  });
}

function coefficient(correlations: readonly RankCorrelation[], i: number, j: number): number {
  const pair = correlations.find(
    ({ first, second }) => (first === i && second === j) || (first === j && second === i),
  );
  return pair === undefined ? 0 : 2 * sin((Math.PI * pair.rank) / 6);
}

function cholesky(matrix: readonly (readonly number[])[]): number[][] {
  const factor: number[][] = matrix.map(() => []);
  for (const [i, row] of matrix.entries()) {
    for (let j = 0; j <= i; j++) {
      let rest = row[j]!;
      for (let k = 0; k < j; k++) rest -= factor[i]![k]! * factor[j]![k]!;
      if (i === j && !(rest > 1e-12)) impossible();
      factor[i]![j] = i === j ? Math.sqrt(rest) : rest / factor[j]![j]!;
    }
  }
  return factor;
}

function impossible(): never {
  return refuse({
    code: "impossible-correlation",
    what: "no parameters can have all of these correlations at once",
    expected: "a set of coefficients whose matrix is positive definite",
    fix: "make them smaller, or state the coefficient of each pair",
  });
}

/** Turns independent uniform columns of each group into correlated ones, in place. */
export function correlate(
  groups: readonly CorrelatedGroup[],
  uniform: readonly Float64Array[],
  count: number,
): void {
  for (const { members, factor } of groups) {
    const scores = new Float64Array(members.length);
    for (let i = 0; i < count; i++) {
      for (const [m, k] of members.entries()) scores[m] = normalQuantile(uniform[k]![i]!);
      for (const [m, k] of members.entries()) {
        let score = 0;
        for (let j = 0; j <= m; j++) score += factor[m]![j]! * scores[j]!;
        uniform[k]![i] = inside(normalCumulative(score));
      }
    }
  }
}

/** Scores far out round to probabilities of 0 or 1, which have no quantile. */
function inside(probability: number): number {
  return Math.min(1 - 2 ** -53, Math.max(2 ** -53, probability));
}
