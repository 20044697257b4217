import type { Catalogue } from "../../catalogue/index.ts";
import { fail, TenfoldError } from "../../errors/problem.ts";
import { assemble } from "../../formulas/assemble.ts";
import { type Compiled, compile } from "../../formulas/compile.ts";
import type { Parser } from "../../formulas/expand.ts";
import type { GivenQuantity, Program } from "../../formulas/program.ts";
import type { Parameter } from "../../quantities/parameter.ts";
import type { Design, Study } from "../../schema/study.ts";
import { assembling, blaming } from "../blame.ts";
import { type Condition, conditionsOf } from "../conditions.ts";
import { levelReadingOf, type ResolvedDesign, resolveDesign } from "../design.ts";
import type { Draws } from "../draws.ts";
import { BOUNDARIES, countAt, type LedgerRow } from "../ledger.ts";
import { MacroModel } from "../model.ts";
import { chosen } from "../parameters.ts";
import { takeLargest } from "./fit.ts";
import { type SideRecipe, sideRecipe } from "./recipe.ts";
import type { Side } from "./side.ts";

/** What a count leaves in. */
export interface Counting {
  readonly dummies: boolean;
  readonly spares: boolean;
  readonly test: boolean;
  readonly error_correction: boolean;
}

/** As the totals of a macro count. */
export const DEFAULT_COUNTING: Counting = {
  dummies: false,
  spares: true,
  test: false,
  error_correction: true,
};

/** How a side of a function is set up. */
export interface SideUse {
  /** A design of the study: its process, organisation, and for a hybrid side its switch. */
  readonly subject: string;
  /** Changes of the subject, such as the capacity of the claim. */
  readonly change: (design: Design) => Design;
  /** Sizes of the function, by parameter. */
  readonly sizes: Readonly<Record<string, number>>;
  readonly counting: Counting;
}

/** The quantities that a claim reads. */
export const SIDE_OUTPUTS: readonly string[] = [
  ...BOUNDARIES.map(countAt),
  "data_switches",
  "function_switches",
  "function_area",
  "operation_energy",
  "operation_delay",
];

const NOTHING: ReadonlyMap<string, number> = new Map();

/** One side of a function as a function of its parameters. */
export class SideModel {
  readonly design: ResolvedDesign;
  readonly program: Program;
  readonly rows: readonly LedgerRow[];
  readonly conditions: readonly Condition[];
  private readonly outputs: Compiled;
  private whole: Compiled | undefined;
  private readonly nominals = new Map<Compiled, Float64Array>();

  /** @throws TenfoldError with the place in the study, or for a figure that nothing gives */
  constructor(study: Study, side: Side, use: SideUse, catalogue: Catalogue, parse: Parser) {
    this.design = resolvedSide(study, side, use, catalogue);
    const { structure } =
      side.memory === undefined ? { structure: undefined } : new MacroModel(this.design, parse);
    const recipe = sideRecipe(side, structure && { structure, model: this.design.model });
    this.rows = recipe.rows;
    this.program = assembling(this.design, () => assembled(this.design, recipe, parse));
    this.conditions = side.memory === undefined ? [] : conditionsOf(this.program);
    const names = this.conditions.map(({ quantity }) => quantity);
    this.outputs = compile(this.program, [...SIDE_OUTPUTS, ...names]);
  }

  /** The parameters that the outputs depend on. */
  parameters(): readonly Parameter[] {
    return this.outputs.inputs.map((name) => this.design.parameters.get(name)!);
  }

  /**
   * The outputs at the nominal parameters, in SI.
   *
   * @param changes values in place of parameters, by name
   */
  at(changes: ReadonlyMap<string, number> = NOTHING): ReadonlyMap<string, number> {
    return this.evaluated(this.outputs, changes);
  }

  /** As `at`, for searches: undefined where nothing can be computed, without looking for a reason, which takes long. */
  tried(changes: ReadonlyMap<string, number>): ReadonlyMap<string, number> | undefined {
    try {
      return named(this.outputs, this.changed(this.outputs, changes));
    } catch (error) {
      if (!(error instanceof TenfoldError)) throw error;
      return undefined;
    }
  }

  /** Every quantity at the nominal parameters, the given ones included. */
  everything(): ReadonlyMap<string, number> {
    this.whole ??= compile(this.program);
    const values = new Map(this.evaluated(this.whole, NOTHING));
    for (const name of this.program.given) values.set(name, this.figure(name, NOTHING));
    return values;
  }

  /**
   * One column per output for all draws, with `changes` held; not finite where a draw cannot be
   * computed.
   */
  sample(
    draws: Draws,
    changes: ReadonlyMap<string, number> = NOTHING,
  ): ReadonlyMap<string, Float64Array> {
    const { inputs, names } = this.outputs;
    const columns = inputs.map((name) => {
      const held = changes.get(name);
      if (held !== undefined) return new Float64Array(draws.count).fill(held);
      return draws.of(this.design.parameters.get(name)!);
    });
    const results = names.map(() => new Float64Array(draws.count));
    this.outputs.evaluateMany(columns, draws.count, results, "marked");
    return new Map(names.map((name, i) => [name, results[i]!]));
  }

  private evaluated(compiled: Compiled, changes: ReadonlyMap<string, number>) {
    const inputs = this.changed(compiled, changes);
    const given = () => new Map(compiled.inputs.map((name, i) => [name, inputs[i]!]));
    return blaming(
      this.design,
      () => ({ program: this.program, outputs: compiled.names, inputs: given() }),
      () => named(compiled, inputs),
    );
  }

  /** The nominal inputs, some of them changed. */
  private changed(compiled: Compiled, changes: ReadonlyMap<string, number>): Float64Array {
    const inputs = this.nominalOf(compiled).slice();
    for (const [name, value] of changes) {
      const at = compiled.inputs.indexOf(name);
      if (at >= 0) inputs[at] = value;
    }
    return inputs;
  }

  /** The nominal inputs; searches ask for one set after the other that differs from them in one value. */
  private nominalOf(compiled: Compiled): Float64Array {
    const known = this.nominals.get(compiled);
    if (known !== undefined) return known;
    const inputs = Float64Array.from(compiled.inputs, (name) => this.figure(name, NOTHING));
    this.nominals.set(compiled, inputs);
    return inputs;
  }

  private figure(name: string, changes: ReadonlyMap<string, number>): number {
    const value = changes.get(name) ?? this.design.parameters.get(name)?.value;
    if (value !== undefined) return value;
    return fail({ code: "quantity-missing", what: `nothing gives "${name}"`, got: name });
  }
}

function named(compiled: Compiled, inputs: Float64Array): ReadonlyMap<string, number> {
  const values = new Float64Array(compiled.names.length);
  compiled.evaluate(inputs, values);
  return new Map(compiled.names.map((name, i) => [name, values[i]!]));
}

function resolvedSide(
  study: Study,
  side: Side,
  use: SideUse,
  catalogue: Catalogue,
): ResolvedDesign {
  const { subject, counting } = use;
  const own = use.change(study.designs[subject]!);
  const design = counted(side.organise?.(own) ?? own, counting);
  const changed = { ...study, designs: { ...study.designs, [subject]: celled(design, side) } };
  const resolved = resolveDesign(changed, subject, catalogue);
  const { parameters } = resolved;
  if (side.published !== undefined) {
    const entry = catalogue.resolve("baseline", side.published).parameters;
    for (const [field, name] of PUBLISHED) {
      const figure = entry[field];
      if (figure !== undefined) parameters.add({ ...figure, name });
    }
  }
  const paired = side.memory?.of === "subject" && side.memory.form === "pair";
  if (paired && resolved.cell.kind === "crosspoint") parameters.add(chosen("cells_per_bit", 2));
  if (side.memory !== undefined) takeLargest(parameters);
  // A baseline's cells hold one bit whatever the switch holds: the two must not move together.
  const ownBits = parameters.get("bits_per_cell");
  if (side.memory?.of === "baseline" && ownBits !== undefined) {
    parameters.add({ ...ownBits, key: "choice/bits_per_cell/baseline" });
  }
  const levels =
    side.memory?.of === "subject" && side.memory.levels ? levelReadingOf(design) : undefined;
  return withSizes({ ...resolved, ...(levels && { levels }) }, use);
}

const PUBLISHED = [
  ["cell_transistors", "published_transistors"],
  ["cell_area_to_sram_6t", "published_area_ratio"],
] as const;

function withSizes(resolved: ResolvedDesign, { sizes, counting }: SideUse): ResolvedDesign {
  const { parameters } = resolved;
  for (const [name, value] of Object.entries(sizes)) parameters.add(chosen(name, value));
  parameters.add(chosen("count_dummies", counting.dummies ? 1 : 0));
  parameters.add(chosen("count_test", counting.test ? 1 : 0));
  return resolved;
}

/** A design without what the count leaves out. */
function counted(design: Design, { spares, error_correction }: Counting): Design {
  return {
    ...design,
    ...(spares ? {} : { spare_rows: 0, spare_columns: 0 }),
    ...(error_correction ? {} : { error_correction: "none" as const }),
  };
}

/** The design with the cell that the side's memory has. */
function celled(design: Design, { memory }: Side): Design {
  if (memory?.of === "baseline") {
    const { bias: _, ...rest } = design;
    const baseline = { from: memory.cell, values: {}, path: "/claims" };
    return { ...rest, tile: { ...rest.tile, decks: 1 }, cell: { baseline } };
  }
  const { cell } = design;
  if (memory === undefined || memory.form === "single" || cell === undefined) return design;
  const { selector } = cell;
  const transistor = selector?.variant === "transistor" || selector?.from === "transistor";
  return transistor ? { ...design, cell: { ...cell, form: "differential" } } : design;
}

/** Gives the program those parameters that its sheets read and do not compute. */
function assembled(design: ResolvedDesign, recipe: SideRecipe, parse: Parser): Program {
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
  return assemble(instances, given, parse, recipe.extra);
}
