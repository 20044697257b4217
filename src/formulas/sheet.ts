/**
 * A model as text: formulas with unit, meaning and source. The only place where a formula stands.
 */

/** A quantity that a sheet or procedure reads. */
export interface InputDefinition {
  /** SI unit text, such as `ohm/m`; `1` for a pure number. */
  readonly unit: string;
  readonly meaning: string;
  /** The symbol of the literature, in LaTeX without dollar signs. */
  readonly symbol?: string;
}

/** A quantity that a sheet computes. */
export interface FormulaDefinition extends InputDefinition {
  readonly formula: string;
  /** A key of `shared/sources.yaml`, or `common practice` or `this project`. */
  readonly source: string;
  /** Where the formula holds, or what it leaves out. */
  readonly note?: string;
}

export interface Sheet {
  readonly kind: "sheet";
  /** Unique, snake_case. */
  readonly name: string;
  readonly title: string;
  /** A short paragraph: what is modelled, what is left out. */
  readonly about: string;
  readonly inputs: Readonly<Record<string, InputDefinition>>;
  readonly formulas: Readonly<Record<string, FormulaDefinition>>;
}

/** A computation that is no closed formula. */
export interface Procedure {
  readonly kind: "procedure";
  readonly name: string;
  readonly title: string;
  /** The method and its error bound. */
  readonly about: string;
  readonly source: string;
  readonly inputs: Readonly<Record<string, InputDefinition>>;
  readonly outputs: Readonly<Record<string, InputDefinition>>;
  /** Reads `inputs` and writes `outputs`, both in the order of their definitions, in SI. */
  run(inputs: Float64Array, outputs: Float64Array): void;
}

/** Declares a sheet. */
export function sheet(definition: Omit<Sheet, "kind">): Sheet {
  return { kind: "sheet", ...definition };
}

/** Declares a procedure. */
export function procedure(definition: Omit<Procedure, "kind">): Procedure {
  return { kind: "procedure", ...definition };
}

/**
 * One use of a sheet or procedure in a design. What the model defines gets `prefix` in front of its
 * name; an input reads the global quantity that `bind` names for it, else the one of the sheet's
 * own (prefixed) definitions, else the global quantity of the same name.
 */
export interface Instance {
  readonly of: Sheet | Procedure;
  readonly prefix?: string;
  readonly bind?: Readonly<Record<string, string>>;
}
