/** Programs to fast functions over typed arrays. */

import { refuse } from "../errors/problem.ts";
import { pow } from "../numerics/special/elementary.ts";
import { batchSource, type Layout, proceduresOf, scalarSource } from "./codegen.ts";
import { reportNonFinite } from "./finite.ts";
import { IMPLEMENTATIONS } from "./functions.ts";
import { type Program, readBy, writtenBy } from "./program.ts";
import { neededSteps, type Segment, segmentsOf } from "./segments.ts";
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
   * @throws TenfoldError `not-finite`, as `evaluate`, for the first such set
   */
  evaluateMany(
    inputs: readonly Float64Array[],
    count: number,
    outputs: readonly Float64Array[],
  ): void;
}

type ScalarSegment = (I: Float64Array, S: Float64Array, O: Float64Array) => void;
type BatchSegment = (
  I: readonly Float64Array[],
  S: readonly Float64Array[],
  O: readonly Float64Array[],
  start: number,
  count: number,
) => number;
type Factory = (f: unknown, P: readonly Procedure[]) => readonly unknown[];

const AVAILABLE = { __proto__: null, ...IMPLEMENTATIONS, pow };

/** Sets per chunk: the columns that carry values between segments stay in the processor's cache. */
const CHUNK = 256;
const MOST_KEPT = 100;
const factories = new Map<string, Factory>();

/**
 * Compiles a program. Code is generated at the first evaluation and shared by programs of the same
 * structure.
 *
 * @param program from `assemble`
 * @param outputs the quantities to compute; all that the program computes unless given. What they
 *   do not need is left out.
 * @throws TenfoldError `quantity-missing` for an output that the program does not have
 */
export function compile(program: Program, outputs?: readonly string[]): Compiled {
  const names = outputs ?? program.steps.flatMap(writtenBy);
  for (const name of names) {
    if (program.quantities.has(name)) continue;
    refuse({ code: "quantity-missing", what: `nothing computes "${name}"`, got: name });
  }
  return new CompiledProgram(program, [...new Set(names)]);
}

class CompiledProgram implements Compiled {
  readonly inputs: readonly string[];
  readonly names: readonly string[];
  private readonly program: Program;
  private readonly segments: readonly Segment[];
  private readonly layout: Layout;
  /** Outputs that are inputs: copied, for no step computes them. */
  private readonly copies: readonly (readonly [from: number, to: number])[];
  private scalar: readonly ScalarSegment[] | undefined;
  private batch: readonly BatchSegment[] | undefined;
  private readonly carriedValues: Float64Array;
  private carriedColumns: readonly Float64Array[] | undefined;

  constructor(program: Program, names: readonly string[]) {
    this.program = program;
    this.names = names;
    const steps = neededSteps(program, names);
    const read = new Set([...steps.flatMap(readBy), ...names]);
    this.inputs = program.given.filter((name) => read.has(name));
    this.segments = segmentsOf(steps, names);
    const input = indexed(this.inputs);
    const crossing = this.segments.flatMap(({ reads }) => reads).filter((name) => !input.has(name));
    this.layout = { input, carried: indexed([...new Set(crossing)]), output: indexed(names) };
    this.copies = names.flatMap((name, to) => {
      const from = input.get(name);
      return from === undefined ? [] : [[from, to] as const];
    });
    this.carriedValues = new Float64Array(this.layout.carried.size);
  }

  evaluate(inputs: Float64Array, values: Float64Array): void {
    this.scalar ??= this.build(scalarSource) as readonly ScalarSegment[];
    for (const segment of this.scalar) segment(inputs, this.carriedValues, values);
    for (const [from, to] of this.copies) values[to] = inputs[from]!;
    let bad = 0;
    for (let i = 0; i < this.names.length; i++) bad += values[i]! * 0;
    if (bad !== 0) reportNonFinite(this.program, this.names, this.inputs, inputs);
  }

  evaluateMany(
    inputs: readonly Float64Array[],
    count: number,
    outputs: readonly Float64Array[],
  ): void {
    this.batch ??= this.build(batchSource) as readonly BatchSegment[];
    const chunk = this.segments.length > 1 ? CHUNK : Math.max(count, 1);
    this.carriedColumns ??= Array.from(this.carriedValues, () => new Float64Array(CHUNK));
    for (const [from, to] of this.copies) outputs[to]!.set(inputs[from]!.subarray(0, count));
    for (let start = 0; start < count; start += chunk) {
      const size = Math.min(chunk, count - start);
      let bad = 0;
      for (const segment of this.batch) {
        bad += segment(inputs, this.carriedColumns, outputs, start, size);
      }
      if (bad !== 0) this.reportFirst(inputs, start, size, outputs);
    }
  }

  private reportFirst(
    inputs: readonly Float64Array[],
    start: number,
    size: number,
    outputs: readonly Float64Array[],
  ): void {
    for (let set = start; set < start + size; set++) {
      if (outputs.every((column) => Number.isFinite(column[set]))) continue;
      const one = Float64Array.from(inputs, (column) => column[set]!);
      reportNonFinite(this.program, this.names, this.inputs, one, set);
    }
  }

  private build(source: typeof scalarSource): readonly unknown[] {
    const text = source(this.segments, this.layout);
    let factory = factories.get(text);
    if (!factory) {
      factory = new Function("f", "P", text) as Factory;
      if (factories.size >= MOST_KEPT) factories.delete(factories.keys().next().value ?? "");
      factories.set(text, factory);
    }
    const steps = proceduresOf(this.segments.flatMap(({ steps }) => steps));
    return factory(
      AVAILABLE,
      steps.map(({ procedure }) => procedure),
    );
  }
}

function indexed(names: readonly string[]): ReadonlyMap<string, number> {
  return new Map(names.map((name, index) => [name, index]));
}
