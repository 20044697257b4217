import type { Problem } from "../errors/problem.ts";

/** Each problem once: what all designs take from the top of a study is wrong in each of them. */
export function distinct(problems: readonly Problem[]): readonly Problem[] {
  const byText = new Map<string, Problem>();
  for (const problem of problems) {
    const { path: _, ...shown } = problem;
    const key = JSON.stringify(shown);
    if (!byText.has(key)) byText.set(key, problem);
  }
  return [...byText.values()];
}
