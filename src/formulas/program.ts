/** A design's formulas and procedures as one flat list in the order of computation. */

import type { Procedure } from "./sheet.ts";
import type { Tree } from "./tree.ts";

/** A quantity that comes from outside: a parameter or a choice of the organisation. */
export interface GivenQuantity {
  readonly name: string;
  /** SI unit text. */
  readonly unit: string;
  readonly meaning?: string;
  /** LaTeX without dollar signs. */
  readonly symbol?: string;
  readonly source?: string;
}

/**
 * A formula that stands in no sheet because it is made from the design, such as a sum over its
 * parts.
 */
export interface ExtraFormula {
  /** Global name. */
  readonly name: string;
  readonly unit: string;
  readonly meaning: string;
  readonly symbol?: string;
  readonly source: string;
  readonly note?: string;
  /** Text, or a tree made with `build.ts`; its names are global. */
  readonly formula: string | Tree;
  /** What made it, for `explain`; `composition` unless said. */
  readonly from?: string;
}

/** All that is known of one quantity of a program. */
export interface Quantity {
  readonly name: string;
  readonly unit: string;
  readonly meaning: string;
  readonly symbol?: string;
  readonly source?: string;
  readonly note?: string;
  readonly by: "given" | "constant" | "formula" | "procedure";
  /** The sheet or procedure that computes it, with the prefix of its use; empty for given ones. */
  readonly from: string;
  readonly prefix: string;
  /** With global names; only of a formula or constant. */
  readonly tree?: Tree;
  readonly procedure?: ProcedureStep;
}

export interface FormulaStep {
  readonly kind: "formula";
  readonly name: string;
  /** With global names. */
  readonly tree: Tree;
  /** The names in it, each once, in the order in which they stand. */
  readonly reads: readonly string[];
  /** How many numbers, names, operators and calls it has. */
  readonly size: number;
}

export interface ProcedureStep {
  readonly kind: "procedure";
  readonly procedure: Procedure;
  /** Global names, in the order of the procedure's inputs and outputs. */
  readonly inputs: readonly string[];
  readonly outputs: readonly string[];
}

export type Step = FormulaStep | ProcedureStep;

export interface Program {
  /** Names that come from outside, in the order in which they were given. */
  readonly given: readonly string[];
  /** Each step after all that it reads. */
  readonly steps: readonly Step[];
  readonly quantities: ReadonlyMap<string, Quantity>;
}

/** The names that a step reads. */
export function readBy(step: Step): readonly string[] {
  return step.kind === "formula" ? step.reads : step.inputs;
}

/** The names that a step computes. */
export function writtenBy(step: Step): readonly string[] {
  return step.kind === "formula" ? [step.name] : step.outputs;
}

/** A name that is safe in generated code and readable in print. */
export const QUANTITY_NAME = /^[A-Za-z][A-Za-z0-9_]*$/;
