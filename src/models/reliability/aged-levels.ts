/** What levels read as after some time, and what a word of them fails with. */
import { binomialTail } from "../../numerics/special/discrete.ts";
import { exp, hypot, pow } from "../../numerics/special/elementary.ts";
import { normalDensity, normalTail } from "../../numerics/special/normal.ts";
import { NOTHING } from "./current-tails.ts";
import { type Level, type LevelErrors, type ReadPath, readLevels } from "./level-reads.ts";

/** A level as it was written, with how its resistance changes as a power of time. */
export interface WrittenLevel extends Level {
  /** Exponent of the resistance; positive where it rises. */
  readonly drift: number;
  readonly driftDeviation: number;
}

/** @param decades ln of the time over that at which the levels are stated */
export function aged(levels: readonly WrittenLevel[], decades: number): Level[] {
  return levels.map(({ current, spread, drift, driftDeviation }) => ({
    current: current * exp(-drift * decades),
    spread: hypot(spread, driftDeviation * decades),
  }));
}

/** References that a word shares, and the code that guards it. */
export interface SharedRead {
  readonly levels: readonly Level[];
  readonly references: readonly number[];
  readonly path: ReadPath;
  /** How far all references stand off, as a share of them, and its standard deviation. */
  readonly offset: number;
  readonly deviation: number;
  /** Share of cells that have lost their level altogether. */
  readonly changed: number;
  readonly codeLength: number;
  readonly corrected: number;
}

export interface WordRead extends LevelErrors {
  /** With the cells that have lost their level. */
  readonly bitWithChanged: number;
  readonly word: number;
}

/**
 * Errors of a word whose amplifiers share their references: what puts a reference off puts it off
 * for all bits at once, so that the code is not fed with independent errors. A cell that has lost
 * its level is read as any other one.
 */
export function readWord(read: SharedRead): WordRead {
  const { levels, codeLength, corrected } = read;
  const wrongBits = levels.length / 2 / (levels.length - 1);
  const at = (shift: number) => {
    const references = read.references.map((t) => t * Math.max(1 + read.offset + shift, 1e-6));
    const errors = readLevels(levels, references, read.path);
    // A sum of tails may pass one by a rounding.
    const bit = Math.min(1, errors.bit + read.changed * wrongBits * (1 - errors.bit));
    return { errors, bit, word: binomialTail(codeLength, corrected + 1, bit) };
  };
  const middle = at(0);
  if (read.deviation === 0) {
    return { ...middle.errors, bitWithChanged: middle.bit, word: middle.word };
  }
  const step = stepOf(read);
  const sums = { bit: 0, all: 0, word: 0, symbol: 0, shares: read.references.map(() => 0) };
  const add = (g: number): void => {
    const weight = step * normalDensity(g);
    const { errors, bit, word } = at(read.deviation * g);
    sums.bit += weight * errors.bit;
    sums.all += weight * bit;
    sums.word += weight * word;
    sums.symbol += weight * errors.symbol;
    for (const [k, share] of errors.shares.entries()) {
      sums.shares[k]! += weight * share * errors.symbol;
    }
  };
  add(0);
  for (let g = step; g < 38; g += step) {
    add(g);
    add(-g);
    if (2 * normalTail(g) <= NOTHING * Math.min(sums.word, sums.bit)) break;
  }
  return {
    bit: sums.bit,
    symbol: sums.symbol,
    shares: sums.shares.map((x) => (sums.symbol > 0 ? x / sums.symbol : 1 / sums.shares.length)),
    bitWithChanged: sums.all,
    word: sums.word,
  };
}

/** The step of a rule over a normal weight whose integrand is this much narrower than it. */
function stepOf({ levels, references, path, deviation, corrected }: SharedRead): number {
  const narrowest = Math.min(
    ...references.map((t, k) => {
      const noise = path.noise(t) / t;
      return Math.min(hypot(levels[k]!.spread, noise), hypot(levels[k + 1]!.spread, noise));
    }),
  );
  const precision = 1 + (corrected + 1) * pow(deviation / narrowest, 2);
  return 0.25 / Math.max(1, Math.sqrt(precision / 4));
}
