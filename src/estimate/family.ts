import { type Problem, TenfoldError } from "../errors/problem.ts";
import { type Compiled, compile } from "../formulas/compile.ts";
import type { Parser } from "../formulas/expand.ts";
import { type Bounds, boundProgram, type Floor } from "../formulas/interval.ts";
import { partialProgram } from "../formulas/partial.ts";
import type { Program } from "../formulas/program.ts";
import { neededSteps } from "../formulas/segments.ts";
import type { Study } from "../schema/study.ts";
import { type Condition, conditionsOf } from "./conditions.ts";
import type { ResolvedDesign } from "./design.ts";
import { isOrganisation, Layouts } from "./layouts.ts";
import { MacroModel } from "./model.ts";
import { ParameterSet } from "./parameters.ts";

/** What decides the supply of writes, and so which parts a macro has. */
const EDGE = ["write_voltage", "row_swing", "write_row_swing", "supply", "io_supply"] as const;
/** A bank must have as many tiles as an access wakes. */
const ROOM = ["tiles_active", "tiles_per_bank"] as const;

/**
 * The cells of a macro are at least those that hold its data, since the tiles are counted up to
 * whole ones. Interval arithmetic alone loses that: in it tiles and cells of a tile go apart.
 */
const FLOORS: Readonly<Record<string, Floor>> = {
  cells: (of) => {
    const stored = (of("capacity").low * of("coded_word").low) / of("word").high;
    const cells = (stored * of("cells_per_bit").low) / of("bits_per_cell").high;
    return Number.isFinite(cells) ? cells * (1 - 1e-12) : Number.NEGATIVE_INFINITY;
  },
};
/** What the floors read. */
const FLOOR_NAMES = ["capacity", "coded_word", "word", "cells_per_bit", "bits_per_cell"] as const;

/** Designs that share everything but the values of some of their parameters and their organisation. */
export interface Variation {
  readonly study: Study;
  readonly design: ResolvedDesign;
  /** Names of parameters or of the organisation: `rows`, `on_resistance`. */
  readonly varied: readonly string[];
  /** Names of quantities. */
  readonly quantities: readonly string[];
}

/** One program, and which of its inputs come from where. */
interface Variant {
  /** Those steps of the program that the asked quantities need. */
  readonly bounding: Program;
  readonly compiled: Compiled;
  readonly sources: readonly {
    readonly varied?: number;
    readonly layout?: number;
    readonly value: number;
  }[];
  /** Columns of the wanted quantities, the conditions and the edges among the outputs. */
  readonly wanted: readonly number[];
  readonly conditions: readonly (Condition & { readonly at: number })[];
  readonly edge: readonly number[];
  readonly room: readonly number[];
  readonly supplies: string;
}

/** Why a point has no figures; a sentence without full stop. */
export type Reasons = (string | undefined)[];

/**
 * A design as a function of some parameters and of its organisation, for many points at once.
 *
 * The parts of a macro depend on its organisation and voltages (whether columns are multiplexed,
 * whether writes need a pump). Points are computed by the program of their parts; what does not
 * depend on the varied names is computed once for each program.
 */
export class DesignFamily {
  readonly variation: Variation;
  private readonly parse: Parser;
  private readonly layouts: Layouts;
  /** By the parts that the organisation decides, then by the supplies that the voltages decide. */
  private readonly variants = new Map<string, Map<string, Variant>>();

  constructor(variation: Variation, parse: Parser) {
    this.variation = variation;
    this.parse = parse;
    this.layouts = new Layouts(variation.study, variation.design, variation.varied);
  }

  /**
   * Computes many points.
   *
   * @param inputs one column in SI per varied name
   * @param outputs receives one column in SI per quantity; NaN where there is no figure
   * @returns why there is none, by point
   */
  evaluate(
    inputs: readonly Float64Array[],
    count: number,
    outputs: readonly Float64Array[],
  ): Reasons {
    const reasons: Reasons = new Array(count);
    const layouts = this.layouts.of(inputs, count);
    const groups = new Map<string, number[]>();
    for (let i = 0; i < count; i++) {
      const { parts, problem } = layouts.at(i);
      if (problem !== undefined) reasons[i] = problem;
      else push(groups, parts, i);
    }
    for (const column of outputs) column.fill(Number.NaN, 0, count);
    for (const [parts, points] of groups)
      this.group(parts, points, inputs, layouts, outputs, reasons);
    return reasons;
  }

  /**
   * Bounds of the quantities over a box of the varied names.
   *
   * @param low one end of the box in SI, one figure per varied name; @param high the other end
   * @returns undefined where nothing can be said, such as where macros of the box have different
   *   parts; `impossible` where no macro of the box works
   */
  bound(
    low: Float64Array,
    high: Float64Array,
  ): ReadonlyMap<string, Bounds> | "impossible" | undefined {
    const box = this.layouts.box(low, high);
    if (box === undefined) return undefined;
    const corners = [low, high].map((end) => Array.from(end, (x) => Float64Array.of(x)));
    const known = this.variants.get(box.parts) ?? new Map<string, Variant>();
    this.variants.set(box.parts, known);
    let [variant] = known.values();
    for (const corner of corners) {
      if (variant !== undefined) break;
      variant = this.build(0, corner, this.layouts.of(corner, 1), known, []);
    }
    for (let tries = 0; variant !== undefined && tries < 2; tries++) {
      const given = new Map<string, Bounds>(box.bounds);
      for (const [k, name] of this.variation.varied.entries()) {
        if (!given.has(name)) given.set(name, { low: low[k]!, high: high[k]! });
      }
      const bounds = boundProgram(variant.bounding, given, FLOORS);
      const supplies = certainSupplies(bounds);
      if (supplies === undefined) return undefined;
      if (supplies === variant.supplies)
        return worksSomewhere(variant, bounds) ? bounds : "impossible";
      variant = known.get(supplies);
    }
    return undefined;
  }

  /** Points with the same parts as far as the organisation goes. */
  private group(
    parts: string,
    points: readonly number[],
    inputs: readonly Float64Array[],
    layouts: ReturnType<Layouts["of"]>,
    outputs: readonly Float64Array[],
    reasons: Reasons,
  ): void {
    const known = this.variants.get(parts) ?? new Map<string, Variant>();
    this.variants.set(parts, known);
    let [first] = known.values();
    let rest = [...points];
    while (first === undefined && rest.length > 0) {
      const [point, ...others] = rest;
      first = this.build(point!, inputs, layouts, known, reasons);
      rest = first === undefined ? others : rest;
    }
    if (first === undefined) return;
    const elsewhere = this.run(first, rest, inputs, layouts, outputs, reasons);
    for (const [supplies, moved] of elsewhere) {
      let variant = known.get(supplies);
      let left = moved;
      while (variant === undefined && left.length > 0) {
        const made = this.build(left[0]!, inputs, layouts, known, reasons);
        if (made?.supplies === supplies) variant = made;
        else left = left.slice(1);
      }
      if (variant === undefined) continue;
      const lost = this.run(variant, left, inputs, layouts, outputs, reasons);
      for (const i of [...lost.values()].flat()) {
        reasons[i] ??= "the supply of its writes can't be decided";
      }
    }
  }

  /** Runs a program; returns the points that need other supplies, by these. */
  private run(
    variant: Variant,
    points: readonly number[],
    inputs: readonly Float64Array[],
    layouts: ReturnType<Layouts["of"]>,
    outputs: readonly Float64Array[],
    reasons: Reasons,
  ): Map<string, number[]> {
    const count = points.length;
    const columns = variant.sources.map(({ varied, layout, value }) => {
      if (varied !== undefined) return gathered(points, (i) => inputs[varied]![i]!);
      if (layout !== undefined) return gathered(points, (i) => layouts.at(i).values[layout]!);
      return new Float64Array(count).fill(value);
    });
    const results = variant.compiled.names.map(() => new Float64Array(count));
    variant.compiled.evaluateMany(columns, count, results, "marked");
    const elsewhere = new Map<string, number[]>();
    const [write, row, writeRow, supply, io] = variant.edge.map((k) => results[k]!);
    const [active, there] = variant.room.map((k) => results[k]!);
    for (let k = 0; k < count; k++) {
      const i = points[k]!;
      const high = Math.max(row![k]!, writeRow![k]!);
      const supplies = suppliesOf(write![k]!, high, supply![k]!, io![k]!);
      if (supplies !== variant.supplies && Number.isFinite(write![k]! + high)) {
        push(elsewhere, supplies, i);
        continue;
      }
      const reason = reasonOf(variant, results, k, active![k]!, there![k]!);
      if (reason !== undefined) reasons[i] = reason;
      else for (const [q, at] of variant.wanted.entries()) outputs[q]![i] = results[at]![k]!;
    }
    return elsewhere;
  }

  /** The program of a point's parts; undefined, with its reason, where the point can't be built. */
  private build(
    point: number,
    inputs: readonly Float64Array[],
    layouts: ReturnType<Layouts["of"]>,
    known: Map<string, Variant>,
    reasons: Reasons,
  ): Variant | undefined {
    const { design, varied, quantities } = this.variation;
    const { organised } = layouts.at(point);
    const parameters = new ParameterSet().add(...design.parameters.all());
    // What the study lays over the organisation stays where the organisation does not vary.
    if (this.layouts.vary) parameters.add(...organised.parameters);
    for (const [k, name] of varied.entries()) {
      const before = parameters.get(name);
      if (before === undefined || isOrganisation(name)) continue;
      const value = inputs[k]![point]!;
      parameters.add({ ...before, value, low: value, high: value, distribution: "exact" });
    }
    try {
      const model = new MacroModel({ ...design, organised, parameters }, this.parse);
      const variant = variantOf(model, varied, this.layouts.names, quantities);
      known.set(variant.supplies, variant);
      return variant;
    } catch (error) {
      if (!(error instanceof TenfoldError)) throw error;
      reasons[point] = sentence(error.problems[0]!);
      return undefined;
    }
  }
}

function sentence({ what, expected }: Problem): string {
  return expected === undefined ? what : `${what}; expected ${expected}`;
}

/** Which supplies writes need, where that is the same all over the box. */
function certainSupplies(bounds: ReadonlyMap<string, Bounds>): string | undefined {
  const [write, row, writeRow, supply, io] = EDGE.map((name) => bounds.get(name)!);
  const least = suppliesOf(write!.low, Math.max(row!.low, writeRow!.low), supply!.high, io!.high);
  const most = suppliesOf(write!.high, Math.max(row!.high, writeRow!.high), supply!.low, io!.low);
  return least === most ? least : undefined;
}

function worksSomewhere({ conditions }: Variant, bounds: ReadonlyMap<string, Bounds>): boolean {
  const [active, there] = ROOM.map((name) => bounds.get(name)!);
  return (
    active!.low <= there!.high && conditions.every(({ quantity }) => bounds.get(quantity)!.high > 0)
  );
}

function push(groups: Map<string, number[]>, key: string, i: number): void {
  const there = groups.get(key);
  if (there === undefined) groups.set(key, [i]);
  else there.push(i);
}

function gathered(points: readonly number[], of: (i: number) => number): Float64Array {
  const column = new Float64Array(points.length);
  for (let k = 0; k < points.length; k++) column[k] = of(points[k]!);
  return column;
}

/** Which supplies a write needs: the same question that `peripheryStructure` answers. */
function suppliesOf(write: number, row: number, supply: number, ioSupply: number): string {
  const from = (v: number): string => (v <= supply ? "core" : v <= ioSupply ? "io" : "pump");
  return `${from(write)} ${from(Math.max(row, write))}`;
}

function variantOf(
  model: MacroModel,
  varied: readonly string[],
  layoutNames: readonly string[],
  quantities: readonly string[],
): Variant {
  const conditions = conditionsOf(model.program);
  const names = [
    ...new Set([...quantities, ...conditions.map(({ quantity }) => quantity), ...EDGE, ...ROOM]),
  ];
  const values = new Map(model.nominal());
  for (const name of model.program.given) {
    if (!values.has(name)) values.set(name, model.design.parameters.get(name)!.value);
  }
  const moving = new Set([...varied, ...layoutNames]);
  const program = partialProgram(model.program, values, moving, [...names, ...FLOOR_NAMES]);
  const compiled = compile(program, names);
  const at = (name: string): number => compiled.names.indexOf(name);
  return {
    bounding: { ...program, steps: neededSteps(program, [...names, ...FLOOR_NAMES]) },
    compiled,
    sources: compiled.inputs.map((name) => {
      const value = values.get(name)!;
      const layout = layoutNames.indexOf(name);
      if (layout >= 0) return { layout, value };
      const place = varied.indexOf(name);
      return place >= 0 ? { varied: place, value } : { value };
    }),
    wanted: quantities.map(at),
    conditions: conditions.map((one) => ({ ...one, at: at(one.quantity) })),
    edge: EDGE.map(at),
    room: ROOM.map(at),
    supplies: suppliesOf(
      values.get("write_voltage")!,
      Math.max(values.get("row_swing")!, values.get("write_row_swing")!),
      values.get("supply")!,
      values.get("io_supply")!,
    ),
  };
}

function reasonOf(
  variant: Variant,
  results: readonly Float64Array[],
  k: number,
  active: number,
  there: number,
): string | undefined {
  if (active > there) return `an access wakes ${active} tiles, but a bank has ${there}`;
  const broken = variant.conditions.find(({ at }) => !(results[at]![k]! > 0));
  if (broken !== undefined) return broken.fails;
  const missing = variant.wanted.find((at) => !Number.isFinite(results[at]![k]!));
  return missing === undefined
    ? undefined
    : `${variant.compiled.names[missing]} is not a finite number`;
}
