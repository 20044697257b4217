import type { ExtraFormula } from "../../formulas/program.ts";
import type { Instance, Sheet } from "../../formulas/sheet.ts";
import type { Tree } from "../../formulas/tree.ts";
import type { Design } from "../../schema/study.ts";
import type { Boundary } from "../ledger.ts";

/** A circuit that a function has beside its memory. */
export interface FunctionPart {
  /** What a ledger calls it. */
  readonly name: string;
  /** Ends with an underscore. */
  readonly prefix: string;
  /** Defines `transistors` [1], `area` [m^2], and the energy [J] of one active instance. */
  readonly sheet: Sheet;
  readonly bind?: Readonly<Record<string, string>>;
  readonly boundary: Exclude<Boundary, "area">;
  /** Instances in all of the function: a formula. */
  readonly count: string;
  /** Instances that take part in one operation: a formula. */
  readonly active: string;
  /** What the sheet calls the energy of one operation; `energy` unless said. */
  readonly energy?: "energy" | "read_energy";
  /** Switches of one instance: a formula; none unless said. */
  readonly switches?: string;
}

/** The memory inside a function. */
export type MemoryUse =
  /** The subject's own switches: one at each place, or two that are compared. */
  | {
      readonly of: "subject";
      readonly form: "single" | "pair";
      /** It can be read by levels, of which a claim may ask for more than the subject has. */
      readonly levels?: boolean;
    }
  /** An all-CMOS cell of the catalogue. */
  | { readonly of: "baseline"; readonly cell: string };

/** One way to build a function. */
export interface Side {
  readonly memory?: MemoryUse;
  /** Changes of the subject's organisation. */
  readonly organise?: (design: Design) => Design;
  /** Bits in the memory, as a formula of `function_capacity`. */
  readonly stored?: string;
  /** The entry of kind `baseline` whose transistors and area the function takes. */
  readonly published?: string;
  readonly sheets: readonly Instance[];
  readonly parts: readonly FunctionPart[];
  /** Defines `operation_lines_energy` [J] and `operation_delay` [s], and what they need. */
  readonly formulas: readonly ExtraFormula[];
}

/** A function that can be built from switches or without. */
export interface FunctionDefinition {
  readonly name: string;
  readonly title: string;
  /** What `capacity` counts. */
  readonly element: string;
  /** What one operation is. */
  readonly operation: string;
  readonly hybrid: Side;
  readonly baseline: Side;
  /** Whether a switch may hold several bits of it. */
  readonly levels: boolean;
  /** Sentences: what a count of transistors leaves out here. */
  readonly leavesOut: readonly string[];
}

/** A formula of a composition. */
export function composed(
  name: string,
  unit: string,
  formula: string | Tree,
  meaning: string,
): ExtraFormula {
  return { name, unit, formula, meaning, source: "this project" };
}

/** The energy of the lines and the delay of one operation, which each side defines. */
export function operation(energy: string, delay: string): readonly ExtraFormula[] {
  return [
    composed("operation_lines_energy", "J", energy, "energy of lines and cells in one operation"),
    composed("operation_delay", "s", delay, "delay of one operation"),
  ];
}
