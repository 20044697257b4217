import { type Archive, BestPoints, FrontPoints, type Scored } from "./archive.ts";

/** A grid of points with figures of merit that shall be small. */
export interface SearchSpace {
  /** Points along each axis. */
  readonly sizes: readonly number[];
  readonly aims: number;
  /** Figures of merit of points, by their places on the axes; undefined where a point is not allowed. */
  evaluate(points: readonly (readonly number[])[]): (readonly number[] | undefined)[];
  /**
   * Figures that no point of a box goes below; `impossible` where none is allowed, undefined where
   * nothing can be said.
   *
   * @param from first places on the axes; @param to last places, included
   */
  bound(
    from: readonly number[],
    to: readonly number[],
  ): readonly number[] | "impossible" | undefined;
  /** How wide a box is along an axis: the widest is cut first. */
  width(axis: number, from: number, to: number): number;
}

export interface SearchResult {
  readonly found: readonly Scored[];
  /** Points that were computed. */
  readonly evaluations: number;
  /** Boxes whose bounds were computed. */
  readonly bounds: number;
}

export interface SearchOptions {
  /** How many of the best are kept where there is one aim; more aims give their whole front. */
  readonly best: number;
  /** Told how many points are decided: computed, or in a box that was left out. */
  readonly onProgress?: (done: number) => void;
}

/** Boxes of so few points are computed point by point: a bound costs more than a few points together. */
const LEAF = 2;
/** Points that are computed together, in columns. */
const TOGETHER = 32;
/** Relative error that is granted to a bound before it rules a box out. */
const GUARD = 1e-9;
const FIRST_POINTS = 64;

interface Box {
  readonly from: readonly number[];
  readonly to: readonly number[];
  readonly lower: readonly number[];
  /** What orders the boxes: the smallest first. */
  readonly key: number;
}

type Corners = Pick<Box, "from" | "to">;

/**
 * The best points of a grid, exactly, without computing most of them: boxes whose bounds show that
 * they hold nothing better are left out (branch and bound, "An automatic method of solving discrete
 * programming problems", Econometrica 28 (1960) 497-520, doi 10.2307/1910129).
 *
 * Points with equal figures: the one whose places come first in the order of the grid is kept.
 */
export function searchGrid(space: SearchSpace, options: SearchOptions): SearchResult {
  const archive = archiveOf(space, options);
  const search = new Search(space, archive, options);
  return search.run();
}

/** The same by computing every point: what the search is held against. */
export function searchEverything(space: SearchSpace, options: SearchOptions): SearchResult {
  const archive = archiveOf(space, options);
  const total = space.sizes.reduce((a, b) => a * b, 1);
  const step = 4096;
  for (let start = 0; start < total; start += step) {
    const points = Array.from({ length: Math.min(step, total - start) }, (_, i) =>
      placesOf(space.sizes, start + i),
    );
    for (const [i, aims] of space.evaluate(points).entries()) {
      if (aims !== undefined) archive.add({ index: start + i, places: points[i]!, aims });
    }
    options.onProgress?.(Math.min(start + step, total));
  }
  return { found: archive.points(), evaluations: total, bounds: 0 };
}

function archiveOf({ aims }: SearchSpace, { best }: SearchOptions): Archive {
  return aims === 1 ? new BestPoints(best) : new FrontPoints();
}

class Search {
  private readonly space: SearchSpace;
  private readonly archive: Archive;
  private readonly options: SearchOptions;
  private readonly heap: Box[] = [];
  private evaluations = 0;
  private bounds = 0;
  private decided = 0;
  private readonly seen = new Set<number>();
  private scales: readonly number[] = [];

  constructor(space: SearchSpace, archive: Archive, options: SearchOptions) {
    this.space = space;
    this.archive = archive;
    this.options = options;
  }

  run(): SearchResult {
    const { sizes, aims } = this.space;
    this.seed();
    this.scales = this.archive.scales(aims);
    const nothing = new Array<number>(aims).fill(Number.NEGATIVE_INFINITY);
    this.push({ from: sizes.map(() => 0), to: sizes.map((n) => n - 1) }, nothing);
    let waiting: number[][] = [];
    for (;;) {
      const box = this.pop();
      if (waiting.length > 0 && (box === undefined || waiting.length >= TOGETHER)) {
        this.evaluate(waiting);
        waiting = [];
      }
      if (box === undefined) break;
      if (this.archive.excludes(box.lower)) {
        this.decided += pointsIn(box);
        continue;
      }
      if (pointsIn(box) <= LEAF) {
        waiting.push(...placesIn(box));
        this.decided += pointsIn(box);
      } else for (const half of this.halves(box)) this.consider(half);
      this.options.onProgress?.(this.decided);
    }
    return { found: this.archive.points(), evaluations: this.evaluations, bounds: this.bounds };
  }

  /** A few points all over the grid, so that bounds have something to be held against. */
  private seed(): void {
    const { sizes } = this.space;
    const total = sizes.reduce((a, b) => a * b, 1);
    const count = Math.min(FIRST_POINTS, total);
    // The fractional parts of multiples of the golden ratio lie evenly.
    const spread = (i: number): number => Math.floor(((i * 0.6180339887498949) % 1) * total);
    const indices = new Set(Array.from({ length: count }, (_, i) => spread(i)));
    this.evaluate([...indices].map((index) => placesOf(sizes, index)));
  }

  private evaluate(points: readonly (readonly number[])[]): void {
    const fresh = points
      .map((places) => ({ places, index: indexOf(this.space.sizes, places) }))
      .filter(({ index }) => !this.seen.has(index));
    if (fresh.length === 0) return;
    this.evaluations += fresh.length;
    const results = this.space.evaluate(fresh.map(({ places }) => places));
    for (const [i, { places, index }] of fresh.entries()) {
      this.seen.add(index);
      const aims = results[i];
      if (aims !== undefined) this.archive.add({ index, places, aims });
    }
  }

  private consider(box: Corners): void {
    this.bounds += 1;
    const lower = this.space.bound(box.from, box.to);
    if (lower === "impossible") {
      this.decided += pointsIn(box);
      return;
    }
    const guarded = (
      lower ?? new Array<number>(this.space.aims).fill(Number.NEGATIVE_INFINITY)
    ).map((x) => x - GUARD * Math.abs(x));
    if (this.archive.excludes(guarded)) this.decided += pointsIn(box);
    else this.push(box, guarded);
  }

  /** The box cut in two along its widest axis. */
  private halves({ from, to }: Box): Corners[] {
    let axis = -1;
    let widest = Number.NEGATIVE_INFINITY;
    for (let a = 0; a < from.length; a++) {
      if (from[a] === to[a]) continue;
      const width = this.space.width(a, from[a]!, to[a]!);
      if (width > widest) [axis, widest] = [a, width];
    }
    const middle = Math.floor((from[axis]! + to[axis]!) / 2);
    const cut = (places: readonly number[], at: number): number[] =>
      places.map((place, a) => (a === axis ? at : place));
    return [
      { from, to: cut(to, middle) },
      { from: cut(from, middle + 1), to },
    ];
  }

  /** The most promising box first: the sum of its lower bounds, each over its scale. */
  private push({ from, to }: Corners, lower: readonly number[]): void {
    const { heap, scales } = this;
    let key = 0;
    for (let k = 0; k < lower.length; k++) key += lower[k]! / (scales[k] ?? 1);
    let at = heap.push({ from, to, lower, key }) - 1;
    while (at > 0) {
      const parent = (at - 1) >> 1;
      if (heap[parent]!.key <= heap[at]!.key) break;
      [heap[parent], heap[at]] = [heap[at]!, heap[parent]!];
      at = parent;
    }
  }

  private pop(): Box | undefined {
    const { heap } = this;
    const [top] = heap;
    const last = heap.pop();
    if (heap.length === 0 || last === undefined) return top;
    heap[0] = last;
    for (let at = 0; ; ) {
      let least = at;
      for (const child of [2 * at + 1, 2 * at + 2]) {
        if (child < heap.length && heap[child]!.key < heap[least]!.key) least = child;
      }
      if (least === at) return top;
      [heap[least], heap[at]] = [heap[at]!, heap[least]!];
      at = least;
    }
  }
}

function pointsIn({ from, to }: Corners): number {
  return from.reduce((product, low, a) => product * (to[a]! - low + 1), 1);
}

function placesIn({ from, to }: Corners): number[][] {
  let points: number[][] = [[]];
  for (const [a, low] of from.entries()) {
    const along = Array.from({ length: to[a]! - low + 1 }, (_, i) => low + i);
    points = points.flatMap((places) => along.map((place) => [...places, place]));
  }
  return points;
}

/** The places of a point in the order of the grid; the last axis is the fastest. */
export function placesOf(sizes: readonly number[], index: number): number[] {
  const places = new Array<number>(sizes.length);
  let rest = index;
  for (let a = sizes.length - 1; a >= 0; a--) {
    places[a] = rest % sizes[a]!;
    rest = Math.floor(rest / sizes[a]!);
  }
  return places;
}

function indexOf(sizes: readonly number[], places: readonly number[]): number {
  return places.reduce((index, place, a) => index * sizes[a]! + place, 0);
}
