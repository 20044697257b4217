/** Node by node: junction voltages and currents, Kirchhoff's law, and the steps of the voltages. */
import {
  type Assembled,
  type Code,
  FunctionBuilder,
  float,
  int,
  type Local,
  pair,
  repeatWhile,
} from "../../webassembly/assembler.ts";

type Names<Name extends string> = Record<Name, Local>;

function addresses<Name extends string>(f: FunctionBuilder, names: readonly Name[]): Names<Name> {
  return Object.fromEntries(names.map((n) => [n, f.parameter("i32")])) as Names<Name>;
}

/** The body for k = 0, 16, … below `bytes`. */
function everyPair(k: Local, bytes: Local, body: readonly Code[]): Code {
  return [
    ...k.set(int.of(0)),
    ...repeatWhile([...body, k.set(int.add(k.get, int.of(16)))], int.less(k.get, bytes.get)),
  ];
}

/** (high - high') + (low - low'). */
function difference(highA: Code, highB: Code, lowA: Code, lowB: Code): Code {
  return pair.add(
    pair.sub(pair.load(highA), pair.load(highB)),
    pair.sub(pair.load(lowA), pair.load(lowB)),
  );
}

/** v = (uh - wh) + (ul - wl). */
export function junctionVoltages(): Assembled {
  const f = new FunctionBuilder("junctionVoltages");
  const a = addresses(f, ["uh", "ul", "wh", "wl", "v", "bytes"]);
  const k = f.local("i32");
  const at = (array: Local) => int.add(array.get, k.get);
  return f.finish(
    everyPair(k, a.bytes, [
      pair.store(at(a.v), difference(at(a.uh), at(a.wh), at(a.ul), at(a.wl))),
    ]),
  );
}

/** y = g v. */
export function ohmicCurrents(): Assembled {
  const f = new FunctionBuilder("ohmicCurrents");
  const a = addresses(f, ["g", "v", "y", "bytes"]);
  const k = f.local("i32");
  const at = (array: Local) => int.add(array.get, k.get);
  return f.finish(
    everyPair(k, a.bytes, [pair.store(at(a.y), pair.mul(pair.load(at(a.g)), pair.load(at(a.v))))]),
  );
}

/** y += g x. */
export function addProduct(): Assembled {
  const f = new FunctionBuilder("addProduct");
  const a = addresses(f, ["g", "x", "y", "bytes"]);
  const k = f.local("i32");
  const at = (array: Local) => int.add(array.get, k.get);
  return f.finish(
    everyPair(k, a.bytes, [
      pair.store(
        at(a.y),
        pair.add(pair.load(at(a.y)), pair.mul(pair.load(at(a.g)), pair.load(at(a.x)))),
      ),
    ]),
  );
}

/** y += x. */
export function add(): Assembled {
  const f = new FunctionBuilder("add");
  const a = addresses(f, ["x", "y", "bytes"]);
  const k = f.local("i32");
  const at = (array: Local) => int.add(array.get, k.get);
  return f.finish(
    everyPair(k, a.bytes, [pair.store(at(a.y), pair.add(pair.load(at(a.y)), pair.load(at(a.x))))]),
  );
}

/** high + low += factor * step, without loss. */
export function advance(): Assembled {
  const f = new FunctionBuilder("advance");
  const arrays = addresses(f, ["high", "low", "step", "bytes"]);
  const factor = f.parameter("f64");
  const k = f.local("i32");
  const [times, a, b, sum, back, rest, h] = f.many(7, "v128") as [
    Local,
    Local,
    Local,
    Local,
    Local,
    Local,
    Local,
  ];
  const at = (array: Local) => int.add(array.get, k.get);
  return f.finish(
    times.set(pair.splat(factor.get)),
    everyPair(k, arrays.bytes, [
      a.set(pair.load(at(arrays.high))),
      b.set(pair.mul(times.get, pair.load(at(arrays.step)))),
      sum.set(pair.add(a.get, b.get)),
      back.set(pair.sub(sum.get, a.get)),
      rest.set(
        pair.add(
          pair.load(at(arrays.low)),
          pair.add(pair.sub(a.get, pair.sub(sum.get, back.get)), pair.sub(b.get, back.get)),
        ),
      ),
      h.set(pair.add(sum.get, rest.get)),
      pair.store(at(arrays.high), h.get),
      pair.store(at(arrays.low), pair.sub(rest.get, pair.sub(h.get, sum.get))),
    ]),
  );
}

/**
 * The current that is missing at every node, without the terminals, and the largest of them relative to the sum of the
 * magnitudes at its node, not counting the ends of lines.
 *
 * `before`, `after`, `inner` hold per column the conductance of the segment before and after, and 1 where a node is no
 * end of its row; `perRow` the same three for every row, each twice; `worst` receives two lanes.
 */
export function kirchhoff(): Assembled {
  const f = new FunctionBuilder("kirchhoff");
  const a = addresses(f, [
    "uh",
    "ul",
    "wh",
    "wl",
    "current",
    "ru",
    "rw",
    "before",
    "after",
    "inner",
    "perRow",
    "m",
    "stride",
    "worst",
  ]);
  const floor = f.parameter("f64");
  const [k, j, i, row] = f.many(4, "i32") as [Local, Local, Local, Local];
  const [down, first, second, worst, least, above, below, inside] = f.many(8, "v128") as [
    Local,
    Local,
    Local,
    Local,
    Local,
    Local,
    Local,
    Local,
  ];
  const at = (array: Local, shift: Code = int.of(0)) => int.add(int.add(array.get, k.get), shift);
  const inRow = (array: Local) => pair.load(int.add(array.get, j.get));
  const flow = (high: Local, low: Local, from: Code, to: Code, g: Code): Code =>
    pair.mul(g, difference(at(high, from), at(high, to), at(low, from), at(low, to)));
  const here = int.of(0);
  const judge = (missing: Code, weight: Code): Code =>
    worst.set(
      pair.max(
        worst.get,
        pair.mul(
          weight,
          pair.div(
            pair.abs(missing),
            pair.add(
              pair.add(pair.abs(down.get), least.get),
              pair.add(pair.abs(first.get), pair.abs(second.get)),
            ),
          ),
        ),
      ),
    );
  const rowMissing = pair.sub(pair.sub(first.get, second.get), down.get);
  const columnMissing = pair.add(pair.sub(first.get, second.get), down.get);
  const minusStride = int.sub(int.of(0), a.stride.get);
  return f.finish(
    least.set(pair.splat(floor.get)),
    i.set(int.of(0)),
    k.set(int.of(0)),
    repeatWhile(
      [
        row.set(int.add(a.perRow.get, int.mul(i.get, int.of(48)))),
        above.set(pair.load(row.get)),
        below.set(pair.load(row.get, 16)),
        inside.set(pair.load(row.get, 32)),
        j.set(int.of(0)),
        repeatWhile(
          [
            down.set(pair.load(at(a.current))),
            first.set(flow(a.uh, a.ul, int.of(-8), here, inRow(a.before))),
            second.set(flow(a.uh, a.ul, here, int.of(8), inRow(a.after))),
            pair.store(at(a.ru), rowMissing),
            judge(rowMissing, inRow(a.inner)),
            first.set(flow(a.wh, a.wl, minusStride, here, above.get)),
            second.set(flow(a.wh, a.wl, here, a.stride.get, below.get)),
            pair.store(at(a.rw), columnMissing),
            judge(columnMissing, inside.get),
            k.set(int.add(k.get, int.of(16))),
            j.set(int.add(j.get, int.of(16))),
          ],
          int.less(j.get, a.stride.get),
        ),
        i.set(int.add(i.get, int.of(1))),
      ],
      int.less(i.get, a.m.get),
    ),
    float.store(a.worst.get, pair.lane(worst.get, 0)),
    float.store(a.worst.get, pair.lane(worst.get, 1), 8),
  );
}
