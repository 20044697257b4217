/** The order of computation. */

import type { Problem } from "../errors/problem.ts";
import type { Part } from "./expand.ts";

/**
 * The parts, each after all that it reads; otherwise as they stand, so that the same parts give the
 * same order.
 *
 * @param parts what each reads and writes; a name that no part writes counts as known
 * @returns the order, and a problem for each cycle that was met, with its path
 */
export function inOrder(parts: readonly Part[]): { ordered: Part[]; cycles: Problem[] } {
  const writer = new Map<string, Part>();
  for (const part of parts) for (const { name } of part.writes) writer.set(name, part);
  const state = new Map<Part, "open" | "done">();
  const ordered: Part[] = [];
  const cycles: Problem[] = [];
  const path: { part: Part; name: string }[] = [];

  const visit = (part: Part, name: string): void => {
    path.push({ part, name });
    if (state.get(part) === "open") cycles.push(cycleProblem(path));
    else {
      state.set(part, "open");
      for (const read of part.reads) {
        const source = writer.get(read.name);
        if (source && state.get(source) !== "done") visit(source, read.name);
      }
      state.set(part, "done");
      ordered.push(part);
    }
    path.pop();
  };
  for (const part of parts) {
    if (state.get(part) !== "done") visit(part, part.writes[0]?.name ?? "");
  }
  return { ordered, cycles };
}

function cycleProblem(path: readonly { part: Part; name: string }[]): Problem {
  const last = path.at(-1)!;
  const start = path.findIndex(({ part }) => part === last.part);
  const round = path.slice(start);
  // The first name of the round is the one under which the round is entered again.
  const names = [last.name, ...round.slice(1).map(({ name }) => name)];
  return {
    code: "formula-cycle",
    what: `formulas need each other in a circle: ${names.join(" needs ")}`,
    got: [...new Set(round.map(({ part }) => part.who))].join("; "),
    expected: "each quantity computed from others that do not need it",
  };
}
