import { RandomStream } from "../numerics/sampling/random.ts";
import { quantileFunction } from "../quantities/distribution.ts";
import type { Parameter } from "../quantities/parameter.ts";

/**
 * Draws of parameters, keyed so that designs which share a parameter share its draws.
 *
 * Each parameter's range is cut into `count` equally probable strata, each stratum is drawn from once, and the strata
 * come in an order that depends on the seed and the parameter's key alone (Latin hypercube sampling, "A comparison of
 * three methods for selecting values of input variables", Technometrics 21(2), 1979). A study may therefore gain or
 * lose a parameter without moving the draws of the others.
 */
export class Draws {
  readonly count: number;
  private readonly seed: number;
  private readonly strata = new Map<string, Float64Array>();
  private readonly drawn = new Map<string, Float64Array>();

  constructor(seed: number, count: number) {
    this.seed = seed;
    this.count = count;
  }

  /** The draws of a parameter in SI, one for each sample; an exact one is constant. Not to be written to. */
  of(parameter: Parameter): Float64Array {
    const shape = [
      parameter.key,
      parameter.distribution,
      parameter.value,
      parameter.low,
      parameter.high,
    ].join("|");
    const known = this.drawn.get(shape);
    if (known) return known;
    const made = this.make(parameter);
    this.drawn.set(shape, made);
    return made;
  }

  private make(parameter: Parameter): Float64Array {
    const { count } = this;
    if (isExact(parameter)) return new Float64Array(count).fill(parameter.value);
    const quantile = quantileFunction(parameter);
    return this.probabilities(parameter.key).map((p) => quantile(p));
  }

  /** One probability in each stratum, in the key's own order. */
  private probabilities(key: string): Float64Array {
    const known = this.strata.get(key);
    if (known) return known;
    const { count } = this;
    const stream = new RandomStream(this.seed, key);
    const made = new Float64Array(count);
    // One block of the generator gives four words: two place the draw in its stratum, two shuffle the strata.
    for (let i = 0; i < count; i++) {
      const words = stream.words(i);
      made[i] = (i + unit(words[0]!, words[1]!)) / count;
      const j = Math.floor(unit(words[2]!, words[3]!) * (i + 1));
      const swapped = made[i]!;
      made[i] = made[j]!;
      made[j] = swapped;
    }
    this.strata.set(key, made);
    return made;
  }
}

/** Two words as a number in the open interval (0, 1), a multiple of 2^-53. */
function unit(high: number, low: number): number {
  return ((high >>> 6) * 67108864 + (low >>> 6) + 0.5) / 4503599627370496;
}

/** Whether a parameter has no spread at all. */
export function isExact(parameter: Parameter): boolean {
  if (parameter.distribution === "exact") return true;
  const spread = parameter.high > parameter.low || (parameter.sigma ?? 0) > 0;
  return !spread && parameter.distribution !== "measured";
}
