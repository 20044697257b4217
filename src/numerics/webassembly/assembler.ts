/**
 * A small assembler for WebAssembly with 128-bit vectors: just what the sweeps need. Expressions are byte sequences
 * that leave one value on the stack; statements leave none.
 */

/** Bytes, in pieces: nested, so that putting pieces together copies none. */
export type Code = readonly (number | Code)[];
export type ValueType = "i32" | "f64" | "v128";

const TYPE = { i32: 0x7f, f64: 0x7c, v128: 0x7b } as const;

function unsigned(value: number): number[] {
  const out: number[] = [];
  let rest = value;
  do {
    const low = rest & 0x7f;
    rest >>>= 7;
    out.push(rest > 0 ? low | 0x80 : low);
  } while (rest > 0);
  return out;
}

function signed(value: number): number[] {
  const out: number[] = [];
  let rest = value | 0;
  for (;;) {
    const low = rest & 0x7f;
    rest >>= 7;
    if ((rest === 0 && (low & 0x40) === 0) || (rest === -1 && (low & 0x40) !== 0)) {
      out.push(low);
      return out;
    }
    out.push(low | 0x80);
  }
}

/** A local variable of a function under construction. */
export class Local {
  constructor(
    readonly index: number,
    readonly type: ValueType,
  ) {}
  get get(): Code {
    return [0x20, unsigned(this.index)];
  }
  set(value: Code): Code {
    return [value, 0x21, unsigned(this.index)];
  }
}

/** Collects the locals of one function. */
export class FunctionBuilder {
  private readonly parameters: ValueType[] = [];
  private readonly locals: ValueType[] = [];
  constructor(readonly name: string) {}

  parameter(type: ValueType): Local {
    if (this.locals.length > 0) throw new Error("parameters come before locals");
    this.parameters.push(type);
    return new Local(this.parameters.length - 1, type);
  }
  local(type: ValueType): Local {
    this.locals.push(type);
    return new Local(this.parameters.length + this.locals.length - 1, type);
  }
  many(count: number, type: ValueType): Local[] {
    return Array.from({ length: count }, () => this.local(type));
  }
  finish(...body: Code[]): Assembled {
    const groups = this.locals.flatMap((type) => [1, TYPE[type]]);
    const code = flat([unsigned(this.locals.length), groups, body, 0x0b]);
    return {
      name: this.name,
      type: [0x60, vector(this.parameters.map((t) => [TYPE[t]])), 0],
      code: [unsigned(code.length), code],
    };
  }
}

export interface Assembled {
  readonly name: string;
  readonly type: Code;
  readonly code: Code;
}

const binary =
  (...op: number[]) =>
  (a: Code, b: Code): Code => [a, b, op];

export const int = {
  of: (value: number): Code => [0x41, signed(value)],
  add: binary(0x6a),
  sub: binary(0x6b),
  mul: binary(0x6c),
  less: binary(0x48),
  atLeast: binary(0x4e),
  and: binary(0x71),
  shiftLeft: binary(0x74),
  shiftRight: binary(0x76),
  load: (address: Code, offset = 0): Code => [address, 0x28, 2, unsigned(offset)],
};

export const float = {
  add: binary(0xa0),
  load: (address: Code, offset = 0): Code => [address, 0x2b, 3, unsigned(offset)],
  store: (address: Code, value: Code, offset = 0): Code => [
    address,
    value,
    0x39,
    3,
    unsigned(offset),
  ],
};

const shuffleLanes = (first: number, second: number) => {
  const lanes = [first, second].flatMap((lane) =>
    Array.from({ length: 8 }, (_, b) => lane * 8 + b),
  );
  return (a: Code, b: Code): Code => [a, b, 0xfd, 13, lanes];
};

/** Pairs of doubles. */
export const pair = {
  load: (address: Code, offset = 0): Code => [address, 0xfd, 0, 3, unsigned(offset)],
  store: (address: Code, value: Code, offset = 0): Code => [
    address,
    value,
    0xfd,
    11,
    3,
    unsigned(offset),
  ],
  add: binary(0xfd, 0xf0, 1),
  sub: binary(0xfd, 0xf1, 1),
  mul: binary(0xfd, 0xf2, 1),
  div: binary(0xfd, 0xf3, 1),
  max: binary(0xfd, 0xf5, 1),
  abs: (a: Code): Code => [a, 0xfd, 0xec, 1],
  splat: (value: Code): Code => [value, 0xfd, 20],
  zero: [0xfd, 12, ...new Array<number>(16).fill(0)] as Code,
  lane: (value: Code, lane: 0 | 1): Code => [value, 0xfd, 33, lane],
  withLane1: (value: Code, x: Code): Code => [value, x, 0xfd, 34, 1],
  /** The first lanes of a and b; the second lanes of a and b. */
  firsts: shuffleLanes(0, 2),
  seconds: shuffleLanes(1, 3),
  /** a where the mask is set, else b. */
  choose: (a: Code, b: Code, mask: Code): Code => [a, b, mask, 0xfd, 82],
  min: binary(0xfd, 0xf4, 1),
  negate: (a: Code): Code => [a, 0xfd, 0xed, 1],
  sqrt: (a: Code): Code => [a, 0xfd, 0xef, 1],
  ceil: (a: Code): Code => [a, 0xfd, 0x74],
  floor: (a: Code): Code => [a, 0xfd, 0x75],
  /** Both lanes the same number. */
  of: (value: number): Code => {
    const bytes = new Uint8Array(Float64Array.of(value, value).buffer);
    return [0xfd, 12, [...bytes]];
  },
  /** Masks: all bits of a lane where it holds. */
  equal: binary(0xfd, 0x47),
  differ: binary(0xfd, 0x48),
  less: binary(0xfd, 0x49),
  atMost: binary(0xfd, 0x4b),
};

/** 128 bits as masks, or as pairs of 64-bit whole numbers. */
export const bits = {
  and: binary(0xfd, 0x4e),
  /** a where b has no bit. */
  andNot: binary(0xfd, 0x4f),
  or: binary(0xfd, 0x50),
  not: (a: Code): Code => [a, 0xfd, 0x4d],
  any: (a: Code): Code => [a, 0xfd, 0x53],
  add: binary(0xfd, 0xce, 1),
  subtract: binary(0xfd, 0xd1, 1),
  shiftLeft: (a: Code, by: number): Code => [a, int.of(by), 0xfd, 0xcb, 1],
  shiftRight: (a: Code, by: number): Code => [a, int.of(by), 0xfd, 0xcd, 1],
  /** Keeps the sign. */
  shiftRightSigned: (a: Code, by: number): Code => [a, int.of(by), 0xfd, 0xcc, 1],
  /** The 32-bit word at a place from 0 to 3. */
  word: (a: Code, place: number): Code => [a, 0xfd, 0x1b, place],
};

/** Runs the body while the condition holds, tested after each turn: the body runs at least once. */
export function repeatWhile(body: readonly Code[], condition: Code): Code {
  return [0x03, 0x40, body, condition, 0x0d, 0, 0x0b];
}

export function when(
  condition: Code,
  then: readonly Code[],
  otherwise: readonly Code[] = [],
): Code {
  const tail = otherwise.length > 0 ? [0x05, otherwise] : [];
  return [condition, 0x04, 0x40, then, tail, 0x0b];
}

/** The bytes of code, in one piece. */
function flat(code: Code, into: number[] = []): number[] {
  for (const part of code) {
    if (typeof part === "number") into.push(part);
    else flat(part, into);
  }
  return into;
}

function vector(items: readonly Code[]): Code {
  return [unsigned(items.length), items];
}

function section(id: number, items: readonly Code[]): Code {
  const content = flat(vector(items));
  return [id, unsigned(content.length), content];
}

function name(text: string): Code {
  return vector([...text].map((c) => [c.charCodeAt(0)]));
}

/** A function that a module gets from outside, with parameters of 32 bits. */
export interface Imported {
  readonly name: string;
  readonly parameters: number;
}

/** Calls the function with this place: imported ones come first. */
export function call(place: number, ...operands: Code[]): Code {
  return [operands, 0x10, unsigned(place)];
}

/** Calls the function of the module's own at a computed place; it has the type of the first one. */
export function callAt(place: Code, imported: number, ...operands: Code[]): Code {
  return [operands, place, 0x11, unsigned(imported), 0];
}

/**
 * The bytes of a module that imports its memory as `solver.memory`, and functions beside it, and
 * exports its own functions.
 *
 * @param tabled whether its functions can be called by their place
 */
export function moduleOf(
  functions: readonly Assembled[],
  imported: readonly Imported[] = [],
  tabled = false,
): Uint8Array<ArrayBuffer> {
  const first = imported.length;
  const places = functions.map((_, k) => unsigned(first + k));
  const count = unsigned(functions.length);
  return Uint8Array.from(
    flat([
      ...[0, 0x61, 0x73, 0x6d, 1, 0, 0, 0],
      section(1, [
        ...imported.map(({ parameters }) => [
          0x60,
          vector(new Array<Code>(parameters).fill([TYPE.i32])),
          0,
        ]),
        ...functions.map((f) => f.type),
      ]),
      section(2, [
        [name("solver"), name("memory"), 2, 0, 1],
        ...imported.map((one, k) => [name("solver"), name(one.name), 0, unsigned(k)]),
      ]),
      section(3, places),
      tabled ? section(4, [[0x70, 0, count]]) : [],
      section(
        7,
        functions.map((f, k) => [name(f.name), 0, unsigned(first + k)]),
      ),
      tabled ? section(9, [[0, int.of(0), 0x0b, vector(places)]]) : [],
      section(
        10,
        functions.map((f) => f.code),
      ),
    ]),
  );
}
