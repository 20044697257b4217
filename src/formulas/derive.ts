/** How a quantity comes about: the neutral tree behind `explain`. */

import { refuse } from "../errors/problem.ts";
import { formatQuantity } from "../quantities/format.ts";
import { formulaLatex } from "./latex.ts";
import { formulaText } from "./print.ts";
import type { Program, Quantity } from "./program.ts";
import { symbolOf } from "./symbols.ts";
import type { Tree } from "./tree.ts";
import { symbolsOf } from "./walk.ts";

/** One quantity with its value and all that it was computed from. */
export interface Derivation {
  readonly name: string;
  readonly meaning: string;
  /** LaTeX without dollar signs. */
  readonly symbol: string;
  /** SI unit text. */
  readonly unit: string;
  /** In SI. */
  readonly value: number;
  readonly source?: string;
  readonly note?: string;
  readonly by: Quantity["by"];
  /** The model that computes it, with the prefix of its use; empty for given ones. */
  readonly from: string;
  readonly prefix: string;
  readonly formula?: DerivedFormula;
  readonly procedure?: DerivedProcedure;
  /** What it reads, each once, in the order of the formula. */
  readonly children: readonly Derivation[];
  /**
   * `repeated`: its children stand where it came first. `cut`: they are deeper than was asked for.
   */
  readonly shortened?: "repeated" | "cut";
}

export interface DerivedFormula {
  readonly tree: Tree;
  readonly text: string;
  readonly latex: string;
  /** The formula with each name replaced by its value and unit. */
  readonly numbers: string;
}

export interface DerivedProcedure {
  readonly name: string;
  readonly title: string;
  readonly about: string;
  readonly inputs: readonly DerivedFigure[];
  readonly outputs: readonly DerivedFigure[];
}

/** A quantity with its value in SI. */
export interface DerivedFigure {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
}

/** Digits of the values in a formula with numbers: enough to follow it by hand. */
const DIGITS = 4;

/**
 * The derivation of a quantity.
 *
 * @param program from `assemble`
 * @param values SI values of all its quantities, from `valuesOf`
 * @param name the quantity
 * @param depth how many steps below it are shown; all unless given
 * @returns the tree; a quantity that is read in several places is written out at the first one
 * @throws TenfoldError `quantity-missing`
 */
export function derive(
  program: Program,
  values: ReadonlyMap<string, number>,
  name: string,
  depth = Number.POSITIVE_INFINITY,
): Derivation {
  return new Deriver(program, values).quantity(name, depth);
}

class Deriver {
  private readonly program: Program;
  private readonly values: ReadonlyMap<string, number>;
  private readonly shown = new Set<string>();

  constructor(program: Program, values: ReadonlyMap<string, number>) {
    this.program = program;
    this.values = values;
  }

  quantity(name: string, depth: number): Derivation {
    const known = this.program.quantities.get(name);
    const value = this.values.get(name);
    if (!known || value === undefined) {
      return refuse({ code: "quantity-missing", what: `nothing computes "${name}"`, got: name });
    }
    const { tree, procedure, symbol: _, ...rest } = known;
    const own = {
      ...rest,
      symbol: symbolOf(known),
      value,
      ...(tree && known.by === "formula" ? { formula: this.formula(tree) } : {}),
      ...(procedure ? { procedure: this.procedure(known) } : {}),
    };
    const reads = procedure ? procedure.inputs : tree ? symbolsOf(tree) : [];
    if (reads.length === 0) return { ...own, children: [] };
    if (this.shown.has(name)) return { ...own, children: [], shortened: "repeated" };
    if (depth <= 0) return { ...own, children: [], shortened: "cut" };
    // The outputs of one procedure share their inputs: these are written out once.
    for (const written of procedure?.outputs ?? [name]) this.shown.add(written);
    return { ...own, children: reads.map((read) => this.quantity(read, depth - 1)) };
  }

  private formula(tree: Tree): DerivedFormula {
    const { quantities } = this.program;
    return {
      tree,
      text: formulaText(tree),
      latex: formulaLatex(tree, (name) => symbolOf(quantities.get(name)!)),
      numbers: formulaText(tree, (name) => {
        const { unit, value } = this.figure(name);
        return formatQuantity({ value }, unit, { digits: DIGITS });
      }),
    };
  }

  private procedure({ procedure }: Quantity): DerivedProcedure {
    const { name, title, about } = procedure!.procedure;
    const figures = (names: readonly string[]) =>
      [...new Set(names)].map((one) => this.figure(one));
    const { inputs, outputs } = procedure!;
    return { name, title, about, inputs: figures(inputs), outputs: figures(outputs) };
  }

  private figure(name: string): DerivedFigure {
    const unit = this.program.quantities.get(name)!.unit;
    return { name, value: this.values.get(name) ?? Number.NaN, unit };
  }
}
