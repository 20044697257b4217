import { describe, expect, test } from "vitest";
import * as all from "../../../src/numerics/elementary/index.ts";
import { RandomStream } from "../../../src/numerics/sampling/random.ts";
import { decimal, unitsApart } from "./reference.ts";

type Exact = ReturnType<typeof decimal>;
type Range = readonly [number, number];

/** Largest doubles whose exact powers and logarithms the reference takes a moment for. */
const COUNT = 150;

interface Checked {
  readonly exact: (x: Exact) => Exact;
  /** Units in the last place; what was measured on 150000 arguments of each, rounded up. */
  readonly most: number;
  /** Ranges that are drawn from evenly. */
  readonly even?: readonly Range[];
  /** Ranges of sizes that are drawn from evenly in the logarithm, with either sign where `signed`. */
  readonly sizes?: readonly Range[];
  readonly signed?: boolean;
  /** Distances above and below 1, evenly in the logarithm. */
  readonly nearOne?: Range;
}

const elementary = { ...all };
const one = decimal(1);
const FUNCTIONS: { readonly [name in Exclude<keyof typeof all, "pow" | "hypot">]: Checked } = {
  exp: {
    exact: (x) => x.exp(),
    most: 0.51,
    even: [
      [-745.2, 709.8],
      [-746, -700],
      [-1, 1],
    ],
  },
  expm1: {
    exact: (x) => x.exp().minus(1),
    most: 0.85,
    even: [
      [-45, 709.8],
      [-0.05, 0.05],
    ],
    sizes: [[1e-30, 1]],
    signed: true,
  },
  log: {
    exact: (x) => x.ln(),
    most: 0.501,
    sizes: [
      [5e-324, 1.7e308],
      [0.5, 2],
    ],
    nearOne: [1e-16, 0.3],
  },
  log2: {
    exact: (x) => x.ln().div(decimal(2).ln()),
    most: 0.501,
    sizes: [
      [5e-324, 1.7e308],
      [0.5, 2],
    ],
    nearOne: [1e-16, 0.3],
  },
  log10: {
    exact: (x) => x.ln().div(decimal(10).ln()),
    most: 0.501,
    sizes: [
      [5e-324, 1.7e308],
      [0.5, 2],
    ],
    nearOne: [1e-16, 0.3],
  },
  log1p: {
    exact: (x) => x.plus(1).ln(),
    most: 0.7,
    even: [[-0.9999, 3]],
    sizes: [[1e-40, 1e300]],
  },
  sinh: {
    exact: (x) => x.exp().minus(one.div(x.exp())).div(2),
    most: 0.55,
    even: [
      [-710.4, 710.4],
      [-25, 25],
      [-0.2, 0.2],
    ],
    sizes: [[1e-12, 1]],
    signed: true,
  },
  cosh: {
    exact: (x) => x.exp().plus(one.div(x.exp())).div(2),
    most: 0.51,
    even: [
      [-710.4, 710.4],
      [-25, 25],
    ],
    sizes: [[1e-12, 1]],
  },
  tanh: {
    exact: (x) => one.minus(decimal(2).div(x.times(2).exp().plus(1))),
    most: 0.57,
    even: [
      [-23, 23],
      [-0.2, 0.2],
    ],
    sizes: [[1e-12, 1]],
    signed: true,
  },
  asinh: {
    exact: (x) =>
      x
        .abs()
        .plus(x.times(x).plus(1).sqrt())
        .ln()
        .times(x.toNumber() < 0 ? -1 : 1),
    most: 0.51,
    even: [[-3, 3]],
    sizes: [[1e-12, 1e300]],
    signed: true,
  },
  acosh: {
    exact: (x) => x.plus(x.times(x).minus(1).sqrt()).ln(),
    most: 0.53,
    even: [[1, 30]],
    sizes: [[1, 1e300]],
  },
  cbrt: {
    exact: (x) => x.cbrt(),
    most: 0.501,
    even: [[-30, 30]],
    sizes: [[5e-324, 1.7e308]],
    signed: true,
  },
  sin: {
    exact: (x) => x.sin(),
    most: 0.7,
    even: [
      [-10, 10],
      [-1e6, 1e6],
    ],
    sizes: [[1e-9, 1]],
    signed: true,
  },
  cos: {
    exact: (x) => x.cos(),
    most: 0.7,
    even: [
      [-10, 10],
      [-1e6, 1e6],
    ],
    sizes: [[1e-9, 1]],
    signed: true,
  },
  tan: {
    exact: (x) => x.sin().div(x.cos()),
    most: 0.85,
    even: [
      [-10, 10],
      [-1e6, 1e6],
    ],
    sizes: [[1e-9, 1]],
    signed: true,
  },
  atan: {
    exact: (x) => x.atan(),
    most: 0.7,
    even: [
      [-2, 2],
      [-20, 20],
    ],
    sizes: [[1e-9, 1e9]],
    signed: true,
  },
};

function argumentsOf({ even = [], sizes = [], signed, nearOne }: Checked, name: string): number[] {
  const random = new RandomStream(20261125, name);
  const made: number[] = [];
  const unit = (i: number): number => random.words(i)[0]! / 2 ** 32 + random.words(i)[1]! / 2 ** 64;
  for (let i = 0; i < COUNT; i++) {
    const sign = signed && random.words(i)[2]! % 2 === 0 ? -1 : 1;
    for (const [low, high] of even) made.push(low + (high - low) * unit(i));
    for (const [low, high] of sizes)
      made.push(sign * low * Math.exp(unit(i) * (Math.log(high) - Math.log(low))));
    if (nearOne)
      made.push(1 + (i % 2 ? 1 : -1) * nearOne[0] * (nearOne[1] / nearOne[0]) ** unit(i));
  }
  return made.filter((x) => Number.isFinite(x) && (name !== "acosh" || x >= 1));
}

describe("each function is within its stated distance of 70 digits of a general library", () => {
  test.each(Object.entries(FUNCTIONS))("%s", (name, checked) => {
    const f = elementary[name as keyof typeof FUNCTIONS];
    let worst = { units: 0, x: 0 };
    for (const x of argumentsOf(checked, name)) {
      const digits = /sinh|acosh|expm1/.test(name) ? 110 : 70;
      const units = unitsApart(f(x), checked.exact(decimal(x, digits)));
      if (!(units <= worst.units)) worst = { units, x };
    }
    expect(worst.units, `at ${worst.x}`).toBeLessThan(checked.most);
  });

  test("pow, of any size, of bases near one, and where results become subnormal", () => {
    const random = new RandomStream(20261125, "pow");
    let worst = { units: 0, x: 0, y: 0 };
    for (let i = 0; i < 500; i++) {
      const [a, b, c] = [0, 1, 2].map((k) => random.words(i)[k]! / 2 ** 32) as [
        number,
        number,
        number,
      ];
      const x = i % 2 ? Math.exp(1400 * a - 700) : 1 + (a - 0.5) * 10 ** (-9 * c);
      const y = (-745 + 1454 * b) / Math.log(x);
      if (!Number.isFinite(y) || [0.5, 2, 3].includes(y)) continue;
      const exact = decimal(x, 90).ln().times(decimal(y)).exp();
      const units = unitsApart(elementary.pow(x, y), exact);
      if (!(units <= worst.units)) worst = { units, x, y };
    }
    expect(worst.units, `at ${worst.x}, ${worst.y}`).toBeLessThan(0.52);
  });

  test("hypot, of sides of any size", () => {
    const random = new RandomStream(20261125, "hypot");
    let worst = { units: 0, x: 0, y: 0 };
    for (let i = 0; i < 500; i++) {
      const [a, b] = [0, 1].map((k) => random.words(i)[k]! / 2 ** 32) as [number, number];
      const x = 10 ** (600 * a - 300);
      const y = x * 10 ** (18 * b - 9);
      const exact = decimal(x)
        .times(decimal(x))
        .plus(decimal(y).times(decimal(y)))
        .sqrt();
      const units = unitsApart(elementary.hypot(x, y), exact);
      if (!(units <= worst.units)) worst = { units, x, y };
    }
    expect(worst.units, `at ${worst.x}, ${worst.y}`).toBeLessThan(0.51);
  });
});

describe("hard cases", () => {
  // K. C. Ng, "Argument reduction for huge arguments: good to the last bit", 1992: the double that is
  // nearest to a multiple of pi / 2 of all, and its cosine.
  test("the double nearest to a multiple of pi / 2 keeps all digits of its cosine", () => {
    const x = 6381956970095103 * 2 ** 797;
    expect(elementary.cos(x)).toBe(-4.687165924254628e-19);
    expect(elementary.sin(x)).toBe(1);
    expect(unitsApart(elementary.tan(x), one.div(decimal(-4.687165924254628e-19)))).toBeLessThan(4);
  });

  test("the largest doubles are reduced exactly", () => {
    for (const x of [Number.MAX_VALUE, 1e22, 1e300, -(2 ** 1000)]) {
      // Beyond the digits of the argument itself, thirty of the remainder.
      const digits = 380;
      expect(unitsApart(elementary.sin(x), decimal(x, digits).sin())).toBeLessThan(0.7);
      expect(unitsApart(elementary.cos(x), decimal(x, digits).cos())).toBeLessThan(0.7);
    }
    // The examples of the same report and of many handbooks: sin 1e22.
    expect(elementary.sin(1e22)).toBe(-0.8522008497671888);
  });

  test("results that are subnormal are rounded once", () => {
    for (let x = -708; x > -745.2; x -= 0.37) {
      expect(unitsApart(elementary.exp(x), decimal(x).exp())).toBeLessThan(0.51);
    }
    expect(elementary.exp(-745.1332191019411)).toBe(5e-324);
    expect(elementary.exp(-745.1332191019412)).toBe(0);
    const last = 709.782712893384;
    expect(unitsApart(elementary.exp(last), decimal(last).exp())).toBeLessThan(0.51);
    expect(elementary.exp(709.7827128933841)).toBe(Number.POSITIVE_INFINITY);
  });

  test("what is exact stays exact: powers of two and of ten, their logarithms, cubes", () => {
    let power = 5e-324;
    for (let n = -1074; n <= 1023; n++, power *= 2) {
      expect(elementary.pow(2, n)).toBe(power);
      expect(elementary.log2(power)).toBe(n);
    }
    for (let n = 0; n <= 22; n++) {
      const ten = Number(`1e${n}`);
      expect(elementary.pow(10, n)).toBe(ten);
      expect(elementary.log10(ten)).toBe(n);
    }
    for (let n = 1; n < 2000; n++) {
      expect(elementary.cbrt(n * n * n)).toBe(n);
      expect(elementary.pow(n, 4)).toBe(n * n * n * n);
      expect(elementary.pow(n, 1)).toBe(n);
    }
  });

  test("squares, cubes and roots are products and roots, also where the exponent was computed", () => {
    for (const x of [0.1, -0.3, 7.7, 1e200, -1e-200, 5e-324, 0, -0, Number.NaN]) {
      expect(elementary.pow(x, 2)).toBe(x * x);
      expect(elementary.pow(x, 3)).toBe(x * x * x);
      if (x >= 0) expect(elementary.pow(x, 0.5)).toBe(Math.sqrt(x) + 0);
    }
  });
});

test("special values are those of the language's standard", () => {
  // The standard fixes infinities, zeros with their signs and what is not a number: any engine has them.
  const { POSITIVE_INFINITY: inf, NEGATIVE_INFINITY: minus, NaN: nan } = Number;
  const values = [
    0,
    -0,
    1,
    -1,
    2,
    -2,
    0.5,
    -0.5,
    3,
    inf,
    minus,
    nan,
    1e308,
    -1e308,
    2 ** 53,
    -3,
    -7e300,
  ];
  const special = (y: number): boolean => y === 0 || Number.isNaN(y) || Math.abs(y) === inf;
  for (const name of Object.keys(FUNCTIONS) as (keyof typeof FUNCTIONS)[]) {
    for (const x of values) {
      const wanted = Math[name](x);
      if (special(wanted)) expect([name, x, elementary[name](x)]).toEqual([name, x, wanted]);
      else expect([name, x, special(elementary[name](x))]).toEqual([name, x, false]);
    }
  }
  for (const x of values) {
    for (const y of values) {
      const wanted = x ** y;
      if (special(wanted)) expect([x, y, elementary.pow(x, y)]).toEqual([x, y, wanted]);
      else expect([x, y, special(elementary.pow(x, y))]).toEqual([x, y, false]);
    }
  }
});
