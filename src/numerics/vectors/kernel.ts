/** What all kernels share: they read one instruction and go through its columns. */

import {
  type Assembled,
  bits,
  type Code,
  call,
  FunctionBuilder,
  int,
  type Local,
  pair,
  repeatWhile,
  when,
} from "../webassembly/assembler.ts";

/** Where the imported function stands that computes an instruction in plain loops. */
const BY_LOOPS = 0;
export const IMPORTED = [{ name: "byLoops", parameters: 2 }] as const;

/** A pair of numbers and what computes the next pair. */
export interface Body {
  /** Computes locals, from the operands' locals. */
  readonly steps: readonly Code[];
  readonly result: Code;
  /** A mask of the lanes that this does not compute rightly. */
  readonly special?: Code;
}

/**
 * A kernel `(code, bytes)`.
 *
 * @param name of the operation; @param operands how many it has
 * @param body what it does to a pair, given the builder and the operands
 */
export function kernel(
  name: string,
  operands: number,
  body: (f: FunctionBuilder, x: readonly Local[]) => Body,
): Assembled {
  const f = new FunctionBuilder(name);
  const code = f.parameter("i32");
  const bytes = f.parameter("i32");
  const [to, end] = f.many(2, "i32") as [Local, Local];
  const from = f.many(operands, "i32");
  const step = f.many(operands, "i32");
  const x = f.many(operands, "v128");
  const { steps, result, special } = body(f, x);
  const wrong = special && f.local("v128");
  return f.finish(
    to.set(int.load(code.get, 4)),
    end.set(int.add(to.get, bytes.get)),
    ...from.map((at, k) => at.set(int.load(code.get, 8 + 4 * k))),
    ...step.map((by, k) => by.set(int.load(code.get, 20 + 4 * k))),
    repeatWhile(
      [
        ...x.map((value, k) => value.set(pair.load(from[k]!.get))),
        ...steps,
        pair.store(to.get, result),
        ...(wrong ? [wrong.set(bits.or(wrong.get, special!))] : []),
        ...from.map((at, k) => at.set(int.add(at.get, step[k]!.get))),
        to.set(int.add(to.get, int.of(16))),
      ],
      int.less(to.get, end.get),
    ),
    ...(wrong ? [when(bits.any(wrong.get), [call(BY_LOOPS, code.get, bytes.get)])] : []),
  );
}

/** Pairs that the kernels of simple operations take at a time. */
const AT_ONCE = 4;

/**
 * A kernel of a simple operation, several pairs at a time.
 *
 * @param steps for each operand whether it has a number for each set, or one for all
 */
export function simpleKernel(
  name: string,
  steps: readonly boolean[],
  formula: (...x: readonly Code[]) => Code,
): Assembled {
  const f = new FunctionBuilder(name);
  const code = f.parameter("i32");
  const bytes = f.parameter("i32");
  const [to, end] = f.many(2, "i32") as [Local, Local];
  const from = f.many(steps.length, "i32");
  const fixed = f.many(steps.length, "v128");
  const size = 16 * AT_ONCE;
  const operand = (k: number, offset: number): Code =>
    steps[k] ? pair.load(from[k]!.get, offset) : fixed[k]!.get;
  const pairAt = (offset: number): Code =>
    pair.store(to.get, formula(...steps.map((_, k) => operand(k, offset))), offset);
  const forward = (pointer: Local): Code => pointer.set(int.add(pointer.get, int.of(size)));
  return f.finish(
    to.set(int.load(code.get, 4)),
    end.set(int.add(to.get, bytes.get)),
    ...from.map((at, k) => at.set(int.load(code.get, 8 + 4 * k))),
    ...fixed.map((value, k) => (steps[k] ? [] : value.set(pair.load(from[k]!.get)))),
    repeatWhile(
      [
        ...Array.from({ length: AT_ONCE }, (_, k) => pairAt(16 * k)),
        ...from.filter((_, k) => steps[k]).map(forward),
        forward(to),
      ],
      int.less(to.get, end.get),
    ),
  );
}
