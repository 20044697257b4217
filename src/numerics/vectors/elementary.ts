/**
 * Kernels of exponentials, logarithms and powers: step by step what `elementary` does to one number,
 * for those that it computes without a detour. The others are marked and computed there.
 */

import {
  FIFTH,
  FOURTH,
  PLAIN,
  STEP_HIGH,
  STEP_LOW,
  STEPS,
  THIRD,
  WHOLE,
} from "../elementary/exponential.ts";
import { LOG_FROM } from "../elementary/log-table.ts";
import { LEAST_NORMAL, LN2_HIGH, LN2_LOW, R_UPPER, Z_UPPER } from "../elementary/logarithm.ts";
import {
  type Assembled,
  bits,
  type Code,
  type FunctionBuilder,
  int,
  type Local,
  pair,
  when,
} from "../webassembly/assembler.ts";
import { kernel } from "./kernel.ts";
import { EXP_AT, LOG_AT } from "./tables.ts";

const { add, sub, mul } = pair;
const of = pair.of;
/** c0 + x c1 as the scalar code has it. */
const line = (c0: number, x: Code, c1: number): Code => add(of(c0), mul(x, of(c1)));

/** Both rows of a table whose rows start at computed addresses: their first and their second halves. */
function rows(first: Local, second: Local, offset: number): [Code, Code] {
  const a = pair.load(first.get, offset);
  const b = pair.load(second.get, offset);
  return [pair.firsts(a, b), pair.seconds(a, b)];
}

/** e^(x + low). */
function expSteps(f: FunctionBuilder, x: Local, low?: Local): { steps: Code[]; result: Code } {
  const [shifted, k, r, square, scale, small] = f.many(6, "v128") as Local[];
  const [first, second] = f.many(2, "i32") as [Local, Local];
  const row = (lane: number): Code =>
    int.add(
      int.of(EXP_AT),
      int.shiftLeft(int.and(bits.word(shifted!.get, 2 * lane), int.of(127)), int.of(4)),
    );
  const [scales, tails] = rows(first, second, 0);
  const reduced = sub(sub(x.get, mul(k!.get, of(STEP_HIGH))), mul(k!.get, of(STEP_LOW)));
  const steps = [
    shifted!.set(add(mul(x.get, of(STEPS)), of(WHOLE))),
    k!.set(sub(shifted!.get, of(WHOLE))),
    r!.set(low ? add(reduced, low.get) : reduced),
    square!.set(mul(r!.get, r!.get)),
    first.set(row(0)),
    second.set(row(1)),
    scale!.set(bits.add(scales, bits.shiftLeft(bits.shiftRight(shifted!.get, 7), 52))),
    small!.set(
      add(
        add(add(tails, r!.get), mul(square!.get, line(0.5, r!.get, THIRD))),
        mul(mul(square!.get, square!.get), line(FOURTH, r!.get, FIFTH)),
      ),
    ),
  ];
  return { steps, result: add(scale!.get, mul(scale!.get, small!.get)) };
}

/** log x as a pair of locals. */
function logSteps(f: FunctionBuilder, x: Local): { steps: Code[]; high: Local; low: Local } {
  const locals = f.many(11, "v128") as Local[];
  const [from, k, z, zUpper, inverse, tabled, r, base, sum, half, square] = locals as [
    Local,
    Local,
    Local,
    Local,
    Local,
    Local,
    Local,
    Local,
    Local,
    Local,
    Local,
  ];
  const [rUpper, halfLow, high, low, first] = f.many(5, "v128") as [
    Local,
    Local,
    Local,
    Local,
    Local,
  ];
  const [one, two] = f.many(2, "i32") as [Local, Local];
  const row = (lane: number): Code =>
    int.add(
      int.of(LOG_AT),
      int.and(int.shiftRight(bits.word(from.get, 2 * lane + 1), int.of(8)), int.of(127 << 5)),
    );
  const [inverses, highs] = rows(one, two, 0);
  const [lows] = rows(one, two, 16);
  const power = bits.shiftRightSigned(from.get, 52);
  const inner = add(line(1 / 7, r.get, -1 / 8), mul(square.get, of(1 / 9)));
  const middle = add(line(1 / 5, r.get, -1 / 6), mul(square.get, inner));
  const outer = add(line(1 / 3, r.get, -1 / 4), mul(square.get, middle));
  const series = mul(mul(r.get, square.get), outer);
  const steps = [
    from.set(bits.subtract(x.get, of(FROM))),
    k.set(sub(bits.add(power, of(WHOLE)), of(WHOLE))),
    z.set(bits.subtract(x.get, bits.shiftLeft(power, 52))),
    one.set(row(0)),
    two.set(row(1)),
    inverse.set(inverses),
    tabled.set(highs),
    zUpper.set(sub(add(z.get, of(Z_UPPER)), of(Z_UPPER))),
    r.set(add(sub(mul(zUpper.get, inverse.get), of(1)), mul(sub(z.get, zUpper.get), inverse.get))),
    base.set(add(mul(k.get, of(LN2_HIGH)), tabled.get)),
    sum.set(add(base.get, r.get)),
    rUpper.set(sub(add(r.get, of(R_UPPER)), of(R_UPPER))),
    half.set(mul(mul(of(0.5), rUpper.get), rUpper.get)),
    halfLow.set(mul(mul(of(0.5), sub(r.get, rUpper.get)), add(r.get, rUpper.get))),
    high.set(sub(sum.get, half.get)),
    square.set(mul(r.get, r.get)),
    low.set(
      add(
        add(
          add(add(mul(k.get, of(LN2_LOW)), lows), add(sub(base.get, sum.get), r.get)),
          sub(sub(sum.get, high.get), half.get),
        ),
        sub(series, halfLow.get),
      ),
    ),
    first.set(add(high.get, low.get)),
    low.set(add(sub(high.get, first.get), low.get)),
  ];
  return { steps, high: first, low };
}

/** The double whose upper word is `LOG_FROM` and whose lower is 0. */
const FROM = (2 ** 20 + (LOG_FROM & 0xfffff)) / 2 ** 21;

/** Not a positive normal number. */
function unusual(x: Code): Code {
  const usual = bits.and(
    pair.atMost(of(LEAST_NORMAL), x),
    pair.less(x, of(Number.POSITIVE_INFINITY)),
  );
  return bits.not(usual);
}

const tooLarge = (x: Code): Code => bits.not(pair.atMost(pair.abs(x), of(PLAIN)));

function expKernel(): Assembled {
  return kernel("exp", 1, (f, [x]) => ({ ...expSteps(f, x!), special: tooLarge(x!.get) }));
}

function logKernel(): Assembled {
  return kernel("log", 1, (f, [x]) => {
    const { steps, high } = logSteps(f, x!);
    return { steps, result: high.get, special: unusual(x!.get) };
  });
}

function log1pKernel(): Assembled {
  return kernel("log1p", 1, (f, [x]) => {
    const [sum, back, lost] = f.many(3, "v128") as [Local, Local, Local];
    const { steps, high, low } = logSteps(f, sum);
    const inside = bits.and(
      bits.and(pair.less(of(-1), x!.get), pair.less(x!.get, of(Number.POSITIVE_INFINITY))),
      pair.differ(x!.get, of(0)),
    );
    return {
      steps: [
        sum.set(add(of(1), x!.get)),
        back.set(sub(sum.get, of(1))),
        lost.set(add(sub(of(1), sub(sum.get, back.get)), sub(x!.get, back.get))),
        ...steps,
      ],
      result: add(high.get, add(low.get, pair.div(lost.get, sum.get))),
      special: bits.not(inside),
    };
  });
}

/** The upper 26 bits. */
function upper(spread: Local, x: Code): Code {
  return sub(spread.get, sub(spread.get, x));
}

function powKernel(): Assembled {
  return kernel("pow", 2, (f, operands) => {
    const [x, y] = operands as [Local, Local];
    const log = logSteps(f, x);
    const split = f.many(6, "v128") as [Local, Local, Local, Local, Local, Local];
    const [spread, logUpper, yUpper, product, rest, exponent] = split;
    const [easy, result, wrong] = f.many(3, "v128") as [Local, Local, Local];
    const exp = expSteps(f, exponent, rest);
    const two = pair.equal(y.get, of(2));
    const three = pair.equal(y.get, of(3));
    const half = bits.and(pair.equal(y.get, of(0.5)), pair.atMost(of(0), x.get));
    const steps = [
      ...log.steps,
      spread.set(mul(of(134217729), log.high.get)),
      logUpper.set(upper(spread, log.high.get)),
      spread.set(mul(of(134217729), y.get)),
      yUpper.set(upper(spread, y.get)),
      product.set(mul(yUpper.get, logUpper.get)),
      rest.set(
        add(
          mul(sub(y.get, yUpper.get), logUpper.get),
          mul(y.get, add(sub(log.high.get, logUpper.get), log.low.get)),
        ),
      ),
      exponent.set(add(product.get, rest.get)),
      rest.set(add(sub(product.get, exponent.get), rest.get)),
      ...exp.steps,
      easy.set(bits.or(bits.or(two, three), half)),
    ];
    const square = mul(x.get, x.get);
    const powers = pair.choose(square, pair.choose(mul(square, x.get), result.get, three), two);
    const detour = [
      result.set(pair.choose(add(pair.sqrt(x.get), of(0)), powers, half)),
      wrong.set(bits.andNot(wrong.get, easy.get)),
    ];
    steps.push(
      result.set(exp.result),
      wrong.set(bits.or(unusual(x.get), tooLarge(exponent.get))),
      when(bits.any(easy.get), detour),
    );
    return { steps, result: result.get, special: wrong.get };
  });
}

/** Kernels by operation. */
export function elementaryKernels(): Map<string, Assembled> {
  return new Map([
    ["exp", expKernel()],
    ["log", logKernel()],
    ["log1p", log1pKernel()],
    ["pow", powKernel()],
  ]);
}
