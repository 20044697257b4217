import { fail, type Problem, TenfoldError } from "../errors/problem.ts";
import { type Compiled, compile } from "../formulas/compile.ts";
import type { Parser } from "../formulas/expand.ts";
import type { GivenQuantity, Program } from "../formulas/program.ts";
import type { Parameter } from "../quantities/parameter.ts";
import { assembling, blaming } from "./blame.ts";
import { type CornerFinding, cornerFinding, findingNames } from "./crossbar/ratios.ts";
import type { ResolvedDesign } from "./design.ts";
import type { Draws } from "./draws.ts";
import { cellRecipe, type MacroRecipe, macroProgram, macroRecipe } from "./macro.ts";
import type { Total } from "./parts.ts";
import { requireTiles } from "./possible.ts";
import { REPORTED } from "./quantities.ts";
import { heldLevels, type MacroStructure, peripheryStructure } from "./structure.ts";

/** A program of a structure, shared by all designs that have it. */
interface Built {
  readonly program: Program;
  readonly totals: readonly Total[];
  readonly whole: Compiled;
}

/** What decides whether a write needs more than the core supply. */
const EDGE = ["write_voltage", "row_swing", "write_row_swing"];
/** What decides whether a bank can give a word. */
const ROOM = ["tiles_active", "tiles_per_bank", "coded_word"];
const MOST_KEPT = 64;
const built = new Map<string, Built>();

/** A design as a function of its parameters. */
export class MacroModel {
  readonly design: ResolvedDesign;
  readonly structure: MacroStructure;
  readonly program: Program;
  readonly totals: readonly Total[];
  /** The parameters that the program reads, in its order. */
  readonly parameters: readonly Parameter[];
  /** How the far corner of a crossbar was found. */
  readonly corner?: CornerFinding;
  /** What the design states beside its cell and technology, and no model reads. */
  readonly unread: readonly string[];
  private readonly whole: Compiled;
  private reported: Compiled | undefined;

  /**
   * @param design from `resolveDesign`
   * @param parse text to tree, see `formulas`
   * @param options `ratios` of network solve over closed form, in place of a solve; `levels` that
   *   decide which supplies writes need, in place of the design's own voltages
   * @throws TenfoldError when the design has no figure for something that its models need
   */
  constructor(
    design: ResolvedDesign,
    parse: Parser,
    options: {
      readonly ratios?: readonly Parameter[];
      readonly levels?: { readonly write: number; readonly row: number };
    } = {},
  ) {
    this.design = design;
    const first = structureOf(design, { write: 0, row: 0, supply: 1, ioSupply: 1 });
    const { schemes, selectorKind } = design.cell;
    const asked = [...EDGE, ...ROOM, ...(selectorKind ? findingNames(selectorKind) : [])];
    const edge = build(design, first, cellRecipe(first, design.model), parse, asked);
    let voltages = nominal(edge, design);
    requireTiles(voltages, design.locate);
    if (schemes !== undefined && selectorKind !== undefined) {
      if (options.ratios === undefined)
        this.corner = cornerFinding(selectorKind, schemes, voltages);
      const ratios = options.ratios ?? this.corner!.ratios;
      design.parameters.add(...ratios);
      if (ratios.length > 0) voltages = nominal(edge, design);
    }
    this.structure = structureOf(design, {
      write: options.levels?.write ?? voltages.get("write_voltage")!,
      row:
        options.levels?.row ??
        Math.max(voltages.get("row_swing")!, voltages.get("write_row_swing")!),
      supply: design.parameters.get("supply")!.value,
      ioSupply: design.parameters.get("io_supply")!.value,
    });
    const recipe = macroRecipe(this.structure, design.model);
    const { program, totals, whole } = build(design, this.structure, recipe, parse);
    this.program = program;
    this.totals = totals;
    this.whole = whole;
    this.parameters = whole.inputs.map((name) => design.parameters.get(name)!);
    this.unread = unreadOf(design, whole.inputs);
  }

  /** Every quantity at the nominal parameters, in SI. */
  nominal(): ReadonlyMap<string, number> {
    return nominal({ program: this.program, whole: this.whole }, this.design);
  }

  /**
   * The reported quantities for every draw of the parameters.
   *
   * @returns one column per name, each with a value per sample, in SI; not finite where a draw
   *   cannot be computed
   */
  sample(
    draws: Draws,
    names: readonly string[] = REPORTED.map(({ name }) => name),
  ): ReadonlyMap<string, Float64Array> {
    const compiled = this.compiledFor(names);
    const inputs = compiled.inputs.map((name) => draws.of(this.design.parameters.get(name)!));
    const outputs = compiled.names.map(() => new Float64Array(draws.count));
    compiled.evaluateMany(inputs, draws.count, outputs, "marked");
    return new Map(compiled.names.map((name, i) => [name, outputs[i]!]));
  }

  /** Why the reported quantities cannot be computed for one draw; undefined where they can. */
  failure(draws: Draws, index: number, names: readonly string[]): Problem | undefined {
    const compiled = this.compiledFor(names);
    const inputs = Float64Array.from(
      compiled.inputs,
      (name) => draws.of(this.design.parameters.get(name)!)[index]!,
    );
    try {
      compiled.evaluate(inputs, new Float64Array(names.length));
      return undefined;
    } catch (error) {
      if (!(error instanceof TenfoldError)) throw error;
      return error.problems[0];
    }
  }

  private compiledFor(names: readonly string[]): Compiled {
    if (this.reported && sameNames(this.reported.names, names)) return this.reported;
    this.reported = compile(this.program, names);
    return this.reported;
  }
}

/** Switches, baselines and processes have figures for more than a macro; what else is stated should be read. */
function unreadOf(design: ResolvedDesign, read: readonly string[]): string[] {
  const own = /^study:\/designs\/[^/]+\/(?!cell\/|technology\/|wires\/)/;
  const stated = design.parameters.all().filter(({ key }) => own.test(key));
  return stated.map(({ name }) => name).filter((name) => !read.includes(name));
}

function sameNames(left: readonly string[], right: readonly string[]): boolean {
  return left.length === right.length && left.every((name, i) => name === right[i]);
}

function structureOf(
  design: ResolvedDesign,
  voltages: Parameters<typeof peripheryStructure>[2],
): MacroStructure {
  const { cell, model, organised, correction, wires, reliability, levels } = design;
  const choices = {
    selectedColumns: organised.columnShare * organised.decks,
    correction,
    spares: organised.spares,
    lines: organised.lines,
    die: organised.die,
    ...(levels !== undefined && { levels }),
    ...(cell.schemes !== undefined && { bias: heldLevels(cell.schemes) }),
  };
  return {
    cell: cell.kind,
    ...(cell.crosspoint !== undefined && { crosspoint: cell.crosspoint }),
    periphery: peripheryStructure(model, choices, voltages),
    rowWire: wires.row,
    columnWire: wires.column,
    routeWire: wires.route,
    ...(reliability && { reliability: reliability.parts }),
  };
}

/** @param outputs what is compiled; all quantities unless given */
function build(
  design: ResolvedDesign,
  structure: MacroStructure,
  recipe: MacroRecipe,
  parse: Parser,
  outputs?: readonly string[],
): Built {
  const entries = design.instances.map(({ of, prefix = "" }) => `${prefix}${of.name}`);
  const names = design.parameters.all().map(({ name }) => name);
  const key = JSON.stringify([structure, entries, names, outputs]);
  const known = built.get(key);
  if (known) return known;
  const program = assembling(design, () => assembleFor(design, recipe, parse));
  const made = { program, totals: recipe.totals, whole: compile(program, outputs) };
  if (built.size >= MOST_KEPT) built.delete(built.keys().next().value!);
  built.set(key, made);
  return made;
}

/** Gives the program those parameters that its sheets read and do not compute. */
function assembleFor(design: ResolvedDesign, recipe: MacroRecipe, parse: Parser): Program {
  const instances = [...design.instances, ...recipe.instances];
  const computed = new Set<string>(recipe.extra.map(({ name }) => name));
  for (const { of, prefix = "" } of instances) {
    const defined = of.kind === "sheet" ? of.formulas : of.outputs;
    for (const name of Object.keys(defined)) computed.add(`${prefix}${name}`);
  }
  const given: GivenQuantity[] = design.parameters
    .all()
    .filter(({ name }) => !computed.has(name))
    .map(({ name, unit, source, note }) => ({
      name,
      unit,
      source,
      ...(note !== undefined && { meaning: note }),
    }));
  return macroProgram({ ...recipe, instances }, given, parse);
}

/** @throws TenfoldError with the place of the value of the study that lets no figure be computed */
function nominal(
  { program, whole: compiled }: Pick<Built, "program" | "whole">,
  design: ResolvedDesign,
): ReadonlyMap<string, number> {
  const inputs = Float64Array.from(compiled.inputs, (name) => {
    const parameter = design.parameters.get(name);
    if (!parameter)
      return fail({ code: "quantity-missing", what: `nothing gives "${name}"`, got: name });
    return parameter.value;
  });
  const values = new Float64Array(compiled.names.length);
  const map = new Map(compiled.inputs.map((name, i) => [name, inputs[i]!]));
  blaming(
    design,
    () => ({ program, outputs: compiled.names, inputs: map }),
    () => compiled.evaluate(inputs, values),
  );
  for (const [i, name] of compiled.names.entries()) map.set(name, values[i]!);
  return map;
}
