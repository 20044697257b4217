/** Designs whose tile the tool chooses. */

import type { Catalogue } from "../../catalogue/index.ts";
import { TenfoldError } from "../../errors/problem.ts";
import type { Parser } from "../../formulas/expand.ts";
import { log2, pow } from "../../numerics/special/elementary.ts";
import type { Parameter } from "../../quantities/parameter.ts";
import type { Design, Study } from "../../schema/study.ts";
import { type ResolvedDesign, resolveDesign } from "../design.ts";
import { MacroModel } from "../model.ts";
import { type Largest, largestLines } from "./largest.ts";
import { faultOf } from "./works.ts";

type Change = (design: ResolvedDesign) => ResolvedDesign;

const LEAST_LINES = 8;
const MOST_LINES = 4096;
/** Junctions of the largest crosspoint that is tried: larger ones take minutes to solve, and tiles stay below. */
const MOST_TRIED = 2 ** 20;

/**
 * The model of a design, with the largest tile that works where rows or columns are `auto`. Other
 * cells than resistive ones keep what the organisation chooses.
 *
 * @param change what is done to each design that is tried, such as other values of its parameters
 * @throws TenfoldError with the place in the study
 */
export function macroModelOf(
  study: Study,
  name: string,
  catalogue: Catalogue,
  parse: Parser,
  change: Change = (design) => design,
): MacroModel {
  const resolved = change(resolveDesign(study, name, catalogue));
  if (!isSearched(study.designs[name]!, resolved)) return new MacroModel(resolved, parse);
  const search = new TileSearch(study, name, catalogue, parse, change);
  const { design, largest } = search.run(resolved);
  const organised = { ...design.organised, largest };
  return new MacroModel({ ...design, organised }, parse);
}

/** Share of the write voltage below which the closed forms' verdict is taken. */
const HOPELESS = 0.6;

function deliveryOf(model: MacroModel): number {
  return model.nominal().get("write_delivery_share") ?? 1;
}

/**
 * Whether the tool looks for a design's tile.
 *
 * @param varied names of what is given otherwise
 */
export function isSearched(
  { tile }: Design,
  { cell }: ResolvedDesign,
  varied: readonly string[] = [],
): boolean {
  const lines = ["rows", "columns"] as const;
  const asked = lines.some((one) => tile?.[one] === "auto" && !varied.includes(one));
  return asked && (cell.kind === "crosspoint" || cell.kind === "resistive-transistor");
}

class TileSearch {
  private readonly study: Study;
  private readonly name: string;
  private readonly catalogue: Catalogue;
  private readonly parse: Parser;
  private ratios: readonly Parameter[] = [];
  private kind = "";

  private readonly change: Change;

  constructor(study: Study, name: string, catalogue: Catalogue, parse: Parser, change: Change) {
    this.change = change;
    this.study = study;
    this.name = name;
    this.catalogue = catalogue;
    this.parse = parse;
  }

  run(byDefault: ResolvedDesign): { design: ResolvedDesign; largest: string } {
    this.kind = byDefault.cell.kind;
    const found = largestLines(
      this.least(),
      this.most(),
      (lines) => {
        const design = this.sized(lines);
        const quick = new MacroModel(design, this.parse, { ratios: [] });
        // Lines that take this much leave no doubt, and would take long to solve.
        if (deliveryOf(quick) < HOPELESS) return faultOf(quick);
        const model = new MacroModel(this.sized(lines), this.parse);
        this.ratios = model.corner?.ratios ?? [];
        return faultOf(model);
      },
      (lines) => faultOf(new MacroModel(this.sized(lines), this.parse, { ratios: this.ratios })),
    );
    const design = found.lines === undefined ? byDefault : this.sized(found.lines);
    return { design, largest: this.sentence(found) };
  }

  private get tile() {
    return this.study.designs[this.name]!.tile!;
  }

  /** The design with so many lines each way that the study leaves open. */
  private sized(lines: number): ResolvedDesign {
    const design = this.study.designs[this.name]!;
    const { rows, columns } = this.tile;
    const tile = {
      ...this.tile,
      rows: rows === "auto" ? lines : rows,
      columns: columns === "auto" ? lines : columns,
    };
    const designs = {
      ...this.study.designs,
      [this.name]: { ...design, tile: tile as NonNullable<Design["tile"]> },
    };
    return this.change(resolveDesign({ ...this.study, designs }, this.name, this.catalogue));
  }

  /** The narrowest tile that the organisation allows. */
  private least(): number {
    for (let lines = LEAST_LINES; lines < MOST_LINES; lines *= 2) {
      try {
        new MacroModel(this.sized(lines), this.parse, { ratios: [] });
        return lines;
      } catch (error) {
        if (!(error instanceof TenfoldError)) throw error;
      }
    }
    return LEAST_LINES;
  }

  /** No larger than what one bank holds. */
  private most(): number {
    const { capacity = 1, cell, tile, banks } = this.study.designs[this.name]!;
    const { rows, columns, decks = 1 } = tile!;
    const cells = capacity / ((cell?.bits ?? 1) * decks * (typeof banks === "number" ? banks : 1));
    const other = [rows, columns].find((one) => typeof one === "number") as number | undefined;
    const of = (all: number) => (other === undefined ? Math.sqrt(all) : all / other);
    const needed = pow(2, Math.ceil(log2(Math.max(1, of(cells))) - 1e-9));
    if (this.kind !== "crosspoint") return Math.min(MOST_LINES, needed);
    return Math.min(needed, pow(2, Math.floor(log2(Math.max(LEAST_LINES, of(MOST_TRIED))))));
  }

  /** Rows and columns of a tile of so many lines; what the study does not give is the default. */
  private sizes(lines: number): readonly [number, number] {
    const { parameters } = this.sized(lines);
    return [parameters.get("rows")!.value, parameters.get("columns")!.value];
  }

  /** Whether one tile of so many lines holds a bank. */
  private holds(lines: number): boolean {
    const { capacity = 1, cell, banks } = this.study.designs[this.name]!;
    const [rows, columns] = this.sizes(lines);
    const cells = rows * columns * (this.tile.decks ?? 1) * (cell?.bits ?? 1);
    return cells * (typeof banks === "number" ? banks : 1) >= capacity;
  }

  private sentence({ lines, beyond, about }: Largest): string {
    const size = (n: number) => this.sizes(n).join(" × ");
    if (lines === undefined) {
      return beyond === undefined
        ? "no tile was tried: the capacity is too small for one"
        : `no tile works: at ${size(beyond.lines)} ${beyond.fault}`;
    }
    if (beyond === undefined) {
      const why = this.holds(lines) ? "the capacity needs" : "is tried";
      return `${size(lines)} is the largest tile that ${why}, and it works`;
    }
    return (
      `${size(lines)} is the largest tile that works; at ${size(beyond.lines)} ${beyond.fault} ` +
      `(about ${about} lines would do)`
    );
  }
}
