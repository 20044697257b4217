import type { Problem } from "../errors/problem.ts";
import type { Bounds } from "../formulas/interval.ts";
import type { Design, Study } from "../schema/study.ts";
import type { ResolvedDesign } from "./design.ts";
import { type LaidOut, layOut, type Organised, organise } from "./layout.ts";
import { ParameterSet } from "./parameters.ts";
import { impossibilities } from "./possible.ts";

/** Names of the organisation that may vary, with where a design says them. */
const PLACES = {
  capacity: (design, capacity) => ({ ...design, capacity }),
  word: (design, word) => ({ ...design, word }),
  banks: (design, banks) => ({ ...design, banks }),
  rows: (design, rows) => ({ ...design, tile: { ...design.tile, rows } }),
  columns: (design, columns) => ({ ...design, tile: { ...design.tile, columns } }),
  decks: (design, decks) => ({ ...design, tile: { ...design.tile, decks } }),
  column_share: (design, share) => ({ ...design, tile: { ...design.tile, column_share: share } }),
  spare_rows: (design, spare_rows) => ({ ...design, spare_rows }),
  spare_columns: (design, spare_columns) => ({ ...design, spare_columns }),
} as const satisfies Record<string, (design: Design, value: number) => Design>;

/** Names of the organisation. */
export const ORGANISATION: readonly string[] = Object.keys(PLACES);

export function isOrganisation(name: string): name is keyof typeof PLACES {
  return Object.hasOwn(PLACES, name);
}

/** A study with another organisation of one of its designs; names that are none of it are left out. */
export function withOrganisation(
  study: Study,
  name: string,
  varied: readonly string[],
  values: readonly number[],
): Study {
  let design = study.designs[name]!;
  for (const [k, one] of varied.entries()) {
    if (isOrganisation(one)) design = PLACES[one](design, values[k]!);
  }
  return { ...study, designs: { ...study.designs, [name]: design } };
}

/** One organisation: its numbers, the parts that they decide, or why it can't be. */
export interface Layout {
  readonly organised: Organised;
  /** In the order of `Layouts.names`. */
  readonly values: Float64Array;
  /** The same for layouts of the same parts. */
  readonly parts: string;
  readonly problem?: string;
}

/** Organisations are made again and again; so many are kept. */
const MOST_KEPT = 8192;

/** The organisations of a design, by what is varied of them. */
export class Layouts {
  /** Names of the parameters that an organisation gives. */
  readonly names: readonly string[];
  readonly vary: boolean;
  private readonly study: Study;
  private readonly design: ResolvedDesign;
  private readonly varied: readonly (readonly [keyof typeof PLACES, number])[];
  private readonly kept = new Map<string, Layout>();
  private readonly parameters: ParameterSet;

  constructor(study: Study, design: ResolvedDesign, varied: readonly string[]) {
    this.study = study;
    this.design = design;
    this.varied = varied.flatMap((name, k) => (isOrganisation(name) ? [[name, k] as const] : []));
    this.vary = this.varied.length > 0;
    this.parameters = new ParameterSet().add(...design.parameters.all());
    const given = design.organised.parameters.map(({ name }) => name);
    this.names = this.vary ? given.filter((name) => name !== "feature") : [];
  }

  /** Layouts of many points. */
  of(inputs: readonly Float64Array[], count: number): { at(i: number): Layout } {
    const layouts: Layout[] = new Array(this.vary ? count : 1);
    if (!this.vary) {
      const only = this.make([]);
      return { at: () => only };
    }
    for (let i = 0; i < count; i++) {
      let key = "";
      for (const [, k] of this.varied) key += `${inputs[k]![i]!} `;
      let layout = this.kept.get(key);
      if (layout === undefined) {
        layout = this.make(this.varied.map(([, k]) => inputs[k]![i]!));
        if (this.kept.size >= MOST_KEPT) this.kept.clear();
        this.kept.set(key, layout);
      }
      layouts[i] = layout;
    }
    return { at: (i) => layouts[i]! };
  }

  /**
   * What the organisations between two ends have in common: the bounds of their numbers, and their
   * parts. Every number of an organisation rises with all that varies, or is the same, so that its
   * bounds are those of the two ends; but for what is left to the tool.
   *
   * @returns undefined where their parts differ
   */
  box(
    low: Float64Array,
    high: Float64Array,
  ): { readonly parts: string; readonly bounds: ReadonlyMap<string, Bounds> } | undefined {
    const corners = [low, high].map((end) => this.numbers(this.varied.map(([, k]) => end[k]!)));
    const { parts } = corners[0]!;
    if (corners.some((corner) => corner.parts !== parts)) return undefined;
    const bounds = new Map<string, Bounds>();
    for (const [i, name] of this.names.entries()) {
      const values = corners.map((corner) => corner.values[i]!);
      bounds.set(name, { low: Math.min(...values), high: Math.max(...values) });
    }
    return this.certain(low, high) ? { parts, bounds } : undefined;
  }

  /** Whether nothing is left to the tool that does not rise with what varies. */
  private certain(low: Float64Array, high: Float64Array): boolean {
    const { tile = {} } = this.study.designs[this.design.name]!;
    const varied = (name: string): boolean => this.varied.some(([key]) => key === name);
    const point = this.varied.every(([, k]) => low[k] === high[k]);
    return (
      point ||
      (["rows", "columns", "column_share"] as const).every(
        (name) => varied(name) || typeof tile[name] === "number",
      )
    );
  }

  /** The design with some of its organisation varied. */
  private designAt(values: readonly number[]): Design {
    let design = this.study.designs[this.design.name]!;
    for (const [v, [key]] of this.varied.entries()) design = PLACES[key](design, values[v]!);
    return design;
  }

  /** An organisation that may be impossible, as numbers. */
  private numbers(values: readonly number[]): Pick<Layout, "values" | "parts"> {
    const { cell, organised } = this.design;
    if (!this.vary) return { values: new Float64Array(), parts: partsOf(organised) };
    const laid = layOut(this.designAt(values), cell);
    return {
      values: Float64Array.from(this.names, (one) => laid.numbers[one]!),
      parts: partsOf(laid),
    };
  }

  private make(values: readonly number[]): Layout {
    const { name, cell, parameters, organised: only } = this.design;
    if (!this.vary) return { organised: only, ...this.numbers(values) };
    const design = this.designAt(values);
    const organised = organise(design, cell, parameters);
    const layout = { organised, ...this.numbers(values) };
    const fraction = this.varied.find((_, v) => !(Number.isInteger(values[v]) && values[v]! >= 0));
    if (fraction !== undefined)
      return { ...layout, problem: `${fraction[0]} must be a whole number` };
    const study = { ...this.study, designs: { ...this.study.designs, [name]: design } };
    // All organisations give the same names, so that one set serves them one after the other.
    const set = this.parameters.add(...organised.parameters);
    const [problem] = impossibilities(study, name, cell, organised, set);
    return problem === undefined ? layout : { ...layout, problem: told(problem) };
  }
}

/** What of an organisation decides which parts there are. */
function partsOf({
  columnShare,
  decks,
  spares,
  lines,
}: Pick<LaidOut, "columnShare" | "decks" | "spares" | "lines">): string {
  return `${columnShare * decks > 1} ${spares} ${lines}`;
}

function told({ what }: Problem): string {
  return what;
}
