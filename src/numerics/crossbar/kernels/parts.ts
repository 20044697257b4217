/**
 * Pieces that the kernels share. Arrays lie in one memory; every array of a level has rows of n doubles, n even, and
 * rows go four at a time. The row factors `c` lie interleaved: the four values of a group at one column side by side,
 * so that the recurrence along four rows needs two vectors.
 */
import {
  type Code,
  type FunctionBuilder,
  int,
  type Local,
  pair,
} from "../../webassembly/assembler.ts";

export const ROWS = [0, 1, 2, 3] as const;

/** The byte offsets of the four rows of a group at the present column. */
export interface Group {
  readonly at: readonly Local[];
  /** Sets the four offsets for row offset `start` plus column offset. */
  place(start: Code, stride: Local): Code;
  move(bytes: number): Code;
}

export function group(f: FunctionBuilder): Group {
  const at = f.many(4, "i32");
  return {
    at,
    place: (start, stride) => [
      ...at[0]!.set(start),
      ...[1, 2, 3].flatMap((k) => at[k]!.set(int.add(at[k - 1]!.get, stride.get))),
    ],
    move: (bytes) => at.flatMap((p) => p.set(int.add(p.get, int.of(bytes)))),
  };
}

/** Address of an array's element at a row's offset. */
export function element(array: Local, at: Local): Code {
  return int.add(array.get, at.get);
}

/**
 * Pushes the four row vectors (two columns each) through the forward recurrence y' = b + c y and stores y interleaved.
 * @param y the two running vectors (rows 0 and 1, rows 2 and 3), already multiplied by c
 * @param scratch address of the interleaved line, c of the interleaved factors, at the present column
 */
export function forwardRows(
  y: readonly [Local, Local],
  b: readonly Local[],
  scratch: Code,
  c: Code,
): Code {
  const column = (take: typeof pair.firsts, shift: number): Code => [
    ...y[0].set(pair.add(y[0].get, take(b[0]!.get, b[1]!.get))),
    ...y[1].set(pair.add(y[1].get, take(b[2]!.get, b[3]!.get))),
    ...pair.store(scratch, y[0].get, shift),
    ...pair.store(scratch, y[1].get, shift + 16),
    ...y[0].set(pair.mul(y[0].get, pair.load(c, shift))),
    ...y[1].set(pair.mul(y[1].get, pair.load(c, shift + 16))),
  ];
  return [...column(pair.firsts, 0), ...column(pair.seconds, 32)];
}

/**
 * One step back: x = (r y + x) c at two columns, the later one first, and the four row vectors of it in `out`.
 * The factor of the last column is 1/s with r = 1 folded in by the caller (x starts at 0).
 */
export function backRows(
  x: readonly [Local, Local],
  late: readonly [Local, Local],
  r: Local,
  scratch: Code,
  c: Code,
  out: readonly Local[],
): Code {
  const column = (shift: number): Code =>
    [0, 1].flatMap((k) =>
      x[k]!.set(
        pair.mul(
          pair.add(pair.mul(r.get, pair.load(scratch, shift + 16 * k)), x[k]!.get),
          pair.load(c, shift + 16 * k),
        ),
      ),
    );
  return [
    ...column(32),
    ...late[0].set(x[0].get),
    ...late[1].set(x[1].get),
    ...column(0),
    ...out[0]!.set(pair.firsts(x[0].get, late[0].get)),
    ...out[1]!.set(pair.seconds(x[0].get, late[0].get)),
    ...out[2]!.set(pair.firsts(x[1].get, late[1].get)),
    ...out[3]!.set(pair.seconds(x[1].get, late[1].get)),
  ];
}
