/** One use of a model as steps with global names. */

import type { Problem } from "../errors/problem.ts";
import { isReserved } from "./names.ts";
import {
  type ExtraFormula,
  type ProcedureStep,
  QUANTITY_NAME,
  type Quantity,
  type Step,
} from "./program.ts";
import type { InputDefinition, Instance, Procedure, Sheet } from "./sheet.ts";
import type { Tree } from "./tree.ts";
import { renameSymbols, sizeOf, symbolsOf } from "./walk.ts";

/** Turns the text of a formula into its tree. */
export type Parser = (text: string) => Tree;

/** A name that a step reads, with what the reader thinks of it. */
export interface Reading {
  readonly name: string;
  /** The unit that the reader states; undefined where it states none. */
  readonly unit?: string;
}

/** A step with what it reads and writes. */
export interface Part {
  readonly step: Step;
  readonly reads: readonly Reading[];
  readonly writes: readonly Quantity[];
  /** Who it is, for messages: `sheet wire (row_wire_), formula resistance`. */
  readonly who: string;
}

/** The steps of an instance, with its mistakes. */
export interface Expansion {
  readonly parts: readonly Part[];
  readonly problems: readonly Problem[];
}

const expansions = new WeakMap<Instance["of"], Map<string, Expansion>>();

/** The steps of an instance; found once for a use of a model, however many programs have it. */
export function expand(instance: Instance, parse: Parser): Expansion {
  const { of, prefix = "", bind = {} } = instance;
  let known = expansions.get(of);
  if (!known) {
    known = new Map();
    expansions.set(of, known);
  }
  const use = JSON.stringify([prefix, bind]);
  let made = known.get(use);
  if (!made) {
    made = expandAnew(instance, parse);
    known.set(use, made);
  }
  return made;
}

function expandAnew(instance: Instance, parse: Parser): Expansion {
  const { of, bind = {} } = instance;
  const names = namesOf(instance);
  const problems = Object.keys(bind)
    .filter((local) => !Object.hasOwn(of.inputs, local))
    .map(
      (local): Problem => ({
        code: "model-binding",
        what: `${whoIs(instance)} has no input "${local}" to bind`,
        got: local,
        expected: Object.keys(of.inputs).join(", "),
      }),
    );
  const parts =
    of.kind === "procedure"
      ? [procedurePart(instance, of, names)]
      : Object.keys(of.formulas).map((local) => formulaPart(instance, of, local, names, parse));
  for (const { writes, who } of parts) {
    for (const { name } of writes) problems.push(...nameProblems(name, who));
  }
  return { parts, problems };
}

/** The step of an extra formula. */
export function expandExtra(extra: ExtraFormula, parse: Parser): Part {
  const tree = typeof extra.formula === "string" ? parse(extra.formula) : extra.formula;
  const { symbols, size } = measured(tree);
  const from = extra.from ?? "composition";
  const { name, unit, meaning, source } = extra;
  return {
    step: { kind: "formula", name, tree, reads: symbols, size },
    reads: symbols.map((read) => ({ name: read })),
    writes: [
      { name, unit, meaning, source, by: "formula", from, prefix: "", tree, ...extrasOf(extra) },
    ],
    who: `${from}, formula ${name}`,
  };
}

function formulaPart(
  instance: Instance,
  model: Sheet,
  local: string,
  names: (local: string) => string,
  parse: Parser,
): Part {
  const definition = model.formulas[local]!;
  const written = parse(definition.formula);
  const tree = renameSymbols(written, names);
  const name = names(local);
  const { unit, meaning, source } = definition;
  const { symbols, size } = measured(written);
  const reads = symbols.map((read) => {
    const stated = model.inputs[read]?.unit;
    return stated === undefined ? { name: names(read) } : { name: names(read), unit: stated };
  });
  const own = { from: model.name, prefix: instance.prefix ?? "", tree };
  return {
    step: { kind: "formula", name, tree, reads: [...new Set(symbols.map(names))], size },
    reads,
    writes: [{ name, unit, meaning, source, by: "formula", ...own, ...extrasOf(definition) }],
    who: `${whoIs(instance)}, formula ${local}`,
  };
}

function procedurePart(
  instance: Instance,
  model: Procedure,
  names: (local: string) => string,
): Part {
  const step: ProcedureStep = {
    kind: "procedure",
    procedure: model,
    inputs: Object.keys(model.inputs).map(names),
    outputs: Object.keys(model.outputs).map(names),
  };
  const own = { from: model.name, prefix: instance.prefix ?? "", procedure: step };
  return {
    step,
    reads: Object.entries(model.inputs).map(([local, { unit }]) => ({ name: names(local), unit })),
    writes: Object.entries(model.outputs).map(([local, definition]) => ({
      name: names(local),
      unit: definition.unit,
      meaning: definition.meaning,
      source: model.source,
      by: "procedure",
      ...own,
      ...extrasOf(definition),
    })),
    who: whoIs(instance),
  };
}

const measures = new WeakMap<Tree, { symbols: string[]; size: number }>();

/** Names and size of a tree; found once for a sheet's formula, however often the sheet is used. */
function measured(tree: Tree): { symbols: string[]; size: number } {
  let found = measures.get(tree);
  if (!found) {
    found = { symbols: symbolsOf(tree), size: sizeOf(tree) };
    measures.set(tree, found);
  }
  return found;
}

function extrasOf(definition: InputDefinition & { note?: string }): {
  symbol?: string;
  note?: string;
} {
  return {
    ...(definition.symbol === undefined ? {} : { symbol: definition.symbol }),
    ...(definition.note === undefined ? {} : { note: definition.note }),
  };
}

/** From a name inside the model to the global one. */
function namesOf(instance: Instance): (local: string) => string {
  const { of, prefix = "", bind = {} } = instance;
  const defined = of.kind === "sheet" ? of.formulas : of.outputs;
  return (local) => {
    if (Object.hasOwn(defined, local)) return prefix + local;
    return Object.hasOwn(bind, local) ? bind[local]! : local;
  };
}

function whoIs({ of, prefix }: Instance): string {
  return `${of.kind} ${of.name}${prefix ? ` (${prefix})` : ""}`;
}

/** Whether a global name can be used. */
export function nameProblems(name: string, who: string): Problem[] {
  if (QUANTITY_NAME.test(name) && !isReserved(name)) return [];
  return [
    {
      code: "quantity-name",
      what: `"${name}" cannot be the name of a quantity (${who})`,
      got: name,
      expected: "letters, digits and _, a letter first, no word of the formula language",
    },
  ];
}
