import type { Catalogue } from "../../catalogue/index.ts";
import { nearestWord } from "../../errors/nearest.ts";
import { refuse } from "../../errors/problem.ts";
import type { Draws } from "../../estimate/draws.ts";
import {
  type Counting,
  DEFAULT_COUNTING,
  type FunctionDefinition,
  SideModel,
} from "../../estimate/functions/index.ts";
import { type Boundary, countAt } from "../../estimate/ledger.ts";
import { chosen } from "../../estimate/parameters.ts";
import type { Parser } from "../../formulas/expand.ts";
import type { Parameter } from "../../quantities/parameter.ts";
import type { EntryUse } from "../../schema/field.ts";
import type { Design, Study } from "../../schema/study.ts";

/** What a function is built for. */
export interface Setting {
  readonly subject: string;
  /** Elements of the function; that of the subject where absent. */
  readonly capacity?: number;
  readonly word?: number;
  readonly banks?: number;
  readonly technology?: EntryUse;
  readonly sizes?: Readonly<Record<string, number>>;
  readonly counting?: Partial<Counting>;
}

/** A value in place of a parameter, on each side that shares the parameter. */
export interface Change {
  readonly parameter: Parameter;
  readonly value: number;
}

type Figures = ReadonlyMap<string, number>;
type Columns = ReadonlyMap<string, Float64Array>;

/** The parameter that says how large a function is. */
export const CAPACITY = "function_capacity";

/** Both ways to build one function, compared at the same figures. */
export class Sides {
  readonly definition: FunctionDefinition;
  readonly hybrid: SideModel;
  readonly baseline: SideModel;
  readonly capacity: number;
  readonly counting: Counting;

  /** @throws TenfoldError with the place in the study */
  constructor(
    definition: FunctionDefinition,
    study: Study,
    setting: Setting,
    catalogue: Catalogue,
    parse: Parser,
  ) {
    const { subject } = setting;
    this.definition = definition;
    this.capacity = setting.capacity ?? study.designs[subject]!.capacity!;
    this.counting = { ...DEFAULT_COUNTING, ...setting.counting };
    const use = {
      subject,
      change: (design: Design) => oneBit(changed(design, setting, this.capacity), definition),
      sizes: { ...setting.sizes, [CAPACITY]: this.capacity },
      counting: this.counting,
    };
    this.hybrid = new SideModel(study, definition.hybrid, use, catalogue, parse);
    this.baseline = new SideModel(study, definition.baseline, use, catalogue, parse);
  }

  /** Parameters that either side depends on; one that both share stands once. */
  parameters(): readonly Parameter[] {
    const all = [...this.hybrid.parameters(), ...this.baseline.parameters()];
    return [...new Map(all.map((one) => [`${one.name} ${one.key}`, one])).values()];
  }

  /** Transistors saved per switch at the nominal figures. */
  saved(boundary: Boundary, change?: Change): number {
    const [hybrid, baseline] = [this.hybrid, this.baseline].map((side) =>
      side.at(changesOf(side, change)),
    ) as [Figures, Figures];
    return savedOf(boundary, hybrid, baseline);
  }

  /** The same for searches: NaN where a side can't be computed. */
  savedAt(boundary: Boundary, change: Change): number {
    const hybrid = this.hybrid.tried(changesOf(this.hybrid, change));
    const baseline = hybrid && this.baseline.tried(changesOf(this.baseline, change));
    return hybrid && baseline ? savedOf(boundary, hybrid, baseline) : Number.NaN;
  }

  /** The outputs of both sides for all draws. */
  sample(draws: Draws, change?: Change): { readonly hybrid: Columns; readonly baseline: Columns } {
    return {
      hybrid: this.hybrid.sample(draws, changesOf(this.hybrid, change)),
      baseline: this.baseline.sample(draws, changesOf(this.baseline, change)),
    };
  }

  /** Transistors saved per switch for all draws; NaN where a side cannot work. */
  savedSamples(boundary: Boundary, columns: ReturnType<Sides["sample"]>): Float64Array {
    const { hybrid, baseline } = columns;
    const [own, other] = [hybrid, baseline].map((side) => side.get(countAt(boundary))!);
    const switches = hybrid.get(switchesAt(boundary))!;
    const works = this.working(columns);
    return own!.map((count, i) => (works[i] ? (other![i]! - count) / switches[i]! : Number.NaN));
  }

  /** By draw, 1 where both sides can work. */
  working({ hybrid, baseline }: ReturnType<Sides["sample"]>): Uint8Array {
    const works = new Uint8Array(hybrid.get("data_switches")!.length).fill(1);
    for (const [side, columns] of [
      [this.hybrid, hybrid],
      [this.baseline, baseline],
    ] as const) {
      for (const { quantity } of side.conditions) {
        const column = columns.get(quantity)!;
        for (let i = 0; i < works.length; i++) if (!(column[i]! > 0)) works[i] = 0;
      }
    }
    return works;
  }
}

/** The capacity as a parameter that can be moved. */
export function capacityParameter(sides: Sides): Parameter {
  return chosen(CAPACITY, sides.capacity);
}

/**
 * A parameter of either side by its name.
 * @throws TenfoldError `unknown-word` with the nearest one
 */
export function parameterNamed(sides: Sides, name: string): Parameter {
  const all = sides.parameters();
  const found = all.find((one) => one.name === name);
  if (found !== undefined) return found;
  const nearest = nearestWord(
    name,
    all.map((one) => one.name),
  );
  return refuse({
    code: "unknown-word",
    what: `${sides.definition.name} does not depend on a parameter \`${name}\``,
    got: name,
    ...(nearest === undefined ? {} : { nearest }),
  });
}

/** The quantity that counts the switches of a boundary. */
export function switchesAt(boundary: Boundary): string {
  return boundary === "cell" ? "data_switches" : "function_switches";
}

function savedOf(boundary: Boundary, hybrid: Figures, baseline: Figures): number {
  const count = countAt(boundary);
  return (baseline.get(count)! - hybrid.get(count)!) / hybrid.get(switchesAt(boundary))!;
}

function changed(design: Design, setting: Setting, capacity: number): Design {
  const { word, banks, technology } = setting;
  return {
    ...design,
    capacity,
    ...(word === undefined ? {} : { word }),
    ...(banks === undefined ? {} : { banks }),
    ...(technology === undefined ? {} : { technology }),
  };
}

/** Where a switch stands for a point or a symbol it holds one bit, however many it could. */
function oneBit(design: Design, { levels }: FunctionDefinition): Design {
  const { cell } = design;
  if (levels || cell?.bits === undefined) return design;
  const { bits: _, ...rest } = cell;
  return { ...design, cell: rest };
}

function changesOf(side: SideModel, change: Change | undefined): ReadonlyMap<string, number> {
  if (change === undefined) return new Map();
  const { name, key } = change.parameter;
  const own = side.design.parameters.get(name);
  return new Map(own?.key === key ? [[name, change.value]] : []);
}
