import type { ErrorSample, ModelErrors } from "../../catalogue/index.ts";
import { log } from "../../numerics/special/elementary.ts";
import { errorBasis, LARGEST_TIMED, modelInterval } from "../model-error.ts";
import type { Compared } from "./compare.ts";
import { COMPARED_QUANTITIES, type ComparedQuantity } from "./plan.ts";
import { quantityError } from "./sample.ts";

/** The ratios of one quantity, over all kinds or within one. */
export interface Summary extends ErrorSample {
  readonly quantity: ComparedQuantity;
  readonly kind: string;
  /** Of all ratios, the one that is farthest from 1. */
  readonly worst: number;
  /** Factor that a new chip's ratio stays within, about the median, in 95 % of cases. */
  readonly factor?: number;
}

/** The factor that ratios should be within: a bound for the first three, an aim for what few chips give. */
export const WITHIN_OF: Readonly<Record<ComparedQuantity, number>> = {
  cell_area: 1.3,
  macro_area: 1.6,
  read_latency: 2,
  array_efficiency: 1.6,
  sensing_time: 2,
  write_latency: 2,
  read_energy_per_bit: 3,
  standby_power: 5,
};
/** Quantities that the evidence is held to. */
const BOUND: readonly ComparedQuantity[] = ["cell_area", "macro_area", "read_latency"];
/** From how many chips on a bound is tested. */
const TESTED_FROM = 8;
export const MEDIAN_FROM = 0.8;
export const MEDIAN_TO = 1.25;
export const SHARE_WITHIN = 0.8;
const COVERAGE = 0.95;
const ALL = "all";

/** Figures that say something of a macro: latencies of large parts are left out. */
function comparable(row: Compared): boolean {
  return row.quantity !== "read_latency" || row.capacity <= LARGEST_TIMED;
}

/** What `shared/evidence/model-error.yaml` holds: samples of ln ratio by quantity and kind. */
export function modelErrors(rows: readonly Compared[]): ModelErrors {
  const used = rows.filter(comparable).filter(({ ratio }) => ratio > 0 && Number.isFinite(ratio));
  const quantities = Object.keys(COMPARED_QUANTITIES).filter((name) =>
    used.some(({ quantity }) => quantity === name),
  );
  return Object.fromEntries(
    quantities.map((name) => [
      name,
      quantityError(used.filter(({ quantity }) => quantity === name)),
    ]),
  );
}

/** Summaries over all kinds, then by kind, of every quantity that has a ratio. */
export function summaries(rows: readonly Compared[]): Summary[] {
  const errors = modelErrors(rows);
  return Object.entries(errors).flatMap(([name, { all, kinds }]) => {
    const quantity = name as ComparedQuantity;
    const of = rows.filter((row) => row.quantity === quantity && comparable(row));
    const each = Object.entries(kinds);
    const summary = (kind: string, sample: ErrorSample): Summary => ({
      ...sample,
      quantity,
      kind,
      worst: worstOf(of.filter((row) => kind === ALL || row.kind === kind)),
      ...factorOf(quantity, sample),
    });
    return [
      summary(ALL, all),
      ...(each.length > 1 ? each.map(([kind, sample]) => summary(kind, sample)) : []),
    ];
  });
}

function factorOf(quantity: string, sample: ErrorSample): { readonly factor?: number } {
  const basis = errorBasis({ [quantity]: { all: sample, kinds: {} } }, quantity, ALL, COVERAGE);
  return basis === undefined ? {} : { factor: basis.factor };
}

function worstOf(rows: readonly Compared[]): number {
  const far = (ratio: number) => Math.abs(log(ratio));
  return rows.map(({ ratio }) => ratio).reduce((worst, x) => (far(x) > far(worst) ? x : worst), 1);
}

/** One bound and whether it holds; undefined where too few chips give the quantity. */
export interface Verdict {
  readonly quantity: ComparedQuantity;
  readonly chips: number;
  readonly median: number;
  readonly share: number;
  readonly within: number;
  readonly holds: boolean | undefined;
}

/** The evidence against its bounds; latencies only of parts that are small enough to be an array's. */
export function verdicts(rows: readonly Compared[]): Verdict[] {
  return BOUND.flatMap((quantity) => {
    const within = WITHIN_OF[quantity];
    const of = rows.filter((row) => row.quantity === quantity && comparable(row));
    if (of.length === 0) return [];
    const { chips, median } = quantityError(of).all;
    const near = of.filter(({ ratio }) => Math.abs(log(ratio)) <= log(within));
    const share = near.length / of.length;
    const met = median >= MEDIAN_FROM && median <= MEDIAN_TO && share >= SHARE_WITHIN;
    const holds = chips < TESTED_FROM ? undefined : met;
    return [{ quantity, chips, median, share, within, holds }];
  });
}

/** How often the model interval that the other chips give holds the published figure. */
export interface Coverage {
  readonly quantity: ComparedQuantity;
  readonly figures: number;
  readonly held: number;
}

/** Each figure against the interval that all others give, of every quantity with enough of them. */
export function heldByOthers(rows: readonly Compared[]): Coverage[] {
  const quantities = Object.keys(COMPARED_QUANTITIES) as ComparedQuantity[];
  return quantities.flatMap((quantity) => {
    const of = rows.filter((row) => row.quantity === quantity && comparable(row));
    const asked = of.flatMap((row) => {
      const errors = modelErrors(of.filter((other) => other !== row));
      const basis = errorBasis(errors, quantity, row.kind, COVERAGE);
      if (basis === undefined) return [];
      const { low, high } = modelInterval(row.predicted, quantity, basis);
      return [row.measured >= low && row.measured <= high];
    });
    if (asked.length === 0) return [];
    return [{ quantity, figures: asked.length, held: asked.filter(Boolean).length }];
  });
}
