import type { Condition } from "../estimate/conditions.ts";
import type { Draws } from "../estimate/draws.ts";
import type { MacroModel } from "../estimate/model.ts";

/** Draws of a design's quantities, with those in which it does not work. */
export interface WorkingSamples {
  /** By quantity; NaN in all of them where the design does not work. */
  readonly samples: ReadonlyMap<string, Float64Array>;
  /** In how many draws it does not work. */
  readonly failed: number;
  /** What is wrong in most of those, a sentence without full stop. */
  readonly cause?: string;
}

/**
 * Samples a design and finds the draws in which it works: every condition holds and every quantity
 * is a finite number.
 *
 * @param names the quantities that are wanted
 */
export function workingSamples(
  model: MacroModel,
  draws: Draws,
  conditions: readonly Condition[],
  names: readonly string[],
): WorkingSamples {
  const asked = [...new Set([...names, ...conditions.map(({ quantity }) => quantity)])];
  const samples = model.sample(draws, asked);
  const columns = [...samples.values()];
  const guards = conditions.map(({ quantity, fails }) => ({
    fails,
    values: samples.get(quantity)!,
  }));
  const causes = new Map<string, number>();
  let failed = 0;
  let uncomputed: string | undefined;
  for (let i = 0; i < draws.count; i++) {
    let cause: string | undefined;
    if (columns.every((column) => Number.isFinite(column[i]))) {
      cause = guards.find(({ values }) => !(values[i]! > 0))?.fails;
      if (cause === undefined) continue;
    } else {
      // To ask each of them would cost a computation each; the first one speaks for all.
      uncomputed ??= model.failure(draws, i, asked)?.what ?? "a quantity is not a finite number";
      cause = uncomputed;
    }
    failed += 1;
    causes.set(cause, (causes.get(cause) ?? 0) + 1);
    for (const column of columns) column[i] = Number.NaN;
  }
  const [most] = [...causes].sort(([, a], [, b]) => b - a);
  return { samples, failed, ...(most && { cause: most[0] }) };
}
