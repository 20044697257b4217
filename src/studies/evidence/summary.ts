import { quantile } from "../../numerics/quantile.ts";
import type { Compared } from "./compare.ts";
import type { ComparedQuantity } from "./plan.ts";

/** What a value from memory weighs; one that was read weighs 1. A choice of this project. */
const RECALLED_WEIGHT = 0.5;

/** Two-sided 95 % points of Student's distribution for 1, 2, ... degrees of freedom (tables of any handbook). */
const STUDENT = [12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228];
const STUDENT_20 = 2.086;
const NORMAL = 1.96;

/** The ratios of one quantity, over all kinds or within one. */
export interface Summary {
  readonly quantity: ComparedQuantity;
  readonly kind: string;
  readonly count: number;
  readonly recalled: number;
  /** Weighted median of predicted over measured. */
  readonly median: number;
  /** Of all ratios, the one that is farthest from 1. */
  readonly worst: number;
  /** Share of the chips within `within`, where a bound is set. */
  readonly share?: number;
  /** Weighted standard deviation of ln ratio about its mean; undefined for one chip. */
  readonly sigma?: number;
  /** Factor that a new chip's ratio stays within, about the median, in 95 % of cases. */
  readonly factor?: number;
}

/** Bounds that the evidence is held to: the factor that 80 % of chips must be within. */
export const WITHIN: Readonly<Partial<Record<ComparedQuantity, number>>> = {
  cell_area: 1.3,
  macro_area: 1.6,
  read_latency: 2,
};
/** From how many chips on a bound is tested. */
export const TESTED_FROM = 8;
export const MEDIAN_FROM = 0.8;
export const MEDIAN_TO = 1.25;
export const SHARE_WITHIN = 0.8;
/** Latencies of larger parts hold controller and verify times: 64 Mib. */
export const LARGEST_TIMED = 2 ** 26;

/**
 * The summary of the ratios of one quantity.
 *
 * The spread is widened for few chips as the prediction interval of a normal sample:
 * t(n − 1) σ √(1 + 1/n), with n the effective number (Σw)²/Σw² of weighted values.
 */
export function summarise(
  quantity: ComparedQuantity,
  kind: string,
  all: readonly Compared[],
): Summary {
  const rows = all.filter((row) => row.ratio > 0 && Number.isFinite(row.ratio));
  const weights = rows.map(({ recalled }) => (recalled ? RECALLED_WEIGHT : 1));
  const logs = rows.map(({ ratio }) => Math.log(ratio));
  const total = weights.reduce((sum, w) => sum + w, 0);
  const mean = logs.reduce((sum, x, i) => sum + x * weights[i]!, 0) / total;
  const effective = total ** 2 / weights.reduce((sum, w) => sum + w * w, 0);
  const squares = logs.reduce((sum, x, i) => sum + weights[i]! * (x - mean) ** 2, 0);
  const within = WITHIN[quantity];
  const sigma =
    rows.length < 2 ? undefined : Math.sqrt((squares / total) * (effective / (effective - 1)));
  return {
    quantity,
    kind,
    count: rows.length,
    recalled: rows.filter(({ recalled }) => recalled).length,
    median: Math.exp(weightedMedian(logs, weights)),
    worst: Math.exp(logs.reduce((far, x) => (Math.abs(x) > Math.abs(far) ? x : far), 0)),
    ...(within !== undefined && {
      share: logs.filter((x) => Math.abs(x) <= Math.log(within)).length / rows.length,
    }),
    ...(sigma !== undefined && {
      sigma,
      factor: Math.exp(student(effective - 1) * sigma * Math.sqrt(1 + 1 / effective)),
    }),
  };
}

function student(freedom: number): number {
  const whole = Math.max(1, Math.floor(freedom));
  return STUDENT[whole - 1] ?? (whole < 20 ? STUDENT.at(-1)! : whole < 60 ? STUDENT_20 : NORMAL);
}

/** The value with half of the weight on each side; equal weights give the common median. */
function weightedMedian(values: readonly number[], weights: readonly number[]): number {
  const units = weights.flatMap((w, i) =>
    Array<number>(Math.round(w / RECALLED_WEIGHT)).fill(values[i]!),
  );
  return quantile(Float64Array.from(units).sort(), 0.5);
}

/** Summaries over all kinds, then by kind, of every quantity that has a ratio. */
export function summaries(rows: readonly Compared[]): Summary[] {
  const quantities = [...new Set(rows.map(({ quantity }) => quantity))];
  return quantities.flatMap((quantity) => {
    const of = rows.filter((row) => row.quantity === quantity);
    const kinds = [...new Set(of.map(({ kind }) => kind))];
    return [
      summarise(quantity, "all", of),
      ...(kinds.length > 1
        ? kinds.map((kind) =>
            summarise(
              quantity,
              kind,
              of.filter((row) => row.kind === kind),
            ),
          )
        : []),
    ];
  });
}

/** One bound and whether it holds; undefined where too few chips give the quantity. */
export interface Verdict {
  readonly quantity: ComparedQuantity;
  readonly count: number;
  readonly median: number;
  readonly share: number;
  readonly within: number;
  readonly holds: boolean | undefined;
}

/** The evidence against its bounds; latencies only of parts that are small enough to be an array's. */
export function verdicts(rows: readonly Compared[]): Verdict[] {
  return Object.entries(WITHIN).flatMap(([name, within]) => {
    const quantity = name as ComparedQuantity;
    const timed = (row: Compared) => quantity !== "read_latency" || row.capacity <= LARGEST_TIMED;
    const of = rows.filter((row) => row.quantity === quantity && timed(row));
    if (of.length === 0) return [];
    const { count, median, share } = summarise(quantity, "all", of);
    const met = median >= MEDIAN_FROM && median <= MEDIAN_TO && share! >= SHARE_WITHIN;
    return [
      {
        quantity,
        count,
        median,
        share: share!,
        within,
        holds: count < TESTED_FROM ? undefined : met,
      },
    ];
  });
}
