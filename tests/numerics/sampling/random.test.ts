import { expect, test } from "vitest";
import { hashOfText, philox, RandomStream } from "../../../src/numerics/sampling/random.ts";

const hex = (words: Uint32Array): string[] => [...words].map((w) => w.toString(16));

test("the generator gives the known answers that were published with it", () => {
  // Known-answer vectors for 4x32 words and ten rounds: zeros, ones, digits of pi.
  const zeros = new Uint32Array(4);
  philox(zeros, 0, 0);
  expect(hex(zeros)).toEqual(["6627e8d5", "e169c58d", "bc57ac4c", "9b00dbd8"]);
  const ones = new Uint32Array(4).fill(0xffffffff);
  philox(ones, 0xffffffff, 0xffffffff);
  expect(hex(ones)).toEqual(["408f276d", "41c83b0e", "a20bc7c6", "6d5451fd"]);
  const pi = new Uint32Array([0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344]);
  philox(pi, 0xa4093822, 0x299f31d0);
  expect(hex(pi)).toEqual(["d16cfe09", "94fdcceb", "5001e420", "24126ea1"]);
});

test("keys are hashed as the hash's published test vectors ask", () => {
  expect(hashOfText("", 0)).toBe(0);
  expect(hashOfText("", 1)).toBe(0x514e28b7);
  expect(hashOfText("test", 0)).toBe(0xba6bd213);
  expect(hashOfText("Hello, world!", 0x9747b28c)).toBe(0x24884cba);
  const pangram = "The quick brown fox jumps over the lazy dog";
  expect(hashOfText(pangram, 0x9747b28c)).toBe(0x2fa826cd);
});

test("keys in any script are hashed by their bytes in UTF-8", () => {
  // The published function, over the bytes that the platform makes of a text.
  const hashed = (text: string, seed: number): number => {
    const bytes = new TextEncoder().encode(text);
    const mixed = (k: number) => {
      const spread = Math.imul(k, 0xcc9e2d51);
      return Math.imul((spread << 15) | (spread >>> 17), 0x1b873593);
    };
    let h = seed;
    const whole = bytes.length & ~3;
    for (let i = 0; i < whole; i += 4) {
      h ^= mixed(new DataView(bytes.buffer).getInt32(i, true));
      h = (Math.imul((h << 13) | (h >>> 19), 5) + 0xe6546b64) | 0;
    }
    let rest = 0;
    for (let i = bytes.length - 1; i >= whole; i--) rest = (rest << 8) | bytes[i]!;
    if (whole < bytes.length) h ^= mixed(rest);
    h ^= bytes.length;
    h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
    h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
    return (h ^ (h >>> 16)) >>> 0;
  };
  for (const text of [
    "\u007f",
    "\u0080",
    "äöü",
    "πππππππ",
    "\u07ff",
    "\u0800",
    "電気抵抗",
    "\uffff",
    "\u{10000}",
    "😀a😀",
    "\u{10ffff}",
  ]) {
    for (const seed of [0, 1, 0x9747b28c])
      expect(hashOfText(text, seed), text).toBe(hashed(text, seed));
  }
  expect(hashed("test", 0)).toBe(0xba6bd213);
});

test("a draw depends only on seed, key and index, not on what was drawn before", () => {
  const a = new RandomStream(1, "on_resistance");
  const b = new RandomStream(1, "on_resistance");
  for (let i = 0; i < 100; i++) a.uniform(i);
  expect(a.uniform(12345)).toBe(b.uniform(12345));
  const filled = new Float64Array(50);
  b.fill(filled, 1000);
  expect(filled[7]).toBe(a.uniform(1007));
});

test("another seed, key or index gives another draw, beyond 32 bits too", () => {
  const base = new RandomStream(1, "a").uniform(5);
  expect(new RandomStream(2, "a").uniform(5)).not.toBe(base);
  expect(new RandomStream(1 + 2 ** 32, "a").uniform(5)).not.toBe(base);
  expect(new RandomStream(1, "b").uniform(5)).not.toBe(base);
  expect(new RandomStream(1, "a").uniform(5 + 2 ** 32)).not.toBe(base);
  expect(new RandomStream(1, "ä").uniform(5)).not.toBe(base);
});

test("draws are uniform: mean, variance, serial and cross-key correlation within five sigmas", () => {
  const n = 200_000;
  const a = new RandomStream(11, "x");
  const b = new RandomStream(11, "y");
  let [sum, squares, serial, cross, before] = [0, 0, 0, 0, 0];
  for (let i = 0; i < n; i++) {
    const u = a.uniform(i) - 0.5;
    sum += u;
    squares += u * u;
    serial += u * before;
    cross += u * (b.uniform(i) - 0.5);
    before = u;
  }
  expect(Math.abs(sum / n)).toBeLessThan(5 / Math.sqrt(12 * n));
  expect(Math.abs(squares / n - 1 / 12)).toBeLessThan(5 * Math.sqrt(1 / 180 / n));
  expect(Math.abs(serial / n)).toBeLessThan(5 / 12 / Math.sqrt(n));
  expect(Math.abs(cross / n)).toBeLessThan(5 / 12 / Math.sqrt(n));
});

test("words are the generator's of index and seed, in two words each", () => {
  const key = (seed: number, text: string): readonly [number, number] => [
    hashOfText(text, seed),
    hashOfText(text, ~seed),
  ];
  for (const seed of [1, 5 * 2 ** 32 + 7]) {
    for (const index of [0, 1, 12, 3 * 2 ** 32 + 12]) {
      const block = Uint32Array.of(
        index % 2 ** 32,
        Math.floor(index / 2 ** 32),
        Math.floor(seed / 2 ** 32),
        0,
      );
      philox(block, ...key(seed % 2 ** 32, "a"));
      const stream = new RandomStream(seed, "a");
      expect(hex(stream.words(index))).toEqual(hex(block));
      // Two draws of 26 and 26 bits each, and a half.
      const draw = (k: number) => (block[k]! >>> 6) * 2 ** 26 + (block[k + 1]! >>> 6) + 0.5;
      expect(stream.uniform(2 * index)).toBe(draw(0) / 2 ** 52);
      expect(stream.uniform(2 * index + 1)).toBe(draw(2) / 2 ** 52);
    }
  }
});

test("paths to a stream are told apart by their parts", () => {
  const draw = (...path: string[]) => RandomStream.of(1, ...path).uniform(0);
  expect(draw("a", "bc")).not.toBe(draw("ab", "c"));
  expect(draw("a", "bc")).toBe(RandomStream.of(1, "a", "bc").uniform(0));
  expect(draw("a")).toBe(new RandomStream(1, "a").uniform(0));
});
