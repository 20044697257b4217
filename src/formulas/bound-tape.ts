/** Bounds of a program over many boxes: the rules of `interval.ts` on registers, made once. */

import { IMPLEMENTATIONS } from "./functions.ts";
import {
  type Bounds,
  boundsOfBinary,
  boundsOfCall,
  certainComparison,
  hull,
  isExactlyRising,
} from "./interval.ts";
import { type FormulaStep, type Program, writtenBy } from "./program.ts";
import type { FunctionName, Tree } from "./tree.ts";
import { partsOf } from "./walk.ts";

/** What a quantity's bounds are cut down to, from those of quantities before it. */
export type Clip = (of: (name: string) => Bounds) => Bounds;

const { NEGATIVE_INFINITY, POSITIVE_INFINITY } = Number;
const ANYTHING: Bounds = { low: NEGATIVE_INFINITY, high: POSITIVE_INFINITY };

type Operation = () => void;

/**
 * A program over intervals. Set the bounds of its given quantities, run, look the others up.
 *
 * The steps that no given quantity reaches are computed when the tape is made.
 */
export class BoundTape {
  private readonly low: Float64Array;
  private readonly high: Float64Array;
  private size = 0;
  private readonly places = new Map<string, number>();
  private readonly operations: Operation[] = [];
  /** Registers that change from run to run. */
  private readonly moving = new Set<number>();

  /** @param clips for some quantities, bounds that are known otherwise */
  constructor(program: Program, clips: Readonly<Record<string, Clip>> = {}) {
    const registers = program.steps.reduce((sum, step) => sum + sizeOf(step), program.given.length);
    this.low = new Float64Array(registers);
    this.high = new Float64Array(registers);
    for (const name of program.given) this.moving.add(this.placeOf(name));
    const of = (name: string): Bounds => this.of(name);
    for (const step of program.steps) {
      if (step.kind === "procedure") {
        for (const name of writtenBy(step)) this.set(name, NEGATIVE_INFINITY, POSITIVE_INFINITY);
        continue;
      }
      this.step(step);
      if (Object.hasOwn(clips, step.name)) this.clip(step.name, clips[step.name]!, of);
    }
  }

  /** Bounds of a given quantity. */
  set(name: string, low: number, high: number): void {
    const at = this.placeOf(name);
    this.low[at] = low;
    this.high[at] = high;
  }

  run(): void {
    for (const operation of this.operations) operation();
  }

  /** Of all numbers where the program has no such quantity. */
  of(name: string): Bounds {
    const at = this.places.get(name);
    return at === undefined ? ANYTHING : { low: this.low[at]!, high: this.high[at]! };
  }

  private placeOf(name: string): number {
    const known = this.places.get(name);
    if (known !== undefined) return known;
    const at = this.register();
    this.places.set(name, at);
    return at;
  }

  private register(): number {
    const at = this.size++;
    this.low[at] = NEGATIVE_INFINITY;
    this.high[at] = POSITIVE_INFINITY;
    return at;
  }

  private step({ name, tree }: FormulaStep): void {
    this.places.set(name, this.lower(tree));
  }

  /** What is clipped has a register of its own, since a formula that is a name alone shares one. */
  private clip(name: string, clip: Clip, of: (name: string) => Bounds): void {
    const from = this.places.get(name)!;
    const to = this.register();
    this.add(to, [from], true, () => {
      const { low, high } = clip(of);
      this.low[to] = Math.max(this.low[from]!, low);
      this.high[to] = Math.min(this.high[from]!, high);
    });
    this.places.set(name, to);
  }

  private add(to: number, from: readonly number[], always: boolean, operation: Operation): void {
    operation();
    if (!always && !from.some((one) => this.moving.has(one))) return;
    this.moving.add(to);
    this.operations.push(operation);
  }

  /** The register of a tree. */
  private lower(tree: Tree): number {
    switch (tree.kind) {
      case "number": {
        const at = this.register();
        this.low[at] = tree.value;
        this.high[at] = tree.value;
        return at;
      }
      case "symbol":
        return this.placeOf(tree.name);
      case "negate": {
        const from = this.lower(tree.of);
        return this.made([from], (to) => {
          const { low, high } = this;
          [low[to], high[to]] = [-high[from]!, -low[from]!];
        });
      }
      case "binary":
        return this.binary(tree.operator, this.lower(tree.left), this.lower(tree.right));
      case "call": {
        const from = tree.of.map((part) => this.lower(part));
        return this.made(from, this.call(tree.name, from));
      }
      case "choose": {
        const { operator } = tree.when;
        const [left, right] = [this.lower(tree.when.left), this.lower(tree.when.right)];
        const [chosen, otherwise] = [this.lower(tree.chosen), this.lower(tree.otherwise)];
        return this.made([left, right, chosen, otherwise], (to) => {
          const holds = certainComparison(operator, this.at(left), this.at(right));
          if (holds === undefined) this.put(to, hull(this.at(chosen), this.at(otherwise)));
          else this.put(to, this.at(holds ? chosen : otherwise));
        });
      }
    }
  }

  private at(register: number): Bounds {
    return { low: this.low[register]!, high: this.high[register]! };
  }

  private put(to: number, { low, high }: Bounds): void {
    this.low[to] = low;
    this.high[to] = high;
  }

  private made(from: readonly number[], operation: (to: number) => void): number {
    const to = this.register();
    this.add(to, from, false, () => operation(to));
    return to;
  }

  /** The functions that programs are mostly made of, without an object for each. */
  private call(name: FunctionName, from: readonly number[]): (to: number) => void {
    const { low, high } = this;
    const [a, b] = from as [number, number];
    const f = IMPLEMENTATIONS[name];
    if ((name === "min" || name === "max") && from.length === 2) {
      const pick = name === "min" ? Math.min : Math.max;
      return (to) => {
        low[to] = pick(low[a]!, low[b]!);
        high[to] = pick(high[a]!, high[b]!);
      };
    }
    if (isExactlyRising(name)) {
      return (to) => {
        const [least, most] = [f(low[a]!), f(high[a]!)];
        const known = least <= most;
        low[to] = known ? least : NEGATIVE_INFINITY;
        high[to] = known ? most : POSITIVE_INFINITY;
      };
    }
    return (to) =>
      this.put(
        to,
        boundsOfCall(
          name,
          from.map((at) => this.at(at)),
        ),
      );
  }

  /** The operators that programs are mostly made of, without an object for each. */
  private binary(operator: "+" | "-" | "*" | "/" | "^", a: number, b: number): number {
    const { low, high } = this;
    const put = (to: number, least: number, most: number): void => {
      const known = least <= most;
      low[to] = known ? least : NEGATIVE_INFINITY;
      high[to] = known ? most : POSITIVE_INFINITY;
    };
    const general = (to: number) => this.put(to, boundsOfBinary(operator, this.at(a), this.at(b)));
    switch (operator) {
      case "+":
        return this.made([a, b], (to) => put(to, low[a]! + low[b]!, high[a]! + high[b]!));
      case "-":
        return this.made([a, b], (to) => put(to, low[a]! - high[b]!, high[a]! - low[b]!));
      case "*":
        return this.made([a, b], (to) => {
          const [p, q, r, s] = [low[a]!, high[a]!, low[b]!, high[b]!];
          if (p >= 0 && r >= 0) put(to, p * r, q * s);
          else if (r >= 0) put(to, p < 0 ? p * s : p * r, q > 0 ? q * s : q * r);
          else general(to);
        });
      case "/":
        return this.made([a, b], (to) => {
          const [p, q, r, s] = [low[a]!, high[a]!, low[b]!, high[b]!];
          if (!(r > 0)) general(to);
          else put(to, p < 0 ? p / r : p / s, q > 0 ? q / r : q / s);
        });
      default:
        return this.made([a, b], general);
    }
  }
}

/** Registers of a step at most: one for each part of its formula, one for its clip. */
function sizeOf(step: Program["steps"][number]): number {
  return step.kind === "formula" ? partsIn(step.tree) + 1 : writtenBy(step).length;
}

function partsIn(tree: Tree): number {
  return partsOf(tree).reduce((sum, part) => sum + partsIn(part), 2);
}
