/**
 * The kernels that go through the rows, four at a time: each reads two columns of a group, runs the row recurrences and
 * uses the solution while it is in cache. The column solve is finished, or started, in the same pass.
 */
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
import { backRows, element, forwardRows, group, ROWS } from "./parts.ts";

type Names<Name extends string> = Record<Name, Local>;

function parameters<Name extends string>(
  f: FunctionBuilder,
  type: "i32" | "f64",
  names: readonly Name[],
): Names<Name> {
  return Object.fromEntries(names.map((n) => [n, f.parameter(type)])) as Names<Name>;
}

/** Everything that a pass over groups of four rows keeps in locals. */
function frame(f: FunctionBuilder) {
  const rows = group(f);
  const [start, j, lines, scratchAt, factorAt] = f.many(5, "i32") as [
    Local,
    Local,
    Local,
    Local,
    Local,
  ];
  const v = f.many(4, "v128");
  const x = f.many(2, "v128") as [Local, Local];
  const late = f.many(2, "v128") as [Local, Local];
  return { rows, start, j, lines, scratchAt, factorAt, v, x, late };
}
type Frame = ReturnType<typeof frame>;

/** Column loop from left to right, two columns a turn; the row vectors b are made by `make`. */
function leftToRight(
  t: Frame,
  a: Names<"stride" | "scratch" | "cr">,
  make: readonly Code[],
  also: Code = [],
): Code {
  return [
    ...t.rows.place(t.start.get, a.stride),
    ...t.scratchAt.set(a.scratch.get),
    // Four rows share a line of interleaved factors: the group's offset is that of its first row.
    ...t.factorAt.set(int.add(a.cr.get, t.start.get)),
    ...t.x[0].set(pair.zero),
    ...t.x[1].set(pair.zero),
    ...t.j.set(int.of(0)),
    ...repeatWhile(
      [
        ...make,
        forwardRows(t.x, t.v, t.scratchAt.get, t.factorAt.get),
        t.rows.move(16),
        also,
        t.scratchAt.set(int.add(t.scratchAt.get, int.of(64))),
        t.factorAt.set(int.add(t.factorAt.get, int.of(64))),
        t.j.set(int.add(t.j.get, int.of(16))),
      ],
      int.less(t.j.get, a.stride.get),
    ),
  ];
}

/** Column loop from right to left; `use` finds the solution of the four rows in t.v. */
function rightToLeft(
  t: Frame,
  a: Names<"last">,
  r: Local,
  use: readonly Code[],
  also: Code = [],
): Code {
  const lastY = (k: 0 | 1): Code => pair.load(t.scratchAt.get, 32 + 16 * k);
  const lastAt = int.add(a.last.get, t.lines.get);
  const step: Code = [
    ...t.rows.move(-16),
    ...t.scratchAt.set(int.sub(t.scratchAt.get, int.of(64))),
    ...t.factorAt.set(int.sub(t.factorAt.get, int.of(64))),
    ...t.j.set(int.sub(t.j.get, int.of(16))),
  ];
  return [
    ...step,
    // The last node: x = y / s, then a step with y = 0 and c = 1 that keeps it.
    ...t.x[0].set(pair.mul(lastY(0), pair.load(lastAt))),
    ...t.x[1].set(pair.mul(lastY(1), pair.load(lastAt, 16))),
    ...pair.store(t.scratchAt.get, pair.zero, 32),
    ...pair.store(t.scratchAt.get, pair.zero, 48),
    ...repeatWhile(
      [backRows(t.x, t.late, r, t.scratchAt.get, t.factorAt.get, t.v), ...use, also, step],
      int.atLeast(t.j.get, int.of(0)),
    ),
  ];
}

/** Finishes the column solve of the group at the present two columns; leaves z of the rows in t.v. */
function finishColumns(t: Frame, a: Names<"z" | "cc" | "stride">, rc: Local): Code {
  const z = (row: number): Code => element(a.z, t.rows.at[row]!);
  const back = (row: number, below: Code): Code => [
    ...t.v[row]!.set(
      pair.mul(
        pair.add(pair.mul(rc.get, pair.load(z(row))), below),
        pair.load(element(a.cc, t.rows.at[row]!)),
      ),
    ),
    ...pair.store(z(row), t.v[row]!.get),
  ];
  return [
    ...back(3, pair.load(int.add(z(3), a.stride.get))),
    ...back(2, t.v[3]!.get),
    ...back(1, t.v[2]!.get),
    ...back(0, t.v[1]!.get),
  ];
}

/** v ← g v for the four rows. */
function timesG(t: Frame, g: Local): Code {
  return ROWS.flatMap((k) =>
    t.v[k]!.set(pair.mul(t.v[k]!.get, pair.load(element(g, t.rows.at[k]!)))),
  );
}

/** Runs `body` for every group, from the last to the first. */
function groupsUp(t: Frame, a: Names<"m" | "stride">, body: readonly Code[]): Code {
  return [
    ...t.lines.set(int.mul(int.sub(a.m.get, int.of(4)), int.of(8))),
    ...t.start.set(int.mul(int.sub(a.m.get, int.of(4)), a.stride.get)),
    ...repeatWhile(
      [
        ...body,
        t.lines.set(int.sub(t.lines.get, int.of(32))),
        t.start.set(int.sub(t.start.get, int.mul(a.stride.get, int.of(4)))),
      ],
      int.atLeast(t.lines.get, int.of(0)),
    ),
  ];
}

/** Finishes z = Tc⁻¹ h, s = h - G Tr⁻¹ G z = S z, and the sums r·z and z·s. */
export function finishAndApply(): Assembled {
  const f = new FunctionBuilder("finishAndApply");
  const a = parameters(f, "i32", [
    "z",
    "g",
    "cr",
    "last",
    "cc",
    "scratch",
    "m",
    "stride",
    "r",
    "h",
    "s",
    "sums",
  ]);
  const w = parameters(f, "f64", ["rr", "rc"]);
  const t = frame(f);
  const [rr, rc, rz, zs] = f.many(4, "v128") as [Local, Local, Local, Local];
  const at = (array: Local, k: number): Code => element(array, t.rows.at[k]!);
  const total = (sum: Local): Code => float.add(pair.lane(sum.get, 0), pair.lane(sum.get, 1));
  const products = (sum: Local, term: (k: number) => Code): Code =>
    sum.set(pair.add(sum.get, pair.add(pair.add(term(0), term(1)), pair.add(term(2), term(3)))));
  return f.finish(
    rr.set(pair.splat(w.rr.get)),
    rc.set(pair.splat(w.rc.get)),
    groupsUp(t, a, [
      leftToRight(t, a, [
        finishColumns(t, a, rc),
        products(rz, (k) => pair.mul(t.v[k]!.get, pair.load(at(a.r, k)))),
        timesG(t, a.g),
      ]),
      rightToLeft(t, a, rr, [
        timesG(t, a.g),
        ...ROWS.map((k) => t.v[k]!.set(pair.sub(pair.load(at(a.h, k)), t.v[k]!.get))),
        products(zs, (k) => pair.mul(t.v[k]!.get, pair.load(at(a.z, k)))),
        ...ROWS.map((k) => pair.store(at(a.s, k), t.v[k]!.get)),
      ]),
    ]),
    float.store(a.sums.get, total(rz)),
    float.store(a.sums.get, total(zs), 8),
  );
}

/** The masks of the present group's pairing (which row goes with row 0) and the offset of its first coarse row. */
function pairing(f: FunctionBuilder, t: Frame, joins: Local) {
  const masks = f.many(3, "v128");
  const record = f.local("i32");
  const coarse = f.local("i32");
  return {
    masks,
    coarse,
    load: [
      ...record.set(int.add(joins.get, int.mul(t.lines.get, int.of(2)))),
      ...masks.flatMap((mask, k) => mask.set(pair.load(record.get, 16 * k))),
      ...coarse.set(int.load(record.get, 48)),
    ] as Code,
  };
}

/** Finishes z = Tc⁻¹ r and adds G Tr⁻¹ G z to the coarse residual, which is zero before. */
export function finishAndRestrict(): Assembled {
  const f = new FunctionBuilder("finishAndRestrict");
  const a = parameters(f, "i32", [
    "z",
    "g",
    "cr",
    "last",
    "cc",
    "scratch",
    "m",
    "stride",
    "joins",
    "columnOf",
    "out",
    "coarseStride",
  ]);
  const w = parameters(f, "f64", ["rr", "rc"]);
  const t = frame(f);
  const p = pairing(f, t, a.joins);
  const [rr, rc, first, second] = f.many(4, "v128") as [Local, Local, Local, Local];
  const [mapAt, to] = f.many(2, "i32") as [Local, Local];
  const [m1, m2, m3] = p.masks as [Local, Local, Local];
  const v = t.v.map((k) => k.get);
  const scatter = (sum: Local, lane: 0 | 1, shift: Code): Code => [
    ...to.set(int.add(int.add(a.out.get, shift), int.load(mapAt.get, 4 * lane))),
    ...float.store(to.get, float.add(float.load(to.get), pair.lane(sum.get, lane))),
  ];
  const below = int.add(p.coarse.get, a.coarseStride.get);
  return f.finish(
    rr.set(pair.splat(w.rr.get)),
    rc.set(pair.splat(w.rc.get)),
    groupsUp(t, a, [
      p.load,
      leftToRight(t, a, [finishColumns(t, a, rc), timesG(t, a.g)]),
      rightToLeft(t, a, rr, [
        timesG(t, a.g),
        mapAt.set(int.add(a.columnOf.get, halfOf(t.j))),
        first.set(pair.add(v[0]!, pair.choose(v[1]!, pair.choose(v[2]!, v[3]!, m2.get), m1.get))),
        second.set(pair.add(pair.choose(v[2]!, v[1]!, m1.get), pair.choose(v[2]!, v[3]!, m3.get))),
        scatter(first, 0, p.coarse.get),
        scatter(first, 1, p.coarse.get),
        scatter(second, 0, below),
        scatter(second, 1, below),
      ]),
    ]),
  );
}

/** Byte offset of a column in a table of 32-bit numbers, from that in a row of doubles. */
function halfOf(j: Local): Code {
  return [...j.get, ...int.of(1), 0x76];
}

/** z += coarse correction, h = r + G Tr⁻¹ G z, then z ← forward sums of the column solve of h. */
export function prolongAndStart(): Assembled {
  const f = new FunctionBuilder("prolongAndStart");
  const a = parameters(f, "i32", [
    "z",
    "g",
    "cr",
    "last",
    "cc",
    "scratch",
    "m",
    "stride",
    "joins",
    "columnOf",
    "from",
    "coarseStride",
    "r",
    "h",
  ]);
  const w = parameters(f, "f64", ["rr"]);
  const t = frame(f);
  const p = pairing(f, t, a.joins);
  const [rr, first, second, run] = f.many(4, "v128") as [Local, Local, Local, Local];
  const [mapAt, above] = f.many(2, "i32") as [Local, Local];
  const [m1, m2, m3] = p.masks as [Local, Local, Local];
  const at = (array: Local, k: number): Code => element(array, t.rows.at[k]!);
  const gather = (shift: Code): Code => {
    const from = (lane: 0 | 1) =>
      float.load(int.add(int.add(a.from.get, shift), int.load(mapAt.get, 4 * lane)));
    return pair.withLane1(pair.splat(from(0)), from(1));
  };
  const below = int.add(p.coarse.get, a.coarseStride.get);
  const correction = [
    first.get,
    pair.choose(first.get, second.get, m1.get),
    pair.choose(first.get, second.get, m2.get),
    pair.choose(first.get, second.get, m3.get),
  ];
  return f.finish(
    rr.set(pair.splat(w.rr.get)),
    t.lines.set(int.of(0)),
    t.start.set(int.of(0)),
    repeatWhile(
      [
        p.load,
        leftToRight(t, a, [
          mapAt.set(int.add(a.columnOf.get, halfOf(t.j))),
          first.set(gather(p.coarse.get)),
          second.set(gather(below)),
          ...ROWS.map((k) => t.v[k]!.set(pair.add(pair.load(at(a.z, k)), correction[k]!))),
          timesG(t, a.g),
        ]),
        rightToLeft(t, a, rr, [
          timesG(t, a.g),
          above.set(int.sub(t.rows.at[0]!.get, a.stride.get)),
          run.set(
            pair.mul(
              pair.load(int.add(a.cc.get, above.get)),
              pair.load(int.add(a.z.get, above.get)),
            ),
          ),
          ...ROWS.flatMap((k) => [
            t.v[k]!.set(pair.add(t.v[k]!.get, pair.load(at(a.r, k)))),
            pair.store(at(a.h, k), t.v[k]!.get),
            run.set(pair.add(t.v[k]!.get, run.get)),
            pair.store(at(a.z, k), run.get),
            ...(k < 3 ? [run.set(pair.mul(run.get, pair.load(at(a.cc, k))))] : []),
          ]),
        ]),
        t.lines.set(int.add(t.lines.get, int.of(32))),
        t.start.set(int.add(t.start.get, int.mul(a.stride.get, int.of(4)))),
      ],
      int.less(t.lines.get, int.mul(a.m.get, int.of(8))),
    ),
  );
}

/** x = Tr⁻¹ b for all rows; x may be b. */
export function rowsSolve(): Assembled {
  const f = new FunctionBuilder("rowsSolve");
  const a = parameters(f, "i32", ["b", "x", "cr", "last", "scratch", "m", "stride"]);
  const w = parameters(f, "f64", ["rr"]);
  const t = frame(f);
  const rr = f.local("v128");
  const at = (array: Local, k: number): Code => element(array, t.rows.at[k]!);
  return f.finish(
    rr.set(pair.splat(w.rr.get)),
    groupsUp(t, a, [
      leftToRight(
        t,
        a,
        ROWS.map((k) => t.v[k]!.set(pair.load(at(a.b, k)))),
      ),
      rightToLeft(
        t,
        a,
        rr,
        ROWS.map((k) => pair.store(at(a.x, k), t.v[k]!.get)),
      ),
    ]),
  );
}
