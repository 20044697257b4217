/**
 * Sobol' sequences in up to 1111 dimensions, plain or scrambled by a seed.
 *
 * Points are made in Gray-code order from 32-bit direction numbers. The scramble multiplies each
 * dimension's digits by a random lower triangular matrix of ones and zeros and adds a random
 * digital shift ("On the L2-discrepancy for anchored boxes", Journal of Complexity 14 (1998)
 * 527-556, doi 10.1006/jcom.1998.0489): the mean over seeds is unbiased, and the net property
 * stays.
 */

import { refuse } from "../../errors/problem.ts";
import { pow } from "../special/elementary.ts";
import { RandomStream } from "./random.ts";
import { DIMENSIONS_OF_DEGREE, PACKED } from "./sobol-table.ts";

const BITS = 32;
const UNIT = pow(2, -BITS);

export const MOST_SOBOL_DIMENSIONS = 1 + DIMENSIONS_OF_DEGREE.reduce((a, b) => a + b);

/** A lower triangular matrix (row k in `rows[k]`, first digit in the highest bit) and a shift. */
export interface DigitScramble {
  readonly rows: Uint32Array;
  readonly shift: number;
}

export interface SobolOptions {
  /** Seed of the scramble; without it the plain sequence, whose first point is the origin. */
  readonly seed?: number;
  /** One key per dimension: its scramble depends only on the seed and its key. */
  readonly keys?: readonly string[];
  /** Scrambles given outright, one per dimension. */
  readonly scrambles?: readonly DigitScramble[];
}

export class SobolSequence {
  readonly dimensions: number;
  private readonly directions: Uint32Array;
  private readonly shifts: Uint32Array;
  private readonly state: Uint32Array;
  private readonly offset: number;
  private at = 0;

  constructor(dimensions: number, options: SobolOptions = {}) {
    requireDimensions(dimensions);
    this.dimensions = dimensions;
    this.directions = directionNumbers(dimensions);
    this.shifts = new Uint32Array(dimensions);
    this.state = new Uint32Array(dimensions);
    const plain = options.seed === undefined && options.scrambles === undefined;
    this.offset = plain || options.scrambles !== undefined ? 0 : 0.5;
    if (plain) return;
    for (let d = 0; d < dimensions; d++) {
      const key = options.keys?.[d] ?? `dimension ${d}`;
      const scramble = options.scrambles?.[d] ?? randomScramble(options.seed!, key);
      scrambleColumns(this.directions.subarray(d * BITS, (d + 1) * BITS), scramble.rows);
      this.shifts[d] = scramble.shift;
    }
  }

  /** Index of the point that `next` gives. */
  get index(): number {
    return this.at;
  }

  /** Moves to a point, 0 <= index < 2^32. */
  seek(index: number): void {
    const gray = (index ^ (index >>> 1)) >>> 0;
    for (let d = 0; d < this.dimensions; d++) {
      let digits = 0;
      for (let k = 0; k < BITS; k++) {
        if ((gray >>> k) & 1) digits ^= this.directions[d * BITS + k]!;
      }
      this.state[d] = digits;
    }
    this.at = index;
  }

  /** Writes the coordinates of the next point; in (0, 1) when scrambled by a seed. */
  next(point: Float64Array): void {
    const bit = BITS - 1 - Math.clz32(lowestZero(this.at));
    for (let d = 0; d < this.dimensions; d++) {
      const digits = (this.state[d]! ^ this.shifts[d]!) >>> 0;
      point[d] = (digits + this.offset) * UNIT;
      if (bit < BITS) this.state[d] = this.state[d]! ^ this.directions[d * BITS + bit]!;
    }
    this.at++;
  }

  /** Points `start` ... `start + count - 1` by columns: `columns[d][i]`. */
  fill(columns: readonly Float64Array[], start: number, count: number): void {
    const point = new Float64Array(this.dimensions);
    this.seek(start);
    for (let i = 0; i < count; i++) {
      this.next(point);
      for (let d = 0; d < this.dimensions; d++) columns[d]![i] = point[d]!;
    }
  }
}

/** The power of two at the lowest zero bit of n. */
function lowestZero(n: number): number {
  return (~n & (n + 1)) >>> 0;
}

function requireDimensions(dimensions: number): void {
  if (Number.isInteger(dimensions) && dimensions >= 1 && dimensions <= MOST_SOBOL_DIMENSIONS) {
    return;
  }
  refuse({
    code: "too-many-dimensions",
    what: "a Sobol' sequence has from one to a fixed number of dimensions",
    got: String(dimensions),
    expected: `1 to ${MOST_SOBOL_DIMENSIONS}`,
    fix: "use pseudo-random sampling, or state fewer uncertain parameters",
  });
}

/** Direction numbers, `BITS` of each dimension in turn, first digit in the highest bit. */
function directionNumbers(dimensions: number): Uint32Array {
  const table = new Uint32Array(dimensions * BITS);
  for (let k = 0; k < BITS; k++) table[k] = pow(2, BITS - 1 - k);
  let at = 0;
  const read = (bits: number): number => {
    const digits = widthOf(bits);
    at += digits;
    return digits === 0 ? 0 : Number.parseInt(PACKED.slice(at - digits, at), 36);
  };
  let dimension = 1;
  for (let degree = 1; dimension < dimensions; degree++) {
    const last = Math.min(dimension + DIMENSIONS_OF_DEGREE[degree - 1]!, dimensions);
    for (; dimension < last; dimension++) {
      fillDimension(table.subarray(dimension * BITS, (dimension + 1) * BITS), degree, read);
    }
  }
  return table;
}

/** The recurrence of the primitive polynomial from its first `degree` figures. */
function fillDimension(v: Uint32Array, degree: number, read: (bits: number) => number): void {
  const inner = read(degree - 1);
  for (let k = 0; k < degree; k++) v[k] = (2 * read(k) + 1) * pow(2, BITS - 1 - k);
  for (let k = degree; k < BITS; k++) {
    let value = v[k - degree]! ^ (v[k - degree]! >>> degree);
    for (let j = 1; j < degree; j++) {
      if ((inner >>> (degree - 1 - j)) & 1) value ^= v[k - j]!;
    }
    v[k] = value;
  }
}

/** The fewest base-36 digits that hold so many bits. */
function widthOf(bits: number): number {
  let digits = 0;
  for (let held = 1; held < pow(2, bits); held *= 36) digits++;
  return digits;
}

function randomScramble(seed: number, key: string): DigitScramble {
  const stream = RandomStream.of(seed, "scramble", key);
  const rows = new Uint32Array(BITS);
  for (let k = 0; k < BITS; k++) {
    const diagonal = (1 << (BITS - 1 - k)) >>> 0;
    const before = k === 0 ? 0 : (0xffffffff << (BITS - k)) >>> 0;
    rows[k] = (stream.words(k)[0]! & before) | diagonal;
  }
  return { rows, shift: stream.words(BITS)[0]! };
}

/** Multiplies each direction number by the matrix, digit by digit. */
function scrambleColumns(directions: Uint32Array, rows: Uint32Array): void {
  for (let j = 0; j < BITS; j++) {
    let product = 0;
    for (let k = 0; k < BITS; k++) {
      if (parity(rows[k]! & directions[j]!)) product |= 1 << (BITS - 1 - k);
    }
    directions[j] = product;
  }
}

function parity(word: number): number {
  let w = word;
  w ^= w >>> 16;
  w ^= w >>> 8;
  w ^= w >>> 4;
  return (0x6996 >>> (w & 15)) & 1;
}
