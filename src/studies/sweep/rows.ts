import type { Setting } from "../../schema/settings.ts";
import { meets, type SweepPlan } from "./plan.ts";

/** A value of a row; undefined where there is none. */
export type SweepValue = number | string | boolean | undefined;
export type SweepRow = readonly SweepValue[];

/** Points of a chunk: what workers take at a time, and what an interruption may lose. */
export const CHUNK = 4096;

/** How many chunks a sweep has. */
export function chunksOf({ total }: SweepPlan): number {
  return Math.ceil(total / CHUNK);
}

/**
 * The rows of one chunk, in the order of points and, within a point, of designs. A pure function
 * of plan and chunk: who computes it does not matter.
 */
export function sweepChunk(plan: SweepPlan, chunk: number): SweepRow[] {
  const start = chunk * CHUNK;
  const count = Math.min(CHUNK, plan.total - start);
  const places = placesOf(plan, start, count);
  const groups = bySettings(plan, places, count);
  const rows: SweepRow[][] = plan.designs.map(() => new Array<SweepRow>(count));
  for (const { settings, points } of groups) {
    const inputs = parameterColumns(plan, places, points);
    for (const [d, design] of plan.designs.entries()) {
      const family = plan.families(settings).get(design)!;
      const outputs = plan.quantities.map(() => new Float64Array(points.length).fill(Number.NaN));
      const reasons =
        typeof family === "string" ? undefined : family.evaluate(inputs, points.length, outputs);
      for (const [k, i] of points.entries()) {
        const reason = typeof family === "string" ? family : reasons![k];
        const figures = outputs.map((column) => column[k]!);
        const row = rowOf(plan, design, start + i, places, i, figures, reason);
        if (row !== undefined) rows[d]![i] = row;
      }
    }
  }
  const ordered: SweepRow[] = [];
  for (let i = 0; i < count; i++) {
    for (const column of rows) if (column[i] !== undefined) ordered.push(column[i]!);
  }
  return ordered;
}

/** For each axis, where on it each point of the chunk lies; the last axis is the fastest. */
function placesOf(plan: SweepPlan, start: number, count: number): Uint32Array[] {
  const places = plan.axes.map(() => new Uint32Array(count));
  for (let i = 0; i < count; i++) {
    let rest = start + i;
    for (let a = plan.axes.length - 1; a >= 0; a--) {
      const { length } = plan.axes[a]!;
      places[a]![i] = rest % length;
      rest = Math.floor(rest / length);
    }
  }
  return places;
}

/** The points that share all settings. */
function bySettings(plan: SweepPlan, places: readonly Uint32Array[], count: number) {
  const changing = plan.axes.flatMap(({ variables }, a) =>
    variables.some(({ kind }) => kind === "setting") ? [a] : [],
  );
  const groups = new Map<string, { settings: Setting[]; points: number[] }>();
  for (let i = 0; i < count; i++) {
    const key = changing.map((a) => places[a]![i]).join(" ");
    let group = groups.get(key);
    if (group === undefined) {
      const settings = changing.flatMap((a) =>
        plan.axes[a]!.variables.flatMap(({ name, kind, texts }) =>
          kind === "setting" ? [{ path: name, value: texts[places[a]![i]!]! }] : [],
        ),
      );
      group = { settings, points: [] };
      groups.set(key, group);
    }
    group.points.push(i);
  }
  return groups.values();
}

function parameterColumns(
  plan: SweepPlan,
  places: readonly Uint32Array[],
  points: readonly number[],
): Float64Array[] {
  return plan.axes.flatMap(({ variables }, a) =>
    variables
      .filter(({ kind }) => kind === "parameter")
      .map(({ values }) => Float64Array.from(points, (i) => values[places[a]![i]!]!)),
  );
}

/** Undefined where a condition does not hold. */
function rowOf(
  plan: SweepPlan,
  design: string,
  point: number,
  places: readonly Uint32Array[],
  i: number,
  figures: readonly number[],
  reason: string | undefined,
): SweepRow | undefined {
  const given: SweepValue[] = [];
  const known = new Map<string, number>();
  for (const [a, { variables }] of plan.axes.entries()) {
    for (const { name, kind, values, texts } of variables) {
      const at = places[a]![i]!;
      given.push(kind === "parameter" ? values[at] : texts[at]);
      if (plan.conditions.length > 0 && kind === "parameter") known.set(name, values[at]!);
    }
  }
  if (plan.conditions.length > 0) {
    for (const [q, name] of plan.quantities.entries()) known.set(name, figures[q]!);
    if (!meets(plan.conditions, (name) => known.get(name))) return undefined;
  }
  const shown = figures.map((figure) => (Number.isNaN(figure) ? undefined : figure));
  return [point, design, ...given, reason === undefined, ...shown, reason];
}

/**
 * All rows of a sweep, one after the other, in constant memory.
 *
 * @param plan from `planSweep`
 */
export async function* sweepRows(plan: SweepPlan): AsyncGenerator<SweepRow, void, void> {
  for (let chunk = 0; chunk < chunksOf(plan); chunk++) yield* sweepChunk(plan, chunk);
}
