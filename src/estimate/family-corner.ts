/** Far corners of many crossbars: each point has its own network where closed forms don't do. */

import type { SchemePair } from "../models/crossbar/contract.ts";
import type { SelectorKind } from "../models/selector/bias.ts";
import { closedBound } from "./crossbar/bound.ts";
import { cornerFinding, dropOf, hasClosedForm } from "./crossbar/ratios.ts";
import { RATIO_NAMES, roomReason, type Variant } from "./family-variant.ts";

/**
 * The ratios of network solve over closed form of many points, as an estimate of each would take
 * them: one wherever the closed forms do.
 *
 * @param results of the program with all ratios at one
 * @returns one column per ratio; undefined where closed forms do for all points
 */
export function cornerRatios(
  variant: Variant,
  results: readonly Float64Array[],
  count: number,
): Float64Array[] | undefined {
  const { finding, model } = variant;
  if (finding === undefined) return undefined;
  const { selectorKind, schemes } = model.design.cell as {
    selectorKind: SelectorKind;
    schemes: SchemePair;
  };
  const closed = hasClosedForm(selectorKind, schemes);
  const upTo = closed ? closedBound(schemes).upTo : 0;
  let columns: Float64Array[] | undefined;
  const values = new Map<string, number>();
  for (let k = 0; k < count; k++) {
    for (const [name, at] of finding) values.set(name, results[at]![k]!);
    if (closed && dropOf(values) <= upTo) continue;
    // What can't be built, or has no figure, is not solved.
    if (roomReason(variant, results, k) !== undefined) continue;
    if (![...values.values()].every(Number.isFinite)) continue;
    const { ratios } = cornerFinding(selectorKind, schemes, values);
    if (ratios.length === 0) continue;
    columns ??= RATIO_NAMES.map(() => new Float64Array(count).fill(1));
    for (const { name, value } of ratios) columns[RATIO_NAMES.indexOf(name)]![k] = value;
  }
  return columns;
}
