/** Repair by spare lines: exact counts where they are possible, bounds where they are not. */
import { refuse } from "../../errors/problem.ts";
import { binomialTail, clusteredTail, poissonTail } from "../../numerics/special/discrete.ts";
import { pow } from "../../numerics/special/elementary.ts";
import { sumOf } from "../../numerics/sum.ts";
import { reliabilityProcedure } from "./define.ts";

/** The binomial coefficient, exactly; 0 outside. */
export function choose(n: number, k: number): bigint {
  if (k < 0 || k > n) return 0n;
  let value = 1n;
  for (let i = 0; i < Math.min(k, n - k); i++) value = (value * BigInt(n - i)) / BigInt(i + 1);
  return value;
}

/** The nearest double (to 2^-60) of a ratio of whole numbers of any size. */
export function ratioOf(top: bigint, bottom: bigint): number {
  const shift = BigInt(Math.max(0, 64 + bottom.toString(2).length - top.toString(2).length));
  return Number((top << shift) / bottom) * pow(2, -Number(shift));
}

export interface Placements {
  /** Placements that need at most so many rows. */
  readonly good: bigint;
  readonly all: bigint;
}

/**
 * Placements of `shorts` shorted junctions on distinct junctions of an array whose shorted rows
 * number at most `spareRows`, by inclusion and exclusion.
 */
export function rowPlacements(
  rows: number,
  columns: number,
  shorts: number,
  spareRows: number,
): Placements {
  let good = 0n;
  for (let used = 0; used <= Math.min(spareRows, rows); used++) {
    let covering = 0n;
    for (let missed = 0; missed <= used; missed++) {
      const term = choose(used, missed) * choose(columns * (used - missed), shorts);
      covering += missed % 2 === 0 ? term : -term;
    }
    good += choose(rows, used) * covering;
  }
  return { good, all: choose(rows * columns, shorts) };
}

/** Probability that `shorts` random shorts are repaired by so many spare rows, and that not. */
export function rowRepair(
  rows: number,
  columns: number,
  shorts: number,
  spareRows: number,
): { repaired: number; lost: number } {
  const { good, all } = rowPlacements(rows, columns, shorts, spareRows);
  return { repaired: ratioOf(good, all), lost: ratioOf(all - good, all) };
}

/** Largest array whose patterns are counted one by one. */
const MOST_COUNTED = 20;

/**
 * How many patterns of k faulty cells at most `spareRows` rows and `spareColumns` columns cover,
 * for each k. All 2^(rows columns) patterns are looked at, each with its best cover.
 */
export function repairablePatterns(
  rows: number,
  columns: number,
  spareRows: number,
  spareColumns: number,
): number[] {
  const cells = rows * columns;
  if (!(cells <= MOST_COUNTED)) {
    refuse({
      code: "too-large",
      what: "patterns are counted one by one for small arrays only",
      got: `${rows} by ${columns}`,
      expected: `at most ${MOST_COUNTED} cells`,
      fix: "use the bound for larger arrays",
    });
  }
  const covers = coveredCells(rows, columns, spareRows);
  const counts = new Array<number>(cells + 1).fill(0);
  for (let pattern = 0; pattern < pow(2, cells); pattern++) {
    if (isRepairable(pattern, covers, rows, columns, spareColumns)) {
      const faulty = bitsOf(pattern);
      counts[faulty] = counts[faulty]! + 1;
    }
  }
  return counts;
}

/** Masks of the cells of every choice of spare rows. */
function coveredCells(rows: number, columns: number, spareRows: number): number[] {
  const masks: number[] = [];
  for (let choice = 0; choice < pow(2, rows); choice++) {
    if (bitsOf(choice) !== Math.min(spareRows, rows)) continue;
    let mask = 0;
    for (let r = 0; r < rows; r++) {
      if ((choice >> r) & 1) mask |= (pow(2, columns) - 1) << (r * columns);
    }
    masks.push(mask);
  }
  return masks;
}

function isRepairable(
  pattern: number,
  covers: readonly number[],
  rows: number,
  columns: number,
  spareColumns: number,
): boolean {
  return covers.some((cover) => {
    const left = pattern & ~cover;
    let used = 0;
    for (let r = 0; r < rows; r++) used |= (left >> (r * columns)) & (pow(2, columns) - 1);
    return bitsOf(used) <= spareColumns;
  });
}

function bitsOf(word: number): number {
  let count = 0;
  for (let w = word; w > 0; w &= w - 1) count++;
  return count;
}

/** Yield and loss when each cell is faulty with probability p, from the counts of patterns. */
export function patternYield(
  counts: readonly number[],
  p: number,
): { yielded: number; lost: number } {
  const cells = counts.length - 1;
  const weight = (k: number): number => pow(p, k) * pow(1 - p, cells - k);
  const lost = counts.map((good, k) => (Number(choose(cells, k)) - good) * weight(k));
  return { yielded: sumOf(counts.map((good, k) => good * weight(k))), lost: sumOf(lost) };
}

/**
 * Upper bound of the loss for arrays of any size: faults no more numerous than the spare lines
 * are always repairable.
 */
export function repairLossBound(cells: number, spareLines: number, p: number): number {
  return binomialTail(cells, spareLines + 1, p);
}

export const faultRepair = reliabilityProcedure(
  "fault_repair",
  {
    title: "Loss with repairable faults",
    about:
      "Probability of more faults than can be repaired, faults at random (Poisson) or clustered " +
      "(negative binomial); summed upward from its first term.",
    source: "yield-negbin",
  },
  ["faults", "clustering", "repairable_faults"],
  {
    random_repair_loss: { unit: "1", meaning: "loss, faults at random" },
    clustered_repair_loss: { unit: "1", meaning: "loss, faults clustered" },
  },
  (faults, clustering, repairable) => [
    poissonTail(repairable! + 1, faults!),
    clusteredTail(repairable! + 1, faults!, clustering!),
  ],
);
