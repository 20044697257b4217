/** SHA-256 (FIPS 180-4): pages opened from disk or without encryption may have no cryptography of their own. */

/** The first 32 bits of the fractional parts of the cube roots of the first 64 primes (4.2.2). */
const ROUND = constants(64, (p) => Math.cbrt(p));
/** The same of the square roots of the first 8 primes (5.3.3). */
const START = constants(8, (p) => Math.sqrt(p));

function constants(count: number, root: (p: number) => number): Uint32Array {
  const primes: number[] = [];
  for (let n = 2; primes.length < count; n++) {
    if (primes.every((p) => n % p !== 0)) primes.push(n);
  }
  return Uint32Array.from(primes, (p) => ((root(p) % 1) * 2 ** 32) >>> 0);
}

const BLOCK = 64;

/** The hash of a text in UTF-8, in hexadecimal digits. */
export function sha256(text: string): string {
  const bytes = padded(new TextEncoder().encode(text));
  const state = Uint32Array.from(START);
  const words = new Uint32Array(BLOCK);
  const view = new DataView(bytes.buffer);
  for (let at = 0; at < bytes.length; at += BLOCK) {
    for (let i = 0; i < 16; i++) words[i] = view.getUint32(at + 4 * i);
    compress(state, words);
  }
  return Array.from(state, (word) => word.toString(16).padStart(8, "0")).join("");
}

/** A bit, zeros, the length in bits: whole blocks (5.1.1). */
function padded(bytes: Uint8Array): Uint8Array<ArrayBuffer> {
  const size = Math.ceil((bytes.length + 9) / BLOCK) * BLOCK;
  const all = new Uint8Array(size);
  all.set(bytes);
  all[bytes.length] = 0x80;
  const view = new DataView(all.buffer);
  view.setUint32(size - 8, Math.floor((bytes.length * 8) / 2 ** 32));
  view.setUint32(size - 4, (bytes.length * 8) >>> 0);
  return all;
}

function compress(state: Uint32Array, w: Uint32Array): void {
  const turn = (x: number, n: number): number => (x >>> n) | (x << (32 - n));
  for (let i = 16; i < 64; i++) {
    const [a, b] = [w[i - 15]!, w[i - 2]!];
    const s0 = turn(a, 7) ^ turn(a, 18) ^ (a >>> 3);
    const s1 = turn(b, 17) ^ turn(b, 19) ^ (b >>> 10);
    w[i] = w[i - 16]! + s0 + w[i - 7]! + s1;
  }
  let [a, b, c, d, e, f, g, h] = state as unknown as Eight;
  for (let i = 0; i < 64; i++) {
    const s1 = turn(e, 6) ^ turn(e, 11) ^ turn(e, 25);
    const one = (h + s1 + ((e & f) ^ (~e & g)) + ROUND[i]! + w[i]!) | 0;
    const s0 = turn(a, 2) ^ turn(a, 13) ^ turn(a, 22);
    const two = (s0 + ((a & b) ^ (a & c) ^ (b & c))) | 0;
    [h, g, f, e, d, c, b, a] = [g, f, e, (d + one) | 0, c, b, a, (one + two) | 0];
  }
  [a, b, c, d, e, f, g, h].forEach((x, i) => {
    state[i] = state[i]! + x;
  });
}

type Eight = [number, number, number, number, number, number, number, number];
