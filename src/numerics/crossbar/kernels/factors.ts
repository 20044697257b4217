/** Factors of all line systems: c = 1 / (1 + r s), s ← g' + c s along the line. */
import {
  type Assembled,
  type Code,
  FunctionBuilder,
  int,
  type Local,
  pair,
  repeatWhile,
} from "../../webassembly/assembler.ts";
import { element, group, ROWS } from "./parts.ts";

/** s ← g + c s after c = 1 / (1 + r s). */
function step(s: Local, one: Local, r: Local, c: Local, g: Code): Code {
  return [
    ...c.set(pair.div(one.get, pair.add(one.get, pair.mul(r.get, s.get)))),
    ...s.set(pair.add(g, pair.mul(c.get, s.get))),
  ];
}

/** Columns: rows `0` to `count` - 1 of c from s, a row of running sums that already holds row 0. */
export function factorColumns(): Assembled {
  const f = new FunctionBuilder("factorColumns");
  const [c, g, s, count, stride] = [1, 2, 3, 4, 5].map(() => f.parameter("i32")) as [
    Local,
    Local,
    Local,
    Local,
    Local,
  ];
  const r = f.parameter("f64");
  const [k, j] = f.many(2, "i32") as [Local, Local];
  const [one, rr, run, cc] = f.many(4, "v128") as [Local, Local, Local, Local];
  const sums = int.add(s.get, j.get);
  return f.finish(
    one.set(pair.splat([0x44, 0, 0, 0, 0, 0, 0, 0xf0, 0x3f])),
    rr.set(pair.splat(r.get)),
    k.set(int.of(0)),
    repeatWhile(
      [
        j.set(int.of(0)),
        repeatWhile(
          [
            run.set(pair.load(sums)),
            step(run, one, rr, cc, pair.load(int.add(int.add(g.get, k.get), stride.get))),
            pair.store(int.add(c.get, k.get), cc.get),
            pair.store(sums, run.get),
            j.set(int.add(j.get, int.of(16))),
            k.set(int.add(k.get, int.of(16))),
          ],
          int.less(j.get, stride.get),
        ),
      ],
      int.less(k.get, int.mul(count.get, stride.get)),
    ),
  );
}

/**
 * Rows, four at a time: interleaved c of columns `from` (a byte offset, a multiple of 32) to the last but one, and the
 * running sum at the last column in `s`. On entry `s` holds the conductance to add at column `from`.
 */
export function factorRows(): Assembled {
  const f = new FunctionBuilder("factorRows");
  const [c, g, s, m, stride] = [1, 2, 3, 4, 5].map(() => f.parameter("i32")) as [
    Local,
    Local,
    Local,
    Local,
    Local,
  ];
  const r = f.parameter("f64");
  const rows = group(f);
  const [start, lines, j, to] = f.many(4, "i32") as [Local, Local, Local, Local];
  const v = f.many(4, "v128");
  const run = f.many(2, "v128") as [Local, Local];
  const cc = f.many(2, "v128") as [Local, Local];
  const [one, rr] = f.many(2, "v128") as [Local, Local];
  const column = (take: typeof pair.firsts, shift: number): Code =>
    [0, 1].flatMap((k) => [
      ...run[k]!.set(pair.add(run[k]!.get, take(v[2 * k]!.get, v[2 * k + 1]!.get))),
      ...pair.store(int.add(s.get, lines.get), run[k]!.get, 16 * k),
      ...cc[k]!.set(pair.div(one.get, pair.add(one.get, pair.mul(rr.get, run[k]!.get)))),
      ...pair.store(to.get, cc[k]!.get, shift + 16 * k),
      ...run[k]!.set(pair.mul(cc[k]!.get, run[k]!.get)),
    ]);
  return f.finish(
    one.set(pair.splat([0x44, 0, 0, 0, 0, 0, 0, 0xf0, 0x3f])),
    rr.set(pair.splat(r.get)),
    start.set(int.of(0)),
    lines.set(int.of(0)),
    repeatWhile(
      [
        rows.place(start.get, stride),
        to.set(int.add(c.get, start.get)),
        run[0].set(pair.load(int.add(s.get, lines.get))),
        run[1].set(pair.load(int.add(s.get, lines.get), 16)),
        j.set(int.of(0)),
        repeatWhile(
          [
            ...ROWS.map((k) => v[k]!.set(pair.load(element(g, rows.at[k]!)))),
            column(pair.firsts, 0),
            column(pair.seconds, 32),
            rows.move(16),
            to.set(int.add(to.get, int.of(64))),
            j.set(int.add(j.get, int.of(16))),
          ],
          int.less(j.get, stride.get),
        ),
        lines.set(int.add(lines.get, int.of(32))),
        start.set(int.add(start.get, int.mul(stride.get, int.of(4)))),
      ],
      int.less(lines.get, int.mul(m.get, int.of(8))),
    ),
  );
}
