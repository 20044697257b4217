/** The programs of a family of designs: one for each set of parts. */
import { type Compiled, compile } from "../formulas/compile.ts";
import { partialProgram } from "../formulas/partial.ts";
import type { Program } from "../formulas/program.ts";
import { neededSteps } from "../formulas/segments.ts";
import { RATIO } from "../models/crossbar/closed/corrected.ts";
import { SOLVED_OUTPUTS } from "../models/crossbar/contract.ts";
import { type Condition, conditionsOf } from "./conditions.ts";
import { findingNames } from "./crossbar/ratios.ts";
import { isExact } from "./draws.ts";
import { EDGE, FLOOR_NAMES, ROOM, suppliesOf } from "./family-edges.ts";
import type { MacroModel } from "./model.ts";

/** Where one input of a program comes from: a column, or the same value for all points. */
export interface Source {
  readonly from: "varied" | "layout" | "ratio" | "drawn" | "fixed";
  /** Place among the varied names, the numbers of the organisation, the ratios, or the drawn parameters. */
  readonly at: number;
  readonly value: number;
}

export interface Sourced {
  readonly compiled: Compiled;
  readonly sources: readonly Source[];
  /** Steps that the outputs need, with the numbers of what does not vary in them. */
  readonly program: Program;
}

/** One program, and which of its inputs come from where. */
export interface Variant extends Sourced {
  readonly model: MacroModel;
  readonly values: ReadonlyMap<string, number>;
  /** Columns of the wanted quantities, the conditions and the edges among the outputs. */
  readonly wanted: readonly number[];
  readonly conditions: readonly (Condition & { readonly at: number })[];
  readonly edge: readonly number[];
  readonly room: readonly number[];
  /** Of a crossbar: the columns that decide whether its network is solved, by name. */
  readonly finding?: ReadonlyMap<string, number>;
  readonly supplies: string;
}

export const RATIO_NAMES: readonly string[] = Object.keys(SOLVED_OUTPUTS).map(
  (name) => RATIO + name,
);

/** What a family asks of each of its programs. */
export interface Wanted {
  readonly varied: readonly string[];
  readonly layout: readonly string[];
  readonly quantities: readonly string[];
}

/** @param supplies those that the model was built for, where they are not the point's own */
export function variantOf(model: MacroModel, wanted: Wanted, supplies?: string): Variant {
  const conditions = conditionsOf(model.program);
  const { selectorKind, schemes } = model.design.cell;
  const corner = selectorKind !== undefined && schemes !== undefined;
  const found = corner ? findingNames(selectorKind) : [];
  const names = [
    ...new Set([
      ...wanted.quantities,
      ...conditions.map(({ quantity }) => quantity),
      ...EDGE,
      ...ROOM,
      ...found,
    ]),
  ];
  const values = new Map(model.nominal());
  for (const name of model.program.given) {
    if (!values.has(name)) values.set(name, model.design.parameters.get(name)!.value);
  }
  if (corner) for (const name of RATIO_NAMES) if (values.has(name)) values.set(name, 1);
  const sourced = sourcedProgram(model, wanted, corner ? RATIO_NAMES : [], [], values, names);
  const at = (name: string): number => sourced.compiled.names.indexOf(name);
  return {
    ...sourced,
    model,
    values,
    wanted: wanted.quantities.map(at),
    conditions: conditions.map((one) => ({ ...one, at: at(one.quantity) })),
    edge: EDGE.map(at),
    room: ROOM.map(at),
    ...(corner && { finding: new Map(found.map((name) => [name, at(name)])) }),
    supplies:
      supplies ??
      suppliesOf(
        values.get("write_voltage")!,
        Math.max(values.get("row_swing")!, values.get("write_row_swing")!),
        values.get("supply")!,
        values.get("io_supply")!,
      ),
  };
}

/** Names of the parameters of a model that are drawn: not exact and not varied. */
export function drawnNames(model: MacroModel, { varied, layout }: Wanted): readonly string[] {
  const taken = new Set([...varied, ...layout]);
  return model.parameters
    .filter((one) => !isExact(one) && !taken.has(one.name))
    .map(({ name }) => name);
}

/** The program of some outputs in which the given quantities of four kinds stay inputs. */
export function sourcedProgram(
  model: MacroModel,
  { varied, layout }: Wanted,
  ratios: readonly string[],
  drawn: readonly string[],
  values: ReadonlyMap<string, number>,
  names: readonly string[],
): Sourced {
  const moving = new Set([...varied, ...layout, ...ratios, ...drawn]);
  const program = partialProgram(model.program, values, moving, [...names, ...FLOOR_NAMES]);
  const compiled = compile(program, names);
  const kinds = [
    ["layout", layout],
    ["varied", varied],
    ["ratio", ratios],
    ["drawn", drawn],
  ] as const;
  const sources = compiled.inputs.map((name): Source => {
    const value = values.get(name)!;
    for (const [from, known] of kinds) {
      const at = known.indexOf(name);
      if (at >= 0) return { from, at, value };
    }
    return { from: "fixed", at: 0, value };
  });
  const steps = neededSteps(program, [...names, ...FLOOR_NAMES]);
  return { compiled, sources, program: { ...program, steps } };
}

/** Why a point has no figures; undefined where it has them. */
export function reasonOf(
  variant: Variant,
  results: readonly Float64Array[],
  k: number,
): string | undefined {
  const room = roomReason(variant, results, k);
  if (room !== undefined) return room;
  // For every point of a sweep: loops that make nothing.
  for (const { at, fails } of variant.conditions) if (!(results[at]![k]! > 0)) return fails;
  for (const at of variant.wanted) {
    if (!Number.isFinite(results[at]![k]!)) {
      return `${variant.compiled.names[at]} is not a finite number`;
    }
  }
  return undefined;
}

/** Why a bank is too small for an access. */
export function roomReason(
  { room }: Variant,
  results: readonly Float64Array[],
  k: number,
): string | undefined {
  const active = results[room[0]!]![k]!;
  const there = results[room[1]!]![k]!;
  return active > there ? `an access wakes ${active} tiles, but a bank has ${there}` : undefined;
}
