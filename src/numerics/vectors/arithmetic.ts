/** Kernels of the operations that an engine has. */

import { NOISE } from "../special/whole.ts";
import { type Assembled, bits, type Code, type Local, pair } from "../webassembly/assembler.ts";
import { kernel, simpleKernel } from "./kernel.ts";
import { variantsOf } from "./kernels.ts";
import type { Operation } from "./operations.ts";

const ONE = pair.of(1);

/** 1, 0 or NaN, for which all bits of a lane stand. */
function order(holds: Code, a: Code, b: Code): Code {
  const unordered = bits.or(pair.differ(a, a), pair.differ(b, b));
  return bits.or(bits.and(holds, ONE), unordered);
}

type Formula = (...x: readonly Code[]) => Code;
type Table = { readonly [name in Operation]?: Formula };

const UNARY: Table = {
  negate: (a) => pair.negate(a!),
  abs: (a) => pair.abs(a!),
  sqrt: (a) => pair.sqrt(a!),
};

const BINARY: Table = {
  add: (a, b) => pair.add(a!, b!),
  subtract: (a, b) => pair.sub(a!, b!),
  multiply: (a, b) => pair.mul(a!, b!),
  divide: (a, b) => pair.div(a!, b!),
  min: (a, b) => pair.min(a!, b!),
  max: (a, b) => pair.max(a!, b!),
  less: (a, b) => order(pair.less(a!, b!), a!, b!),
  atMost: (a, b) => order(pair.atMost(a!, b!), a!, b!),
  equal: (a, b) => order(pair.equal(a!, b!), a!, b!),
};

function choose(): Assembled {
  return kernel("choose", 3, (_, [a, b, c]) => ({
    steps: [],
    result: bits.or(
      pair.choose(b!.get, c!.get, pair.equal(a!.get, ONE)),
      pair.differ(a!.get, a!.get),
    ),
  }));
}

/** Kernels by the names of `kernelNames`. */
export function arithmeticKernels(): Map<string, Assembled> {
  const made = new Map<string, Assembled>();
  for (const table of [UNARY, BINARY]) {
    for (const [name, formula] of Object.entries(table)) {
      for (const [kernelName, steps] of variantsOf(name as Operation)) {
        made.set(kernelName, simpleKernel(kernelName, steps, formula));
      }
    }
  }
  made.set("choose", choose());
  for (const name of ["ceil", "floor", "round"] as const) made.set(name, whole(name));
  return made;
}

/** As `special/whole.ts`. */
function whole(name: "ceil" | "floor" | "round"): Assembled {
  return kernel(name, 1, (f, [x]) => {
    const [size, down, near] = f.many(3, "v128") as [Local, Local, Local];
    const value = name === "round" ? size : x!;
    const steps = [
      size.set(pair.abs(x!.get)),
      down.set(pair.floor(value.get)),
      near.set(
        pair.add(down.get, bits.and(pair.atMost(pair.of(0.5), pair.sub(value.get, down.get)), ONE)),
      ),
    ];
    if (name === "round") {
      const sign = bits.and(pair.less(x!.get, pair.of(0)), pair.of(-0));
      return { steps, result: bits.or(bits.andNot(near.get, pair.of(-0)), sign) };
    }
    const noise = pair.mul(pair.of(NOISE), pair.max(ONE, size.get));
    const close = pair.atMost(pair.abs(pair.sub(x!.get, near.get)), noise);
    const away = name === "ceil" ? pair.ceil(x!.get) : down.get;
    return { steps, result: pair.choose(near.get, away, close) };
  });
}
