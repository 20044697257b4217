/** What one design gives at the points of a chunk. */
import type { SpreadColumns } from "../../estimate/family-spread.ts";
import type { PointFamily } from "./families.ts";
import type { SweepPlan } from "./plan.ts";

/** Columns of figures of one design, a place for each point of a chunk. */
export class ChunkFigures {
  /** Why a point has no figures, by point. */
  readonly reasons: (string | undefined)[];
  /** Figures of each quantity; with intervals its low and high follow it, and the working share ends. */
  readonly columns: readonly Float64Array[];
  private readonly values: readonly Float64Array[];
  private readonly spread: SpreadColumns | undefined;
  private scratch: { readonly values: Float64Array[]; readonly spread?: SpreadColumns } | undefined;
  private readonly plan: SweepPlan;

  constructor(plan: SweepPlan, size: number) {
    this.plan = plan;
    this.reasons = new Array(size);
    const made = columnsOf(plan, size);
    this.values = made.values;
    this.spread = made.spread;
    const { spread } = this;
    this.columns =
      spread === undefined
        ? this.values
        : [
            ...this.values.flatMap((column, q) => [column, spread.low[q]!, spread.high[q]!]),
            spread.working,
          ];
  }

  clear(count: number): void {
    this.reasons.fill(undefined);
    for (const column of this.columns) column.fill(Number.NaN, 0, count);
  }

  /** @param points places of the inputs' points in the chunk */
  compute(
    family: PointFamily | string,
    inputs: readonly Float64Array[],
    points: ArrayLike<number>,
  ): void {
    const count = points.length;
    if (typeof family === "string") {
      for (let k = 0; k < count; k++) this.reasons[points[k]!] = family;
      return;
    }
    // All points in their order: nothing has to be moved.
    if (count > 0 && points[0] === 0 && points[count - 1] === count - 1) {
      const reasons = family.evaluate(inputs, count, this.values, this.spread);
      for (let k = 0; k < count; k++) this.reasons[k] = reasons[k];
      return;
    }
    this.scratch ??= columnsOf(this.plan, this.reasons.length);
    const { values, spread } = this.scratch;
    const from =
      spread === undefined ? values : [...values, ...spread.low, ...spread.high, spread.working];
    const own = this.spread;
    const to =
      own === undefined ? this.values : [...this.values, ...own.low, ...own.high, own.working];
    for (const column of from) column.fill(Number.NaN, 0, count);
    const reasons = family.evaluate(inputs, count, values, spread);
    for (let k = 0; k < count; k++) this.reasons[points[k]!] = reasons[k];
    for (const [c, column] of from.entries()) {
      for (let k = 0; k < count; k++) to[c]![points[k]!] = column[k]!;
    }
  }
}

function columnsOf({ quantities, spread }: SweepPlan, size: number) {
  const made = () => quantities.map(() => new Float64Array(size));
  const values = made();
  if (spread === undefined) return { values };
  return {
    values,
    spread: { ...spread, low: made(), high: made(), working: new Float64Array(size) },
  };
}
