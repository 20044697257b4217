/**
 * Nonlinear least squares: Levenberg and Marquardt's method with the scaling of "The
 * Levenberg-Marquardt algorithm: implementation and theory", Lecture Notes in Mathematics 630
 * (1978) 105-116, doi 10.1007/BFb0067700, and the damping of "Damping parameter in Marquardt's
 * method", report IMM-REP-1999-05, Technical University of Denmark (1999).
 */
import { fail } from "../../errors/problem.ts";
import { sqrt } from "../special/elementary.ts";
import { lengthOfColumn, type Rows, reduce, solveTriangle } from "./orthogonal.ts";
import { type Fit, summary } from "./summary.ts";

export type Residuals = (parameters: readonly number[]) => readonly number[];

export interface FitOptions {
  readonly steps?: number;
  /** Ends when a step is no longer than this, relative to the parameters, in their scales. */
  readonly relative?: number;
  /** Step of the differences that make the slopes, relative to a parameter, or absolute at 0. */
  readonly difference?: number;
  /** Ends of the parameters' ranges; none where absent. */
  readonly low?: readonly number[];
  readonly high?: readonly number[];
}

/** The cosine between residuals and slopes below which no step can help. */
const ORTHOGONAL = 1e-11;
const FIRST_DAMPING = 1e-3;
/** More damping than this leaves no step that a double can add. */
const MOST_DAMPING = 1e40;

/**
 * The parameters that minimise the sum of squared residuals, from a start near them, between the
 * ends of their ranges. Slopes by central differences.
 *
 * @throws TenfoldError `too-few-points` without more residuals than parameters; `fit-undetermined`
 *   when the residuals do not depend on a parameter; `fit-not-settled` when it finds no minimum
 */
export function fitLeastSquares(
  residuals: Residuals,
  start: readonly number[],
  options: FitOptions = {},
): Fit {
  return new Search(residuals, start, options).run();
}

class Search {
  private readonly residuals: Residuals;
  private readonly options: FitOptions;
  private x: readonly number[];
  private r: readonly number[];
  private readonly scales: Float64Array;
  private damping = FIRST_DAMPING;
  private growth = 2;

  constructor(residuals: Residuals, start: readonly number[], options: FitOptions) {
    this.residuals = residuals;
    this.options = options;
    this.x = start.map((v, k) => this.inside(v, k));
    this.r = [...residuals(this.x)];
    this.scales = new Float64Array(start.length);
    if (this.r.length > start.length) return;
    fail({
      code: "too-few-points",
      what: `a fit of ${start.length} parameters needs more than ${this.r.length} points`,
    });
  }

  run(): Fit {
    const most = this.options.steps ?? 500;
    for (let step = 1; step <= most; step++) {
      const slopes = this.slopes();
      const free = this.freeOf(slopes);
      if (this.isFlat(slopes, free)) return this.done(slopes, free, step);
      if (this.descend(slopes, free)) return this.done(this.slopes(), free, step);
    }
    return this.giveUp();
  }

  private done(slopes: Rows, free: readonly boolean[], steps: number): Fit {
    return summary(this.x, this.r, slopes, free, steps);
  }

  private giveUp(): never {
    return fail({
      code: "fit-not-settled",
      what: "the fit did not settle in the allowed number of steps",
      got: this.x.join(", "),
      fix: "start nearer, or fit fewer parameters",
    });
  }

  private inside(value: number, k: number): number {
    const { low, high } = this.options;
    return Math.min(Math.max(value, low?.[k] ?? -Infinity), high?.[k] ?? Infinity);
  }

  /** Central differences, one-sided at the ends of a range; scales only ever grow. */
  private slopes(): Rows {
    const [rows, columns] = [this.r.length, this.x.length];
    const entries = new Float64Array(rows * columns);
    this.x.forEach((value, k) => {
      const h = (this.options.difference ?? 1e-5) * (Math.abs(value) || 1);
      const [above, below] = [this.inside(value + h, k), this.inside(value - h, k)];
      const at = (moved: number) => this.residuals(this.x.map((w, j) => (j === k ? moved : w)));
      const [up, down] = [at(above), at(below)];
      for (let i = 0; i < rows; i++) {
        entries[i * columns + k] = (up[i]! - down[i]!) / (above - below);
      }
    });
    const slopes = { rows, columns, entries };
    this.scales.forEach((scale, k) => {
      this.scales[k] = Math.max(scale, requireSlope(lengthOfColumn(slopes, k), k));
    });
    return slopes;
  }

  /** Which parameters can move: not those at an end of their range that are pulled beyond it. */
  private freeOf(slopes: Rows): boolean[] {
    return this.x.map((value, k) => {
      const pull = this.along(slopes, k);
      return pull === 0 || value !== this.inside(pull > 0 ? -Infinity : Infinity, k);
    });
  }

  /** Whether the residuals are as good as orthogonal to the slopes of all free parameters. */
  private isFlat(slopes: Rows, free: readonly boolean[]): boolean {
    const size = sqrt(squares(this.r));
    return free.every((isFree, k) => {
      const most = ORTHOGONAL * lengthOfColumn(slopes, k) * size;
      return !isFree || Math.abs(this.along(slopes, k)) <= most;
    });
  }

  /** The sum of the residuals times the slopes of a parameter. */
  private along({ columns, entries }: Rows, k: number): number {
    return this.r.reduce((sum, r, i) => sum + r * entries[i * columns + k]!, 0);
  }

  /** Takes one step downwards; true when it is too short to matter. */
  private descend(slopes: Rows, free: readonly boolean[]): boolean {
    while (this.damping < MOST_DAMPING) {
      const step = this.dampedStep(slopes, free);
      const next = this.x.map((v, k) => this.inside(v + step[k]!, k));
      const change = next.map((v, k) => v - this.x[k]!);
      const after = this.residuals(next);
      const [before, now] = [squares(this.r), squares(after)];
      const small = this.scaled(change) <= (this.options.relative ?? 1e-10) * this.scaled(this.x);
      if (now <= before) {
        const gain = (before - now) / this.predictedGain(slopes, change, before);
        this.x = next;
        this.r = [...after];
        const bend = 2 * gain - 1;
        this.damping *= Math.max(1 / 3, 1 - bend * bend * bend);
        this.growth = 2;
        return small;
      }
      if (small) return true;
      this.damping *= this.growth;
      this.growth *= 2;
    }
    return this.giveUp();
  }

  private dampedStep({ rows, columns, entries }: Rows, free: readonly boolean[]): Float64Array {
    const whole = new Float64Array((rows + columns) * columns);
    whole.set(entries);
    const rhs = new Float64Array(rows + columns);
    for (let i = 0; i < rows; i++) rhs[i] = -this.r[i]!;
    free.forEach((isFree, k) => {
      for (let i = 0; i < rows && !isFree; i++) whole[i * columns + k] = 0;
      whole[(rows + k) * columns + k] = isFree ? sqrt(this.damping) * this.scales[k]! : 1;
    });
    const reduced = reduce({ rows: rows + columns, columns, entries: whole }, rhs);
    return solveTriangle(reduced.triangle, reduced.rhs);
  }

  /** By how much the slopes alone would lower the sum of squares. */
  private predictedGain({ columns, entries }: Rows, change: readonly number[], before: number) {
    const linear = this.r.map((r, i) => {
      return change.reduce((sum, c, k) => sum + entries[i * columns + k]! * c, r);
    });
    return Math.max(before - squares(linear), Number.MIN_VALUE);
  }

  private scaled(values: readonly number[]): number {
    return sqrt(squares(values.map((v, k) => v * this.scales[k]!)));
  }
}

function squares(r: readonly number[]): number {
  return r.reduce((total, v) => total + v * v, 0);
}

function requireSlope(length: number, k: number): number {
  if (length > 0 && Number.isFinite(length)) return length;
  return fail({
    code: "fit-undetermined",
    what: `the points do not depend on parameter ${k + 1} of the fit`,
    fix: "leave that parameter out of the fit",
  });
}
