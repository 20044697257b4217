/** A point with its figures of merit; small is good. */
export interface Scored {
  /** In the order of the grid. */
  readonly index: number;
  readonly places: readonly number[];
  readonly aims: readonly number[];
}

/** What was found so far, and what it rules out. */
export interface Archive {
  add(point: Scored): void;
  /** Whether no point with figures at or above these can still be of interest. */
  excludes(lower: readonly number[]): boolean;
  /** A typical size of each aim. */
  scales(aims: number): number[];
  points(): Scored[];
}

function compare(a: Scored, b: Scored): number {
  return a.aims[0]! - b.aims[0]! || a.index - b.index;
}

/** The best points by one aim. */
export class BestPoints implements Archive {
  private readonly most: number;
  private kept: Scored[] = [];

  constructor(most: number) {
    this.most = most;
  }

  add(point: Scored): void {
    this.kept.push(point);
    this.kept.sort(compare);
    this.kept = this.kept.slice(0, this.most);
  }

  excludes([lower]: readonly number[]): boolean {
    return this.kept.length === this.most && lower! > this.kept.at(-1)!.aims[0]!;
  }

  scales(aims: number): number[] {
    return scalesOf(this.kept, aims);
  }

  points(): Scored[] {
    return this.kept;
  }
}

/** The trade-off front: points that no other is at least as good as in all aims and better in one. */
export class FrontPoints implements Archive {
  private kept: Scored[] = [];

  add(point: Scored): void {
    if (this.kept.some((one) => covers(one, point))) return;
    this.kept = this.kept.filter((one) => !covers(point, one));
    this.kept.push(point);
  }

  excludes(lower: readonly number[]): boolean {
    return this.kept.some(
      ({ aims }) => aims.every((x, k) => x <= lower[k]!) && aims.some((x, k) => x < lower[k]!),
    );
  }

  scales(aims: number): number[] {
    return scalesOf(this.kept, aims);
  }

  /** By the first aim. */
  points(): Scored[] {
    return [...this.kept].sort(compare);
  }
}

/** Whether a point makes another superfluous; of equal points the earlier one stays. */
function covers(a: Scored, b: Scored): boolean {
  if (!a.aims.every((x, k) => x <= b.aims[k]!)) return false;
  return a.aims.some((x, k) => x < b.aims[k]!) || a.index < b.index;
}

function scalesOf(points: readonly Scored[], aims: number): number[] {
  return Array.from({ length: aims }, (_, k) => {
    const least = Math.min(...points.map((point) => Math.abs(point.aims[k]!)));
    return Number.isFinite(least) && least > 0 ? least : 1;
  });
}
