import { type Problem, TenfoldError } from "../errors/problem.ts";
import type { Parser } from "../formulas/expand.ts";
import { type Bounds, hull } from "../formulas/interval.ts";
import type { Parameter } from "../quantities/parameter.ts";
import type { Study } from "../schema/study.ts";
import { levelReadingOf, type ResolvedDesign } from "./design.ts";
import { type BoxBounds, boxBounds, VariantBounds } from "./family-bounds.ts";
import { cornerRatios } from "./family-corner.ts";
import { levelsFor, suppliesOf } from "./family-edges.ts";
import { PointSpread, type SpreadColumns } from "./family-spread.ts";
import { reasonOf, type Variant, variantOf, type Wanted } from "./family-variant.ts";
import { isOrganisation, Layouts } from "./layouts.ts";
import { MacroModel } from "./model.ts";
import { ParameterSet } from "./parameters.ts";

/** Designs that share everything but the values of some of their parameters and their organisation. */
export interface Variation {
  readonly study: Study;
  readonly design: ResolvedDesign;
  /** Names of parameters or of the organisation: `rows`, `on_resistance`. */
  readonly varied: readonly string[];
  /** Names of quantities. */
  readonly quantities: readonly string[];
}

/** Why a point has no figures, a sentence without full stop; points that have some may lie beyond its end. */
export type Reasons = (string | undefined)[];

/** Numbers of points. */
type Points = Uint32Array | readonly number[];

/** Where the bits of a cell vary, all points have what reads several, which cells of one bit make no use of. */
function withLevels(variation: Variation): Variation {
  const { study, design, varied } = variation;
  const levels = varied.includes("bits_per_cell")
    ? levelReadingOf(study.designs[design.name]!)
    : undefined;
  return levels === undefined ? variation : { ...variation, design: { ...design, levels } };
}

interface Workspace {
  readonly size: number;
  readonly columns: readonly Float64Array[];
  readonly results: readonly Float64Array[];
}

type Many = ReturnType<Layouts["of"]>;

/** Points that are computed together. */
interface Batch {
  readonly inputs: readonly Float64Array[];
  readonly layouts: Many;
  readonly outputs: readonly Float64Array[];
  readonly reasons: Reasons;
  readonly spread?: SpreadColumns | undefined;
}

/**
 * A design as a function of some parameters and of its organisation, for many points at once.
 *
 * The parts of a macro depend on its organisation and voltages (whether columns are multiplexed,
 * whether writes need a pump). Points are computed by the program of their parts; what does not
 * depend on the varied names is computed once for each program. Where the lines of a crossbar take
 * too much for its closed forms, the network of each point is solved.
 */
export class DesignFamily {
  readonly variation: Variation;
  private readonly parse: Parser;
  private readonly layouts: Layouts;
  private readonly wanted: Wanted;
  /** By the parts that the organisation decides, then by the supplies that the voltages decide. */
  private readonly variants = new Map<string, Map<string, Variant>>();
  private readonly bounding = new Map<Variant, VariantBounds>();
  private readonly spreads = new Map<Variant, PointSpread>();
  private readonly work = new Map<Variant, Workspace>();
  private every = new Uint32Array();

  constructor(variation: Variation, parse: Parser) {
    this.variation = withLevels(variation);
    this.parse = parse;
    const { study, design, varied, quantities } = this.variation;
    this.layouts = new Layouts(study, design, varied);
    this.wanted = { varied, layout: this.layouts.names, quantities };
  }

  /**
   * Computes many points.
   *
   * @param inputs one column in SI per varied name
   * @param outputs receives one column in SI per quantity; NaN where there is no figure
   * @param spread receives coverage intervals where they are wanted
   * @returns why there is none, by point
   */
  evaluate(
    inputs: readonly Float64Array[],
    count: number,
    outputs: readonly Float64Array[],
    spread?: SpreadColumns,
  ): Reasons {
    const reasons: Reasons = [];
    const layouts = this.layouts.of(inputs, count);
    const groups = this.layouts.vary
      ? byParts(layouts, count, reasons)
      : new Map([[layouts.at(0).parts, this.everyPoint(count)]]);
    for (const column of outputs) column.fill(Number.NaN, 0, count);
    const batch = { inputs, layouts, outputs, reasons, spread };
    for (const [parts, points] of groups) this.group(parts, points, batch);
    return reasons;
  }

  /**
   * Bounds of the quantities over a box of the varied names.
   *
   * @param low one end of the box in SI, one figure per varied name; @param high the other end
   * @returns what looks a quantity's bounds up, valid until the next call; undefined where nothing
   *   can be said, such as where macros of the box have different parts; `impossible` where no
   *   macro of the box works
   */
  bound(
    low: Float64Array,
    high: Float64Array,
  ): ((name: string) => Bounds) | "impossible" | undefined {
    const box = this.layouts.box(low, high);
    if (box === undefined) return undefined;
    const known = this.known(box.parts);
    let [variant] = known.values();
    for (const end of [low, high]) variant ??= this.build(0, this.batchAt(end), known);
    if (variant === undefined) return undefined;
    const first = boxBounds(this.boundsOf(variant), box, this.wanted, low, high);
    const found: BoxBounds[] = [];
    for (const supplies of first.supplies) {
      const other = known.get(supplies) ?? this.build(0, this.batchAt(low), known, supplies);
      if (other === undefined) return undefined;
      const bounds =
        other === variant ? first : boxBounds(this.boundsOf(other), box, this.wanted, low, high);
      if (bounds.works) found.push(bounds);
    }
    if (found.length === 0) return "impossible";
    const [only] = found;
    if (found.length === 1) return only!.of;
    return (name) => found.map(({ of }) => of(name)).reduce(hull);
  }

  /** One point as a batch. */
  private batchAt(values: Float64Array): Pick<Batch, "inputs" | "layouts" | "reasons"> {
    const inputs = Array.from(values, (x) => Float64Array.of(x));
    return { inputs, layouts: this.layouts.of(inputs, 1), reasons: [] };
  }

  private boundsOf(variant: Variant): VariantBounds {
    const known = this.bounding.get(variant) ?? new VariantBounds(variant);
    this.bounding.set(variant, known);
    return known;
  }

  /** 0 to count, without it; the list is used again. */
  private everyPoint(count: number): Points {
    if (this.every.length < count) this.every = Uint32Array.from({ length: count }, (_, i) => i);
    return this.every.subarray(0, count);
  }

  private known(parts: string): Map<string, Variant> {
    const known = this.variants.get(parts) ?? new Map<string, Variant>();
    this.variants.set(parts, known);
    return known;
  }

  /** Points with the same parts as far as the organisation goes. */
  private group(parts: string, points: Points, batch: Batch): void {
    const known = this.known(parts);
    let [first] = known.values();
    let begin = 0;
    while (first === undefined && begin < points.length) {
      first = this.build(points[begin]!, batch, known);
      if (first === undefined) begin += 1;
    }
    if (first === undefined) return;
    const elsewhere = this.run(first, begin === 0 ? points : points.slice(begin), batch);
    for (const [supplies, moved] of elsewhere) {
      let variant = known.get(supplies);
      let left = moved;
      while (variant === undefined && left.length > 0) {
        const made = this.build(left[0]!, batch, known);
        if (made?.supplies === supplies) variant = made;
        else left = left.slice(1);
      }
      if (variant === undefined) continue;
      const lost = this.run(variant, left, batch);
      for (const i of [...lost.values()].flat()) {
        batch.reasons[i] ??= "the supply of its writes can't be decided";
      }
    }
  }

  /** Runs a program; returns the points that need other supplies, by these. */
  private run(variant: Variant, points: Points, batch: Batch): Map<string, number[]> {
    const count = points.length;
    const { inputs, layouts, outputs, reasons } = batch;
    const { columns, results } = this.workspace(variant, count);
    for (const [c, { from, at, value }] of variant.sources.entries()) {
      const column = columns[c]!;
      if (from === "varied") {
        const input = inputs[at]!;
        for (let k = 0; k < count; k++) column[k] = input[points[k]!]!;
      } else if (from === "layout") {
        for (let k = 0; k < count; k++) column[k] = layouts.at(points[k]!).values[at]!;
      } else column.fill(value, 0, count);
    }
    variant.compiled.evaluateMany(columns, count, results, "marked");
    const ratios = cornerRatios(variant, results, count);
    if (ratios !== undefined) {
      for (const [c, { from, at }] of variant.sources.entries()) {
        if (from === "ratio") columns[c]!.set(ratios[at]!);
      }
      variant.compiled.evaluateMany(columns, count, results, "marked");
    }
    const { wanted } = variant;
    const elsewhere = new Map<string, number[]>();
    const working: number[] = [];
    const { spread } = batch;
    const [write, row, writeRow, supply, io] = variant.edge.map((k) => results[k]!);
    for (let k = 0; k < count; k++) {
      const i = points[k]!;
      const high = Math.max(row![k]!, writeRow![k]!);
      const supplies = suppliesOf(write![k]!, high, supply![k]!, io![k]!);
      if (supplies !== variant.supplies && Number.isFinite(write![k]! + high)) {
        push(elsewhere, supplies, i);
        continue;
      }
      const reason = reasonOf(variant, results, k);
      if (reason !== undefined) {
        reasons[i] = reason;
        continue;
      }
      for (let q = 0; q < wanted.length; q++) outputs[q]![i] = results[wanted[q]!]![k]!;
      if (spread !== undefined) working.push(k);
    }
    if (spread !== undefined && working.length > 0) {
      const of = this.spreads.get(variant) ?? new PointSpread(variant, this.wanted, spread);
      this.spreads.set(variant, of);
      of.run(working, points, { inputs, ratios, layouts }, spread);
    }
    return elsewhere;
  }

  /** Columns that a program computes in; they are used again. */
  private workspace(variant: Variant, count: number): Workspace {
    const known = this.work.get(variant);
    if (known !== undefined && known.size >= count) return known;
    const made = {
      size: count,
      columns: variant.sources.map(() => new Float64Array(count)),
      results: variant.compiled.names.map(() => new Float64Array(count)),
    };
    this.work.set(variant, made);
    return made;
  }

  /**
   * The program of a point's parts, or of those that other supplies of its writes would need; undefined, with
   * its reason, where the point can't be built.
   */
  private build(
    point: number,
    { inputs, layouts, reasons }: Pick<Batch, "inputs" | "layouts" | "reasons">,
    known: Map<string, Variant>,
    supplies?: string,
  ): Variant | undefined {
    const { design, varied } = this.variation;
    const { organised } = layouts.at(point);
    // What the study lays over the organisation stays where the organisation does not vary.
    const laid = this.layouts.vary ? organised.parameters : [];
    const values = inputs.map((column) => column[point]!);
    const { parameters } = withValues(design, varied, values, laid);
    try {
      const levels =
        supplies === undefined
          ? undefined
          : levelsFor(supplies, parameters.get("io_supply")?.value ?? Number.NaN);
      const model = new MacroModel(
        { ...design, organised, parameters },
        this.parse,
        levels && { levels },
      );
      const variant = variantOf(model, this.wanted, supplies);
      known.set(variant.supplies, variant);
      return variant;
    } catch (error) {
      if (!(error instanceof TenfoldError)) throw error;
      reasons[point] = sentence(error.problems[0]!);
      return undefined;
    }
  }

  /**
   * The model of one point.
   *
   * @param values in SI, one per varied name
   * @throws TenfoldError where it can't be
   */
  model(values: readonly number[]): MacroModel {
    const { design, varied } = this.variation;
    const inputs = values.map((value) => Float64Array.of(value));
    const { organised } = this.layouts.of(inputs, 1).at(0);
    const laid = this.layouts.vary ? organised.parameters : [];
    const changed = withValues(design, varied, values, laid);
    return new MacroModel({ ...changed, organised }, this.parse);
  }
}

/**
 * A design with other values of some of its parameters, exact ones.
 *
 * @param varied names; those of the organisation and those that it does not have are left out
 * @param laid further parameters in place of its own
 */
export function withValues(
  design: ResolvedDesign,
  varied: readonly string[],
  values: readonly number[],
  laid: readonly Parameter[] = [],
): ResolvedDesign {
  const parameters = new ParameterSet().add(...design.parameters.all(), ...laid);
  for (const [k, name] of varied.entries()) {
    const before = parameters.get(name);
    if (before === undefined || isOrganisation(name)) continue;
    const value = values[k]!;
    parameters.add({ ...before, value, low: value, high: value, distribution: "exact" });
  }
  return { ...design, parameters };
}

function sentence({ what, expected }: Problem): string {
  return expected === undefined ? what : `${what}; expected ${expected}`;
}

/** The points of each set of parts; those that can't be get their reason. */
function byParts(layouts: Many, count: number, reasons: Reasons): Map<string, Points> {
  const groups = new Map<string, number[]>();
  for (let i = 0; i < count; i++) {
    const { parts, problem } = layouts.at(i);
    if (problem !== undefined) reasons[i] = problem;
    else push(groups, parts, i);
  }
  return groups;
}

function push(groups: Map<string, number[]>, key: string, i: number): void {
  const there = groups.get(key);
  if (there === undefined) groups.set(key, [i]);
  else there.push(i);
}
