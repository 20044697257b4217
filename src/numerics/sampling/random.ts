/**
 * Seeded random numbers addressed by (seed, key, index): a draw depends on nothing else, so any
 * number of workers, any order and any other parameters of the study give the same numbers.
 *
 * The generator is Philox 4x32 with ten rounds, "Parallel random numbers: as easy as 1, 2, 3",
 * SC11 (2011), doi 10.1145/2063384.2063405; keys are hashed by the 32-bit Murmur3 function.
 */

const MULTIPLIER_A = 0xd2511f53;
const MULTIPLIER_B = 0xcd9e8d57;
const STEP_A = 0x9e3779b9;
const STEP_B = 0xbb67ae85;
const ROUNDS = 10;

/** The high 32 bits of x times the constant whose halves are given, in 32-bit arithmetic alone. */
function highProduct(x: number, low: number, high: number): number {
  const xLow = x & 0xffff;
  const xHigh = x >>> 16;
  const middle = Math.imul(xHigh, low) >>> 0;
  const other = Math.imul(xLow, high) >>> 0;
  const carry = (middle & 0xffff) + (Math.imul(xLow, low) >>> 16) + (other & 0xffff);
  return (Math.imul(xHigh, high) + (middle >>> 16) + (other >>> 16) + (carry >>> 16)) | 0;
}

/** Encrypts the four words of `block` in place under a key of two words. */
export function philox(block: Uint32Array, keyA: number, keyB: number): void {
  let x0 = block[0]! | 0;
  let x1 = block[1]! | 0;
  let x2 = block[2]! | 0;
  let x3 = block[3]! | 0;
  let a = keyA | 0;
  let b = keyB | 0;
  for (let round = 0; round < ROUNDS; round++) {
    const y0 = highProduct(x2, MULTIPLIER_B & 0xffff, MULTIPLIER_B >>> 16) ^ x1 ^ a;
    const y2 = highProduct(x0, MULTIPLIER_A & 0xffff, MULTIPLIER_A >>> 16) ^ x3 ^ b;
    x1 = Math.imul(MULTIPLIER_B, x2);
    x3 = Math.imul(MULTIPLIER_A, x0);
    x0 = y0;
    x2 = y2;
    a = (a + STEP_A) | 0;
    b = (b + STEP_B) | 0;
  }
  block[0] = x0;
  block[1] = x1;
  block[2] = x2;
  block[3] = x3;
}

/** The 32-bit Murmur3 hash of a text's UTF-8 bytes. */
export function hashOfText(text: string, seed: number): number {
  const bytes = utf8(text);
  let hash = seed >>> 0;
  for (let i = 0; i < bytes.length; i += 4) {
    const whole = i + 4 <= bytes.length;
    let word = 0;
    for (let j = Math.min(3, bytes.length - 1 - i); j >= 0; j--) word = (word << 8) | bytes[i + j]!;
    word = Math.imul(word, 0xcc9e2d51);
    word = Math.imul((word << 15) | (word >>> 17), 0x1b873593);
    hash ^= word;
    if (whole) hash = (Math.imul((hash << 13) | (hash >>> 19), 5) + 0xe6546b64) | 0;
  }
  hash ^= bytes.length;
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
  return (hash ^ (hash >>> 16)) >>> 0;
}

/** UTF-8 without `TextEncoder`, which not every host of the library has. */
function utf8(text: string): number[] {
  const bytes: number[] = [];
  for (const character of text) {
    const code = character.codePointAt(0)!;
    if (code < 0x80) bytes.push(code);
    else if (code < 0x800) bytes.push(0xc0 | (code >> 6), 0x80 | (code & 63));
    else {
      if (code < 0x10000) bytes.push(0xe0 | (code >> 12));
      else bytes.push(0xf0 | (code >> 18), 0x80 | ((code >> 12) & 63));
      bytes.push(0x80 | ((code >> 6) & 63), 0x80 | (code & 63));
    }
  }
  return bytes;
}

/** The draws that belong to one key under one seed. */
export class RandomStream {
  private readonly block = new Uint32Array(4);
  private readonly keyA: number;
  private readonly keyB: number;
  private readonly seedHigh: number;
  /** Which block stands in `block`. */
  private held = -1;

  /** @param seed a whole number from 0 to 2^53; @param key any text, such as a parameter's key */
  constructor(seed: number, key: string) {
    this.keyA = hashOfText(key, seed >>> 0);
    this.keyB = hashOfText(key, ~(seed >>> 0));
    this.seedHigh = Math.floor(seed / 4294967296) >>> 0;
  }

  /** Four independent 32-bit words for an index from 0 to 2^53 (reused: copy to keep). */
  words(index: number): Uint32Array {
    if (index === this.held) return this.block;
    this.held = index;
    this.block[0] = index >>> 0;
    this.block[1] = Math.floor(index / 4294967296) >>> 0;
    this.block[2] = this.seedHigh;
    this.block[3] = 0;
    philox(this.block, this.keyA, this.keyB);
    return this.block;
  }

  /**
   * The draw of that index, uniform on the open interval (0, 1): half-way between multiples of
   * 2^-52. Two draws share a block of words.
   */
  uniform(index: number): number {
    const half = Math.floor(index / 2);
    const words = this.words(half);
    const first = 2 * (index - 2 * half);
    const high = words[first]! >>> 6;
    return (high * 67108864 + (words[first + 1]! >>> 6) + 0.5) / 4503599627370496;
  }

  /** Writes the draws `start`, `start + 1`, ... into `out`. */
  fill(out: Float64Array, start = 0): void {
    for (let i = 0; i < out.length; i++) out[i] = this.uniform(start + i);
  }

  /** A stream of its own for a part of this one's purpose. */
  static of(seed: number, ...path: readonly string[]): RandomStream {
    return new RandomStream(seed, path.join("\u0000"));
  }
}
