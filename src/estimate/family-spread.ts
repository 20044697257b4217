/** Coverage intervals of the points of a family: every point with the same draws. */
import { quantile } from "../numerics/quantile.ts";
import type { Draws } from "./draws.ts";
import {
  drawnNames,
  RATIO_NAMES,
  type Sourced,
  sourcedProgram,
  type Variant,
  type Wanted,
} from "./family-variant.ts";

/** Where the intervals of the points go, in SI; NaN where a point has none. */
export interface SpreadColumns {
  readonly draws: Draws;
  readonly coverage: number;
  /** One column per quantity. */
  readonly low: readonly Float64Array[];
  readonly high: readonly Float64Array[];
  /** Share of a point's draws in which it works. */
  readonly working: Float64Array;
}

/** Sets that are computed together. */
const AT_ONCE = 8192;

/** The draws of one variant's points. */
export class PointSpread {
  private readonly sourced: Sourced;
  private readonly drawn: readonly Float64Array[];
  private readonly outputs: readonly number[];
  private readonly guards: readonly number[];
  private readonly count: number;

  constructor(variant: Variant, wanted: Wanted, { draws }: SpreadColumns) {
    const { model, values, conditions } = variant;
    const names = [
      ...new Set([...wanted.quantities, ...conditions.map(({ quantity }) => quantity)]),
    ];
    const drawn = drawnNames(model, wanted);
    const ratios = variant.finding === undefined ? [] : RATIO_NAMES;
    this.sourced = sourcedProgram(model, wanted, ratios, drawn, values, names);
    this.drawn = drawn.map((name) => draws.of(model.design.parameters.get(name)!));
    const { compiled } = this.sourced;
    this.outputs = wanted.quantities.map((name) => compiled.names.indexOf(name));
    this.guards = conditions.map(({ quantity }) => compiled.names.indexOf(quantity));
    this.count = draws.count;
  }

  /**
   * @param working places among the points that have figures; @param points their numbers
   * @param point columns of the variant's inputs, as it was run with them
   */
  run(
    working: readonly number[],
    points: ArrayLike<number>,
    point: {
      readonly inputs: readonly Float64Array[];
      readonly ratios: readonly Float64Array[] | undefined;
      readonly layouts: { at(i: number): { readonly values: Float64Array } };
    },
    to: SpreadColumns,
  ): void {
    const { compiled, sources } = this.sourced;
    const { count } = this;
    const together = Math.max(1, Math.floor(AT_ONCE / count));
    const columns = compiled.inputs.map(() => new Float64Array(together * count));
    const results = compiled.names.map(() => new Float64Array(together * count));
    for (let start = 0; start < working.length; start += together) {
      const some = working.slice(start, start + together);
      for (const [c, { from, at, value }] of sources.entries()) {
        const column = columns[c]!;
        for (const [p, k] of some.entries()) {
          const i = points[k]!;
          if (from === "drawn") column.set(this.drawn[at]!, p * count);
          else {
            const same =
              from === "varied"
                ? point.inputs[at]![i]!
                : from === "layout"
                  ? point.layouts.at(i).values[at]!
                  : from === "ratio"
                    ? ratioAt(point.ratios, at, k)
                    : value;
            column.fill(same, p * count, (p + 1) * count);
          }
        }
      }
      compiled.evaluateMany(columns, some.length * count, results, "marked");
      for (const [p, k] of some.entries()) this.intervals(results, p * count, points[k]!, to);
    }
  }

  private intervals(
    results: readonly Float64Array[],
    from: number,
    i: number,
    { low, high, working, coverage }: SpreadColumns,
  ): void {
    const { count } = this;
    const works: number[] = [];
    for (let d = from; d < from + count; d++) {
      const finite = results.every((column) => Number.isFinite(column[d]!));
      if (finite && this.guards.every((at) => results[at]![d]! > 0)) works.push(d);
    }
    working[i] = works.length / count;
    if (works.length === 0) return;
    const tail = (1 - coverage) / 2;
    for (const [q, at] of this.outputs.entries()) {
      const rising = Float64Array.from(works, (d) => results[at]![d]!).sort();
      low[q]![i] = quantile(rising, tail);
      high[q]![i] = quantile(rising, 1 - tail);
    }
  }
}

/** One where no network was solved. */
function ratioAt(ratios: readonly Float64Array[] | undefined, at: number, k: number): number {
  return ratios === undefined ? 1 : ratios[at]![k]!;
}
