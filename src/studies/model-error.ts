import type { ErrorSample, ModelErrors } from "../catalogue/index.ts";
import type { ResolvedDesign } from "../estimate/design.ts";
import { studentTailQuantile } from "../numerics/special/beta.ts";
import { exp, log, pow } from "../numerics/special/elementary.ts";

/** From to, in the unit of the figure; or of a ratio, without unit. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** What a model interval rests on. */
export interface ErrorBasis extends ErrorSample {
  /** Of the design. */
  readonly kind: string;
  /** A kind has too few chips for a spread of its own: the sample is of all kinds. */
  readonly pooled: boolean;
  /** Chips of the design's own kind, which may be none. */
  readonly own: number;
  /** A further chip is about the median within this factor, at the coverage asked for. */
  readonly factor: number;
}

/** A wider interval says nothing: two decades either way. */
const WIDEST = 100;

/** A kind with fewer chips takes the spread of all kinds. */
const KIND_FROM = 5;

/** Latencies of larger parts hold controller, pump and verify times: 64 Mib, and a macro is none of them. */
export const LARGEST_TIMED = 2 ** 26;

/**
 * The kind of memory that a design is, in the words of the evidence.
 *
 * A switch that is laid over none of the catalogue is taken for a resistive one.
 */
export function memoryKind({ cell }: Pick<ResolvedDesign, "cell">): string {
  if (cell.crosspoint !== undefined) return "crosspoint";
  const chain = [...(cell.baseline?.chain ?? []), ...(cell.switch?.chain ?? []), cell.kind];
  return KINDS.find(({ of }) => chain.some((name) => of.test(name)))?.kind ?? "resistive";
}

const KINDS: readonly { readonly kind: string; readonly of: RegExp }[] = [
  { kind: "static", of: /^sram-/ },
  { kind: "dynamic", of: /(^|-)dram-/ },
  { kind: "gain-cell", of: /^gain-/ },
  { kind: "floating-gate", of: /-flash$/ },
  { kind: "magnetic", of: /^magnetic-/ },
  { kind: "phase-change", of: /^phase-change/ },
];

/** All-CMOS cells have the area that process or paper give: nothing of it is predicted. */
const GIVEN_CELLS = new Set(["static", "dynamic", "gain-cell", "floating-gate"]);

/** Whether a quantity of such a memory is given to the models and not predicted by them. */
export function isGiven(quantity: string, kind: string): boolean {
  return quantity === "cell_area" && GIVEN_CELLS.has(kind);
}

/**
 * The sample that a quantity's error is taken from: the kind's own from five chips on, else that of
 * all kinds.
 *
 * @param coverage share of further chips that the factor holds
 * @returns undefined where fewer than three chips give the quantity or where they are so far apart that
 *   a further one may be anywhere, since no number is made up; and where the quantity is given
 */
export function errorBasis(
  errors: ModelErrors,
  quantity: string,
  kind: string,
  coverage: number,
): ErrorBasis | undefined {
  const found = errors[quantity];
  if (found === undefined || isGiven(quantity, kind)) return undefined;
  const ownSample = found.kinds[kind];
  const own = ownSample?.chips ?? 0;
  const pooled = own < KIND_FROM;
  const sample = pooled ? found.all : ownSample!;
  const { spread, effective } = sample;
  if (spread === undefined) return undefined;
  const half = student(coverage, effective - 1) * spread * Math.sqrt(1 + 1 / effective);
  const factor = exp(half);
  return factor > WIDEST ? undefined : { ...sample, kind, pooled, own, factor };
}

/** Memory of the quantiles: a study asks for the same few over and over. */
const quantiles = new Map<string, number>();

function student(coverage: number, freedom: number): number {
  const key = `${coverage} ${freedom}`;
  const known = quantiles.get(key);
  if (known !== undefined) return known;
  const made = studentTailQuantile((1 - coverage) / 2, freedom);
  quantiles.set(key, made);
  return made;
}

/**
 * Where a measurement would lie: value / (median × factor^±1). The bias that the chips show is in
 * the interval, and no figure is corrected by it.
 *
 * @param quantity a share can't exceed one
 */
export function modelInterval(value: number, quantity: string, basis: ErrorBasis): Interval {
  const { median, factor } = basis;
  const most = quantity === "array_efficiency" ? 1 : Number.POSITIVE_INFINITY;
  return {
    low: Math.min(most, value / (median * factor)),
    high: Math.min(most, (value / median) * factor),
  };
}

/**
 * The same for the ratio of two designs of one study.
 *
 * Designs are taken as two further chips: what chips of one kind have in common cancels where both
 * are of that kind, all else is taken as independent. Designs of one study share process and
 * defaults besides, which no pair of chips shows: the interval is an upper bound.
 */
export function ratioInterval(
  ratio: number,
  errors: ModelErrors,
  quantity: string,
  [left, right]: readonly [ErrorBasis, ErrorBasis],
  coverage: number,
): Interval {
  const same = left.kind === right.kind;
  if (same || (left.pooled && right.pooled)) {
    // One sample stands for both: its median cancels.
    const within = same && left.pooled ? errors[quantity]!.within : undefined;
    const { spread, freedom } = within ?? { spread: left.spread!, freedom: left.effective - 1 };
    const factor = exp(student(coverage, freedom) * spread * Math.SQRT2);
    return { low: ratio / factor, high: ratio * factor };
  }
  const parts = [left, right].map(({ spread, effective }) => ({
    variance: pow(spread!, 2) * (1 + 1 / effective),
    freedom: effective - 1,
  }));
  const variance = parts.reduce((sum, part) => sum + part.variance, 0);
  // Satterthwaite's number of degrees of freedom of a sum of two estimated variances.
  const freedom =
    pow(variance, 2) / parts.reduce((sum, part) => sum + pow(part.variance, 2) / part.freedom, 0);
  const factor = exp(student(coverage, freedom) * Math.sqrt(variance));
  const centre = exp(log(ratio) - log(left.median) + log(right.median));
  return { low: centre / factor, high: centre * factor };
}
