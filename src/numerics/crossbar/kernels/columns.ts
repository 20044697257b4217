/** Column sweeps: forward sums, the way back, and the vector updates of a conjugate-gradient step. */
import {
  type Assembled,
  type Code,
  FunctionBuilder,
  int,
  type Local,
  pair,
  repeatWhile,
} from "../../webassembly/assembler.ts";

/** For k from `from` to `to` by 16 bytes. */
function sweep(k: Local, from: Code, to: Code, body: readonly Code[]): Code {
  return [
    ...k.set(from),
    ...repeatWhile([...body, k.set(int.add(k.get, int.of(16)))], int.less(k.get, to)),
  ];
}

/** z_i = b_i + c_{i-1} z_{i-1} for all rows; row -1 of z is zero. */
export function columnsForward(): Assembled {
  const f = new FunctionBuilder("columnsForward");
  const [z, b, c, m, stride] = [1, 2, 3, 4, 5].map(() => f.parameter("i32")) as [
    Local,
    Local,
    Local,
    Local,
    Local,
  ];
  const k = f.local("i32");
  const up = f.local("i32");
  return f.finish(
    sweep(k, int.of(0), int.mul(m.get, stride.get), [
      up.set(int.sub(k.get, stride.get)),
      pair.store(
        int.add(z.get, k.get),
        pair.add(
          pair.load(int.add(b.get, k.get)),
          pair.mul(pair.load(int.add(c.get, up.get)), pair.load(int.add(z.get, up.get))),
        ),
      ),
    ]),
  );
}

/** Moves the last row of forward sums, scaled to its solution, below the array, and zeroes it. */
export function closeColumns(): Assembled {
  const f = new FunctionBuilder("closeColumns");
  const [z, last, m, stride] = [1, 2, 3, 4].map(() => f.parameter("i32")) as [
    Local,
    Local,
    Local,
    Local,
  ];
  const k = f.local("i32");
  const row = f.local("i32");
  return f.finish(
    row.set(int.add(z.get, int.mul(int.sub(m.get, int.of(1)), stride.get))),
    sweep(k, int.of(0), stride.get, [
      pair.store(
        int.add(int.add(row.get, stride.get), k.get),
        pair.mul(pair.load(int.add(row.get, k.get)), pair.load(int.add(last.get, k.get))),
      ),
      pair.store(int.add(row.get, k.get), pair.zero),
    ]),
  );
}

/** z_i = (r z_i + z_{i+1}) c_i from the last row up; after `closeColumns`. */
export function columnsBack(): Assembled {
  const f = new FunctionBuilder("columnsBack");
  const [z, c, m, stride] = [1, 2, 3, 4].map(() => f.parameter("i32")) as [
    Local,
    Local,
    Local,
    Local,
  ];
  const r = f.parameter("f64");
  const k = f.local("i32");
  const at = f.local("i32");
  const rr = f.local("v128");
  return f.finish(
    rr.set(pair.splat(r.get)),
    k.set(int.sub(int.mul(m.get, stride.get), int.of(16))),
    repeatWhile(
      [
        at.set(int.add(z.get, k.get)),
        pair.store(
          at.get,
          pair.mul(
            pair.add(pair.mul(rr.get, pair.load(at.get)), pair.load(int.add(at.get, stride.get))),
            pair.load(int.add(c.get, k.get)),
          ),
        ),
        k.set(int.sub(k.get, int.of(16))),
      ],
      int.atLeast(k.get, int.of(0)),
    ),
  );
}

/** p ← z + βp, q ← s + βq, w += αp, r -= αq, and z ← forward sums of r. */
export function updateAndStart(): Assembled {
  const f = new FunctionBuilder("updateAndStart");
  const names = ["z", "s", "p", "q", "w", "r", "c", "m", "stride"] as const;
  const a = Object.fromEntries(names.map((n) => [n, f.parameter("i32")])) as Record<
    (typeof names)[number],
    Local
  >;
  const alpha = f.parameter("f64");
  const beta = f.parameter("f64");
  const [k, up] = f.many(2, "i32") as [Local, Local];
  const [al, be, p, q, r] = f.many(5, "v128") as [Local, Local, Local, Local, Local];
  const at = (array: Local): Code => int.add(array.get, k.get);
  return f.finish(
    al.set(pair.splat(alpha.get)),
    be.set(pair.splat(beta.get)),
    sweep(k, int.of(0), int.mul(a.m.get, a.stride.get), [
      p.set(pair.add(pair.load(at(a.z)), pair.mul(be.get, pair.load(at(a.p))))),
      q.set(pair.add(pair.load(at(a.s)), pair.mul(be.get, pair.load(at(a.q))))),
      pair.store(at(a.p), p.get),
      pair.store(at(a.q), q.get),
      pair.store(at(a.w), pair.add(pair.load(at(a.w)), pair.mul(al.get, p.get))),
      r.set(pair.sub(pair.load(at(a.r)), pair.mul(al.get, q.get))),
      pair.store(at(a.r), r.get),
      up.set(int.sub(k.get, a.stride.get)),
      pair.store(
        at(a.z),
        pair.add(
          r.get,
          pair.mul(pair.load(int.add(a.c.get, up.get)), pair.load(int.add(a.z.get, up.get))),
        ),
      ),
    ]),
  );
}
