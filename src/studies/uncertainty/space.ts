import { RandomStream } from "../../numerics/sampling/random.ts";
import { SobolSequence } from "../../numerics/sampling/sobol.ts";
import { quantileFunction } from "../../quantities/distribution.ts";
import type { Parameter } from "../../quantities/parameter.ts";
import {
  type CorrelatedGroup,
  correlate,
  correlatedGroups,
  type RankCorrelation,
} from "./correlation.ts";

/** How points of the space of parameters are chosen. */
export type Sampling = "low-discrepancy" | "pseudo-random";

/** Between the seeds, or the indices, of two batches. */
const APART = 2 ** 32;

/** The space of the parameters of a model: from uniform numbers to values with their distributions. */
export class ParameterSpace {
  readonly parameters: readonly Parameter[];
  readonly groups: readonly CorrelatedGroup[];
  private readonly quantiles: readonly ((p: number) => number)[];

  /** @throws TenfoldError `impossible-correlation` */
  constructor(parameters: readonly Parameter[], correlations: readonly RankCorrelation[] = []) {
    this.parameters = parameters;
    this.groups = correlatedGroups(correlations);
    this.quantiles = parameters.map(quantileFunction);
  }

  /**
   * Values of points of the unit cube.
   *
   * @param uniform one column per parameter, independent; overwritten
   */
  values(uniform: readonly Float64Array[], count: number): readonly Float64Array[] {
    correlate(this.groups, uniform, count);
    for (const [k, column] of uniform.entries()) this.valuesOf(k, column, count);
    return uniform;
  }

  /** Values of one parameter from its own uniform column, which is overwritten. */
  valuesOf(k: number, uniform: Float64Array, count: number): Float64Array {
    const quantile = this.quantiles[k]!;
    for (let i = 0; i < count; i++) uniform[i] = quantile(uniform[i]!);
    return uniform;
  }

  /** Places of the parameters that are drawn together, then of each other one alone. */
  blocks(): readonly (readonly number[])[] {
    const together = new Set(this.groups.flatMap(({ members }) => members));
    const alone = this.parameters.flatMap((_, k) => (together.has(k) ? [] : [[k]]));
    return [...this.groups.map(({ members }) => members), ...alone];
  }
}

/**
 * Points of the unit cube in batches that are independent of each other: each has a scramble of
 * its own, or indices of its own of the same random streams.
 */
export class UniformBatches {
  private readonly sampling: Sampling;
  private readonly seed: number;
  private readonly keys: readonly string[];
  private batch = -1;
  private sequence: SobolSequence | undefined;

  /** @param keys one per dimension: a stream or a scramble depends on the seed and its key */
  constructor(sampling: Sampling, seed: number, keys: readonly string[]) {
    this.sampling = sampling;
    this.seed = seed;
    this.keys = keys;
  }

  /** Points `start` ... `start + count - 1` of a batch, one column per dimension. */
  points(batch: number, start: number, count: number): Float64Array[] {
    const columns = this.keys.map(() => new Float64Array(count));
    if (this.keys.length === 0) return columns;
    if (this.sampling === "pseudo-random") {
      for (const [k, key] of this.keys.entries()) {
        new RandomStream(this.seed, key).fill(columns[k]!, batch * APART + start);
      }
      return columns;
    }
    if (this.sequence === undefined || this.batch !== batch) {
      const seed = this.seed + batch * APART;
      this.sequence = new SobolSequence(this.keys.length, { seed, keys: this.keys });
      this.batch = batch;
    }
    this.sequence.fill(columns, start, count);
    return columns;
  }
}
