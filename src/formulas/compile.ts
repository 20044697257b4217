/** Programs to fast functions over typed arrays. */

import { refuse } from "../errors/problem.ts";
import { pow } from "../numerics/special/elementary.ts";
import { proceduresOf, scalarSource } from "./codegen.ts";
import { Columns } from "./columns.ts";
import { reportNonFinite } from "./finite.ts";
import { IMPLEMENTATIONS } from "./functions.ts";
import { functionFrom, GENERATES } from "./generated.ts";
import { Graph } from "./graph.ts";
import { interpretProgram } from "./interpret.ts";
import { INPUT, NUMBER } from "./nodes.ts";
import { type Program, readBy, type Step, writtenBy } from "./program.ts";
import { computeNodes, type Failing, initialValues } from "./scalar.ts";
import { neededSteps, segmentsOf } from "./segments.ts";
import type { Procedure } from "./sheet.ts";

/** A program as functions. */
export interface Compiled {
  /**
   * The given quantities that the outputs need, in the order of the program: the layout of
   * `inputs`.
   */
  readonly inputs: readonly string[];
  /**
   * The outputs, in the order in which they were asked for: the layout of `values` and `outputs`.
   */
  readonly names: readonly string[];
  /**
   * Computes all outputs of one set of inputs.
   *
   * @param inputs one SI value per name of `inputs`
   * @param values receives one SI value per name of `names`
   * @throws TenfoldError `not-finite`, naming the first quantity that is not a finite number and
   *   what it was made of
   */
  evaluate(inputs: Float64Array, values: Float64Array): void;
  /**
   * Computes all outputs of many sets of inputs.
   *
   * @param inputs one column per name of `inputs`, each with `count` SI values
   * @param count how many sets
   * @param outputs receives one column per name of `names`, each at least `count` long
   * @param failing what a set does that cannot be computed: `refused`, or `marked` by a NaN or an
   *   infinity in each output that its failure reaches, while the others go on
   * @throws TenfoldError `not-finite`, as `evaluate`, for the first set that is refused
   */
  evaluateMany(
    inputs: readonly Float64Array[],
    count: number,
    outputs: readonly Float64Array[],
    failing?: Failing,
  ): void;
}

type Segment = (I: Float64Array, S: Float64Array, O: Float64Array) => void;
type Factory = (f: unknown, P: readonly Procedure[]) => readonly Segment[];

const AVAILABLE = { __proto__: null, ...IMPLEMENTATIONS, pow };

/** Fewer sets than this are computed one by one. */
const FEW = 8;
/** Evaluations of one set that go through the formulas as they are. */
const WORTH_A_GRAPH = 3;
/** Evaluations of one set after which a function of its own pays. */
const WORTH_A_FUNCTION = 16;
const MOST_KEPT = 100;
const factories = new Map<string, Factory>();

/**
 * Compiles a program. Single sets are computed by its graph; for one that is evaluated often a
 * function is generated, which programs of the same structure share.
 *
 * @param program from `assemble`
 * @param outputs the quantities to compute; all that the program computes unless given. What they
 *   do not need is left out.
 * @throws TenfoldError `quantity-missing` for an output that the program does not have
 */
export function compile(program: Program, outputs?: readonly string[]): Compiled {
  for (const name of outputs ?? []) {
    if (program.quantities.has(name)) continue;
    refuse({ code: "quantity-missing", what: `nothing computes "${name}"`, got: name });
  }
  return new CompiledProgram(program, outputs);
}

class CompiledProgram implements Compiled {
  readonly inputs: readonly string[];
  readonly names: readonly string[];
  private readonly program: Program;
  private readonly steps: readonly Step[];
  private made: Whole | undefined;
  private evaluations = 0;
  private own: ((inputs: Float64Array, values: Float64Array) => void) | undefined;

  constructor(program: Program, outputs: readonly string[] | undefined) {
    const names = [...new Set(outputs ?? program.steps.flatMap(writtenBy))];
    this.program = program;
    this.names = names;
    this.steps = outputs ? neededSteps(program, names) : program.steps;
    const read = new Set(names);
    for (const step of this.steps) for (const name of readBy(step)) read.add(name);
    this.inputs = program.given.filter((name) => read.has(name));
  }

  evaluate(inputs: Float64Array, values: Float64Array): void {
    if (this.own) this.own(inputs, values);
    else if (this.evaluations++ < WORTH_A_GRAPH) this.interpret(inputs, values);
    else if (!GENERATES || this.evaluations < WORTH_A_FUNCTION)
      this.evaluateOnce(inputs, values, "refused");
    else {
      this.own = this.generate();
      this.own(inputs, values);
    }
    let bad = 0;
    for (let i = 0; i < this.names.length; i++) bad += values[i]! * 0;
    if (bad !== 0) reportNonFinite(this.program, this.names, this.inputs, inputs);
  }

  evaluateMany(
    inputs: readonly Float64Array[],
    count: number,
    outputs: readonly Float64Array[],
    failing: Failing = "refused",
  ): void {
    const check = (from: number, to: number): void => {
      if (failing === "refused") this.checkSets(inputs, from, to, outputs);
    };
    if (count >= FEW) {
      this.whole.columns.run(inputs, count, outputs, failing, check);
      return;
    }
    const values = new Float64Array(this.names.length);
    for (let set = 0; set < count; set++) {
      this.evaluateOnce(
        Float64Array.from(inputs, (column) => column[set]!),
        values,
        failing,
      );
      for (const [k, value] of values.entries()) outputs[k]![set] = value;
      check(set, set + 1);
    }
  }

  /** The graph and what is made from it, when it is first needed. */
  private get whole(): Whole {
    if (this.made) return this.made;
    const graph = new Graph(this.inputs, this.steps);
    const nodes = Array.from(graph.kinds.keys());
    const inputs = this.inputs.map((name) => graph.quantities.get(name)!);
    const wanted = this.names.map((name) => graph.quantities.get(name)!);
    this.made = {
      graph,
      inputs,
      wanted,
      computed: nodes.filter((node) => ![INPUT, NUMBER].includes(graph.kinds[node]!)),
      values: initialValues(graph),
      columns: new Columns(graph, inputs, wanted),
    };
    return this.made;
  }

  private interpret(inputs: Float64Array, results: Float64Array): void {
    const given = new Map(this.inputs.map((name, k) => [name, inputs[k]!]));
    const values = interpretProgram(this.program, given, this.steps);
    for (const [k, name] of this.names.entries()) results[k] = values.get(name)!;
  }

  private evaluateOnce(inputs: Float64Array, results: Float64Array, failing: Failing): void {
    const { graph, computed, values, wanted, inputs: nodes } = this.whole;
    for (const [k, node] of nodes.entries()) values[node] = inputs[k]!;
    computeNodes(graph, computed, values, failing);
    for (const [k, node] of wanted.entries()) results[k] = values[node]!;
  }

  private checkSets(
    inputs: readonly Float64Array[],
    start: number,
    end: number,
    outputs: readonly Float64Array[],
  ): void {
    for (let set = start; set < end; set++) {
      let bad = 0;
      for (const column of outputs) bad += column[set]! * 0;
      if (bad === 0) continue;
      const one = Float64Array.from(inputs, (column) => column[set]!);
      reportNonFinite(this.program, this.names, this.inputs, one, set);
    }
  }

  /** A function of the program's own, in pieces that the engine optimises. */
  private generate(): (inputs: Float64Array, values: Float64Array) => void {
    const segments = segmentsOf(this.steps, this.names);
    const input = indexed(this.inputs);
    const crossing = segments.flatMap(({ reads }) => reads).filter((name) => !input.has(name));
    const carried = indexed([...new Set(crossing)]);
    const text = scalarSource(segments, { input, carried, output: indexed(this.names) });
    let factory = factories.get(text);
    if (!factory) {
      factory = functionFrom("f, P", text) as Factory;
      if (factories.size >= MOST_KEPT) factories.delete(factories.keys().next().value ?? "");
      factories.set(text, factory);
    }
    const procedures = proceduresOf(this.steps).map(({ procedure }) => procedure);
    const pieces = factory(AVAILABLE, procedures);
    const between = new Float64Array(carried.size);
    // Outputs that are inputs are copied, for no step computes them.
    const copies = this.names.flatMap((name, to) => {
      const from = input.get(name);
      return from === undefined ? [] : [[from, to] as const];
    });
    return (inputs, values) => {
      for (const piece of pieces) piece(inputs, between, values);
      for (const [from, to] of copies) values[to] = inputs[from]!;
    };
  }
}

/** A program's graph, the nodes of its inputs and outputs, and what it is computed with. */
interface Whole {
  readonly graph: Graph;
  readonly inputs: readonly number[];
  readonly wanted: readonly number[];
  /** All nodes but inputs and numbers. */
  readonly computed: readonly number[];
  readonly values: Float64Array;
  readonly columns: Columns;
}

function indexed(names: readonly string[]): ReadonlyMap<string, number> {
  return new Map(names.map((name, index) => [name, index]));
}
