/**
 * What every engine must give to the bit: run as one script by each of them. It has nothing of a
 * test's own, so that it runs in a page.
 */
import { estimateData, estimateStudy, openStudyText, parseFormula } from "../../src/browser.ts";
import * as elementary from "../../src/numerics/elementary/index.ts";
import { erfc } from "../../src/numerics/special/erf.ts";
import { gamma } from "../../src/numerics/special/gamma.ts";
import { normalQuantile } from "../../src/numerics/special/normal.ts";
import { loopsOf } from "../../src/numerics/vectors/loops.ts";
import { codeOf } from "../../src/numerics/vectors/machine.ts";
import { kernelsOf } from "../../src/numerics/vectors/module.ts";
import { OPERATIONS, operandsOf } from "../../src/numerics/vectors/operations.ts";
import { FREE_FROM } from "../../src/numerics/vectors/tables.ts";

/** Hashes the bits of numbers: 32-bit multiply and shift, twice. */
class Digest {
  private a = 0x9e3779b9;
  private b = 0x85ebca6b;
  private readonly one = new Float64Array(1);
  private readonly words = new Uint32Array(this.one.buffer);

  add(x: number): void {
    // All of what is not a number is one thing.
    this.one[0] = Number.isNaN(x) ? Number.NaN : x;
    for (const word of this.words) {
      this.a = Math.imul(this.a ^ word, 0x01000193);
      this.b = Math.imul(this.b ^ (word >>> 3), 0x5bd1e995) ^ (this.a >>> 15);
    }
  }
  get text(): string {
    return [this.a, this.b].map((x) => (x >>> 0).toString(16).padStart(8, "0")).join("");
  }
}

/** The same numbers everywhere: of all bits, and of ordinary sizes, in turn. */
function* numbers(count: number): Generator<number> {
  const words = new Uint32Array(2);
  const [double] = [new Float64Array(words.buffer)];
  let state = 12345;
  const next = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state ^ (state >>> 15)) >>> 0;
  };
  for (let k = 0; k < count; k++) {
    words[0] = next();
    words[1] = next();
    const sizes = [1, 1e-3, 30, 700, 1e5];
    yield k % 3 === 0 ? double![0]! : (words[1]! / 2 ** 31 - 1) * sizes[k % 5]!;
  }
}

function ofFunctions(count: number): Record<string, string> {
  const digests: Record<string, string> = {};
  const { pow, hypot, ...rest } = elementary;
  for (const [name, f] of Object.entries({ ...rest, erfc, normalQuantile })) {
    const digest = new Digest();
    for (const x of numbers(count)) digest.add(f(name === "normalQuantile" ? Math.abs(x % 1) : x));
    digests[name] = digest.text;
  }
  const powers = new Digest();
  let before = 1.5;
  for (const x of numbers(count)) {
    for (const y of [x, 1 / x, 2.5, -3]) powers.add(pow(Math.abs(before), y));
    powers.add(hypot(before, x));
    before = x;
  }
  const gammas = new Digest();
  for (let k = 1; k < 2000; k++) gammas.add(gamma(k / 13));
  return { ...digests, powers: powers.text, gammas: gammas.text };
}

function ofMachines(count: number): Record<string, string> {
  const size = 8 * count;
  const code = FREE_FROM;
  const at = (k: number): number => code + 1024 + size * k;
  const bytes = at(4);
  const digests: Record<string, string> = {};
  for (const [kind, machine] of Object.entries({
    kernels: kernelsOf(bytes),
    loops: loopsOf(bytes),
  })) {
    const digest = new Digest();
    if (machine === undefined) continue;
    for (const [k, operation] of OPERATIONS.entries()) {
      let i = 0;
      for (const x of numbers(3 * count)) machine.doubles[(at(0) >> 3) + i++] = x;
      // What a choice is made by.
      for (let j = 0; operation === "choose" && j < count; j++)
        machine.doubles[(at(0) >> 3) + j] = j & 1;
      const steps = [0, 1, 2].map((place) => (place < operandsOf(operation) ? 16 : 0));
      machine.words.set([codeOf(k, 0), at(3), at(0), at(1), at(2), ...steps], code >> 2);
      machine.run(code, code + 32, size);
      for (let j = 0; j < count; j++) digest.add(machine.doubles[(at(3) >> 3) + j]!);
    }
    digests[kind] = digest.text;
  }
  return digests;
}

/** Every figure of a study, as the JSON of its estimate. */
function ofStudy(text: string): string {
  const { study, catalogue } = openStudyText(text);
  return JSON.stringify(
    estimateData(estimateStudy(study, catalogue, parseFormula), { sha256: "", version: "" }),
  );
}

/** Digests by what they are of; the JSON of the study's estimate itself. */
export function digests(text: string): Record<string, string> {
  return { ...ofFunctions(20_000), ...ofMachines(4096), study: ofStudy(text) };
}
