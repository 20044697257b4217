/** Reading one of several levels against references that lie between neighbours. */
import { solve } from "../../numerics/roots.ts";
import { exp, log } from "../../numerics/special/elementary.ts";
import { currentBeyond, currentDensity } from "./current-tails.ts";
import { equalAt } from "./read-errors.ts";

/** One level: median current [A] and the standard deviation of its logarithm. */
export interface Level {
  readonly current: number;
  readonly spread: number;
}

/** What a read adds to the levels. */
export interface ReadPath {
  /** What the other cells of a column may add in the worst pattern [A]. */
  readonly leak: number;
  /** Standard deviation of offset and noise of an amplifier at a reference current [A]. */
  noise(reference: number): number;
}

export interface LevelErrors {
  /** Probability that a level is read as another one, all levels equally frequent. */
  readonly symbol: number;
  /** Probability that a bit is read wrong, labels by the reflected binary code. */
  readonly bit: number;
  /** Errors across each reference over all, from the highest current: which pair decides. */
  readonly shares: readonly number[];
}

/** References are sought to this share: the error is flat there, so that it has all its digits. */
const PLACE = 1e-9;
/** Tails below this share of their neighbour's are left out. */
const FAR = 1e-12;
/** Stands for an error that no number holds, so that its logarithm stays finite. */
const LEAST = 1e-300;

/** The reflected binary label of a level: neighbours differ in one bit. */
export function reflectedLabel(level: number): number {
  return level ^ (level >> 1);
}

/** Bits of a cell with so many levels, a power of two. */
export function bitsOf(levels: number): number {
  return 31 - Math.clz32(levels);
}

/** In how many bits the labels of two levels differ. */
export function labelDistance(from: number, to: number): number {
  let count = 0;
  for (let left = reflectedLabel(from) ^ reflectedLabel(to); left > 0; left &= left - 1) count++;
  return count;
}

/**
 * The reference of least error between two neighbours: where their densities are equal. Where
 * they are not between the medians (one swallows the other), the place of equal errors.
 *
 * @param upper the level of the higher current
 */
export function leastErrorReference(upper: Level, lower: Level, path: ReadPath): number {
  const { leak } = path;
  const [low, high] = [lower.current + leak, upper.current];
  if (!(high > low)) return (low + high) / 2;
  const balance = (x: number): number => {
    const t = exp(x);
    const noise = path.noise(t);
    const ours = currentDensity(upper.current, upper.spread, noise, t);
    const theirs = currentDensity(lower.current, lower.spread, noise, t - leak);
    return log(ours + LEAST) - log(theirs + LEAST);
  };
  const [from, to] = [log(low), log(high)];
  if (balance(from) < 0 && balance(to) > 0)
    return exp(solve(balance, from, to, { relative: PLACE }));
  return equalErrorReference(upper, lower, path);
}

/** The reference at which the errors of two neighbours across it are equal. */
function equalErrorReference(upper: Level, lower: Level, path: ReadPath): number {
  const { leak } = path;
  const balance = (t: number): number => {
    const below = currentBeyond("below", upper.current, upper.spread, path.noise(t), t);
    const above = currentBeyond("above", lower.current, lower.spread, path.noise(t), t - leak);
    return log(below + LEAST) - log(above + LEAST);
  };
  return equalAt(balance, lower.current + leak, upper.current);
}

/** The references of least error between all neighbours. @param levels by falling current */
export function leastErrorReferences(levels: readonly Level[], path: ReadPath): number[] {
  return levels.slice(1).map((lower, k) => leastErrorReference(levels[k]!, lower, path));
}

/**
 * Errors of levels that are equally frequent. A spread that reaches over several references
 * counts with the bits in which the labels then differ.
 *
 * @param levels by falling current; @param references one less, by falling current [A]
 */
export function readLevels(
  levels: readonly Level[],
  references: readonly number[],
  path: ReadPath,
): LevelErrors {
  const noise = references.map((t) => path.noise(t));
  const across = references.map(() => 0);
  let bits = 0;
  for (const [i, { current, spread }] of levels.entries()) {
    const below = (k: number): number =>
      currentBeyond("below", current, spread, noise[k]!, references[k]!);
    const above = (k: number): number =>
      currentBeyond("above", current, spread, noise[k]!, references[k]! - path.leak);
    bits += walked(references.length, i, 1, below, across);
    bits += walked(references.length, i, -1, above, across);
  }
  const all = across.reduce((sum, x) => sum + x, 0);
  return {
    symbol: all / levels.length,
    bit: bits / (levels.length * bitsOf(levels.length)),
    shares: across.map((x) => (all > 0 ? x / all : 1 / across.length)),
  };
}

/** Mean wrong bits of a level that is read past the references on one side of it. */
function walked(
  count: number,
  level: number,
  step: 1 | -1,
  tail: (reference: number) => number,
  across: number[],
): number {
  let bits = 0;
  let nearest = 0;
  let distance = 0;
  for (let k = step > 0 ? level : level - 1; k >= 0 && k < count; k += step) {
    const beyond = tail(k);
    const there = labelDistance(level, step > 0 ? k + 1 : k);
    bits += beyond * (there - distance);
    if (distance === 0) {
      nearest = beyond;
      across[k] = across[k]! + beyond;
    }
    distance = there;
    if (beyond <= FAR * nearest) break;
  }
  return bits;
}
