import { describe, expect, test, vi } from "vitest";
import { RandomStream } from "../../../src/numerics/sampling/random.ts";
import { moduleBytes } from "../../../src/numerics/vectors/assemble.ts";
import { MODULE } from "../../../src/numerics/vectors/assembled.ts";
import { loopsOf } from "../../../src/numerics/vectors/loops.ts";
import { codeOf, machineWith } from "../../../src/numerics/vectors/machine.ts";
import { kernelsOf } from "../../../src/numerics/vectors/module.ts";
import {
  APPLY,
  OPERATIONS,
  type Operation,
  operandsOf,
} from "../../../src/numerics/vectors/operations.ts";
import { FREE_FROM } from "../../../src/numerics/vectors/tables.ts";

const COUNT = 4096;
const SPECIAL = [
  ...[0, -0, 1, -1, 2, 3, 0.5, -0.5, 1.5, 2.5, -2.5, 0.49999999999999994, 1 - 2 ** -53],
  ...[1 + 2 ** -52, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NaN, 5e-324],
  ...[-5e-324, 2.2250738585072014e-308, 2.225073858507201e-308, 1.7976931348623157e308],
  ...[700, -700, 709.782712893384, 709.7827128933841, -745.1332191019411, -745.1332191019412],
  ...[3 + 1e-13, 3 - 1e-13, 1e12 + 0.5, 2 ** 52 + 1, 2 ** 53, -(2 ** 52) - 1, 1e300, 10, 1e-10],
];

/** Numbers of every size, of ordinary sizes, near one, and all pairs of special ones. */
function operands(stream: number): [Float64Array, Float64Array, Float64Array] {
  const random = new RandomStream(7, `operands ${stream}`);
  const bits = new Uint32Array(2);
  const double = new Float64Array(bits.buffer);
  const any = (i: number): number => {
    const words = random.words(i);
    const unit = words[2]! / 2 ** 32;
    if (i % 4 === 0) {
      bits.set([words[0]!, words[1]!]);
      return double[0]!;
    }
    if (i % 4 === 1) return 1 + (words[0]! / 2 ** 32 - 0.5) * 2 ** -(unit * 40);
    return (words[0]! / 2 ** 32 - 0.5) * 10 ** (12 * unit - 4);
  };
  const columns = [0, 1, 2].map((k) =>
    Float64Array.from({ length: COUNT }, (_, i) => any(i + k * COUNT)),
  ) as [Float64Array, Float64Array, Float64Array];
  for (const [i, a] of SPECIAL.entries()) {
    for (const [j, b] of SPECIAL.entries()) {
      const at = i * SPECIAL.length + j;
      columns[0][at] = a;
      columns[1][at] = b;
    }
  }
  // What a choice is made by.
  for (const i of columns[2].keys()) columns[2][i] = i % 3 === 0 ? Number.NaN : i % 2;
  return columns;
}

const COLUMN = 8 * COUNT;
const CODE = FREE_FROM;
const DATA = CODE + 1024;
const at = (k: number): number => DATA + k * COLUMN;

/** What stands behind the column that an instruction writes. */
const UNTOUCHED = 0.123;

type Columns = [Float64Array, Float64Array, Float64Array];

/**
 * Positive numbers of ordinary sizes: a kernel hands a whole column to the plain loop where one of its numbers is special,
 * so that special ones alone would test the loop twice.
 */
function ordinary(): Columns {
  const random = new RandomStream(7, "ordinary operands");
  const columns = [0, 1, 2].map((k) =>
    Float64Array.from({ length: COUNT }, (_, i) => {
      const words = random.words(i + k * COUNT);
      const unit = (words[0]! + 0.5) / 2 ** 32;
      return k === 1 ? 8 * unit : 10 ** ((words[1]! / 2 ** 32) * 4 - 2) * (0.5 + unit);
    }),
  ) as Columns;
  for (const i of columns[2].keys()) columns[2][i] = i % 2;
  return columns;
}

function run(
  make: typeof loopsOf,
  operation: Operation,
  fixed: number,
  columns: Columns = operands(0),
): Float64Array {
  const machine = make(2 ** 19);
  if (operation === "choose") columns.unshift(columns.pop()!);
  for (const [k, column] of columns.entries()) machine.doubles.set(column, at(k) >> 3);
  const places = Array.from({ length: operandsOf(operation) }, (_, k) => k);
  const steps = places.map((k) => (((fixed >> k) & 1) === 0 ? 16 : 0));
  for (const k of places) {
    if (steps[k] === 0) machine.doubles.fill(columns[k]![77]!, at(k) >> 3, (at(k) >> 3) + 2);
  }
  const words = [codeOf(OPERATIONS.indexOf(operation), fixed), at(3)];
  for (const k of [0, 1, 2]) words.push(places.includes(k) ? at(k) : 0);
  machine.words.set([...words, ...steps], CODE >> 2);
  machine.doubles[at(4) >> 3] = UNTOUCHED;
  machine.run(CODE, CODE + 32, COLUMN);
  expect(machine.doubles[at(4) >> 3]).toBe(UNTOUCHED);
  return machine.doubles.slice(at(3) >> 3, (at(3) >> 3) + COUNT);
}

function expected(
  operation: Operation,
  fixed: number,
  columns: Columns = operands(0),
): Float64Array {
  if (operation === "choose") columns.unshift(columns.pop()!);
  const value = (k: number, i: number): number => columns[k]![((fixed >> k) & 1) === 0 ? i : 77]!;
  return Float64Array.from({ length: COUNT }, (_, i) =>
    APPLY[operation](value(0, i), value(1, i), value(2, i)),
  );
}

describe.each(OPERATIONS)("%s", (operation) => {
  // At least one operand differs between sets.
  const ways = 2 ** operandsOf(operation) - 1;
  const kinds = [
    ["the WebAssembly kernel", (bytes: number) => kernelsOf(bytes)!],
    ["the plain loop", loopsOf],
  ] as const;
  test.each(kinds)("%s gives the bits of the function for one number", (_, make) => {
    for (let fixed = 0; fixed < ways; fixed++) {
      const got = run(make, operation, fixed);
      const wanted = expected(operation, fixed);
      const first = got.findIndex((x, i) => !Object.is(x, wanted[i]));
      const columns = operands(0).map((column) => column[Math.max(0, first)]);
      expect([
        first,
        first < 0 ? 0 : got[first],
        first < 0 ? 0 : wanted[first],
        fixed,
        columns,
      ]).toEqual([-1, 0, 0, fixed, columns]);
    }
  });
});

test.each(OPERATIONS)(
  "%s of ordinary numbers has these bits in the WebAssembly kernel too",
  (operation) => {
    for (let fixed = 0; fixed < 2 ** operandsOf(operation) - 1; fixed++) {
      const got = run((bytes) => kernelsOf(bytes)!, operation, fixed, ordinary());
      const wanted = expected(operation, fixed, ordinary());
      const wrong = got.findIndex((x, i) => !Object.is(x, wanted[i]));
      expect([wrong, fixed, got[wrong], wanted[wrong]]).toEqual([-1, fixed, undefined, undefined]);
    }
  },
);

test("a machine grows with what it has to hold", () => {
  for (const bytes of [1000, 2 ** 17, 2 ** 20 + 8]) {
    expect(machineWith(bytes).doubles.byteLength).toBeGreaterThanOrEqual(bytes);
    expect(machineWith(bytes, "loops").doubles.byteLength).toBeGreaterThanOrEqual(bytes);
  }
});

test.each(["fastest", "loops"] as const)("a machine (%s) is kept until it is too small", (kind) => {
  const first = machineWith(1, kind);
  const size = first.doubles.byteLength;
  expect(machineWith(size - 8, kind)).toBe(first);
  expect(machineWith(size, kind)).toBe(first);
  const second = machineWith(size + 8, kind);
  expect(second.doubles.byteLength).toBe(2 * size);
  expect(machineWith(1, kind)).toBe(second);
});

test("a machine runs in WebAssembly, unless loops are asked for", () => {
  // What a module exports has no text.
  expect(String(machineWith(8).run)).toContain("[native code]");
  expect(String(machineWith(8, "loops").run)).not.toContain("[native code]");
});

test("where an engine refuses to compile, a machine runs in loops, and nobody asks twice", async () => {
  const { Module } = WebAssembly;
  let attempts = 0;
  WebAssembly.Module = class {
    constructor() {
      attempts++;
      throw new Error("refused");
    }
  };
  try {
    vi.resetModules();
    const fresh = await import("../../../src/numerics/vectors/machine.ts");
    for (const bytes of [8, 2 ** 18]) {
      expect(String(fresh.machineWith(bytes).run)).not.toContain("[native code]");
    }
    expect(attempts).toBe(1);
  } finally {
    WebAssembly.Module = Module;
    vi.resetModules();
  }
});

test("the bytes in the source are those that the assembler makes of the kernels", () => {
  expect(Buffer.from(moduleBytes()).toString("base64")).toBe(MODULE);
});
