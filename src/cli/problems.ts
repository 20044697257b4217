import type { Problem } from "../errors/problem.ts";

/** Each problem once: what all designs take from the top of a study is wrong in each of them. */
export function distinct(problems: readonly Problem[]): readonly Problem[] {
  return [...new Map(problems.map((problem) => [JSON.stringify(problem), problem])).values()];
}
