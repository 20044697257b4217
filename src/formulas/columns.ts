/**
 * Programs over columns of values. What is the same for all sets is computed once; the rest goes
 * through the vector machine, a chunk of sets at a time, operation by operation, so that the columns
 * stay in the processor's cache and no code has to be made for a program.
 */

import { type Kind, LANES, type Machine, machineWith } from "../numerics/vectors/machine.ts";
import type { Graph } from "./graph.ts";
import { CELLS_AT, CHUNK, type Plan, planOf, type Stage } from "./plan.ts";
import { computeNodes, type Failing, initialValues, runCall } from "./scalar.ts";

/** Plans that are kept: one for each choice of inputs that were found to vary. */
const MOST_PLANS = 8;

/** The plan whose code lies in the memory of a machine. */
const loaded = new WeakMap<Machine, Plan>();

/** A graph over columns. */
export class Columns {
  private readonly graph: Graph;
  private readonly inputs: readonly number[];
  private readonly wanted: readonly number[];
  private readonly kind: Kind;
  private readonly plans = new Map<string, Plan>();

  /**
   * @param graph the program
   * @param inputs nodes of the inputs, in their order
   * @param wanted nodes that are asked for
   * @param kind which machine computes it
   */
  constructor(
    graph: Graph,
    inputs: readonly number[],
    wanted: readonly number[],
    kind: Kind = "fastest",
  ) {
    this.graph = graph;
    this.inputs = inputs;
    this.wanted = wanted;
    this.kind = kind;
  }

  /**
   * Computes the wanted nodes for many sets of inputs.
   *
   * @param inputs one column per input
   * @param outputs one column per wanted node, at least `count` long
   * @param after is told which sets are done, from one to before another
   */
  run(
    inputs: readonly Float64Array[],
    count: number,
    outputs: readonly Float64Array[],
    failing: Failing,
    after: (from: number, to: number) => void,
  ): void {
    if (count === 0) return;
    const varying = inputs.map((column) => differs(column, count));
    const plan = this.planFor(varying);
    const values = this.onceFor(plan, inputs, failing);
    const machine = machineWith(plan.size, this.kind);
    const { doubles } = machine;
    if (loaded.get(machine) !== plan) {
      machine.words.set(plan.code, plan.codeAt >> 2);
      loaded.set(machine, plan);
    }
    for (let k = 0; k < plan.cells.length; k++) {
      const value = values[plan.cells[k]!]!;
      doubles[CELLS_AT + 2 * k] = value;
      doubles[CELLS_AT + 2 * k + 1] = value;
    }
    const { places } = plan;
    for (const [k, node] of this.wanted.entries()) {
      if (places[node] === 0) outputs[k]!.fill(values[node]!, 0, count);
    }
    for (let from = 0; from < count; from += CHUNK) {
      const to = Math.min(count, from + CHUNK);
      for (const [k, node] of this.inputs.entries()) {
        if (varying[k]) doubles.set(inputs[k]!.subarray(from, to), places[node]!);
      }
      runStages(plan, machine, to - from, failing);
      for (const [k, node] of this.wanted.entries()) {
        const at = places[node]!;
        if (at > 0) outputs[k]!.set(doubles.subarray(at, at + to - from), from);
      }
      after(from, to);
    }
  }

  private planFor(varying: readonly boolean[]): Plan {
    const key = varying.map(Number).join("");
    const known = this.plans.get(key);
    if (known) return known;
    const moving = this.inputs.filter((_, k) => varying[k]);
    const made = planOf(this.graph, moving, this.wanted);
    if (this.plans.size >= MOST_PLANS) this.plans.delete(this.plans.keys().next().value!);
    this.plans.set(key, made);
    return made;
  }

  /** Values of all nodes that are the same for all sets. */
  private onceFor(plan: Plan, inputs: readonly Float64Array[], failing: Failing): Float64Array {
    const values = initialValues(this.graph);
    for (const [k, node] of this.inputs.entries()) values[node] = inputs[k]![0]!;
    computeNodes(this.graph, plan.once, values, failing);
    return values;
  }
}

/** Whether the first numbers of a column are not all the same bits, but for those of NaN. */
function differs(column: Float64Array, count: number): boolean {
  const first = column[0]!;
  for (let k = 1; k < count; k++) {
    if (column[k] !== first) return true;
  }
  // Of both zeros, and of NaN, which is not itself, there is nothing to gain.
  return first === 0 && count > 1 && column.subarray(0, count).some((x) => !Object.is(x, first));
}

function runStages(plan: Plan, machine: Machine, count: number, failing: Failing): void {
  const bytes = 8 * LANES * Math.ceil(count / LANES);
  for (const stage of plan.stages) {
    if (stage.kind === "code") machine.run(stage.from, stage.to, bytes);
    else callEach(stage, machine.doubles, count, failing);
  }
}

/** A call for each set in turn. */
function callEach(
  { call, from, steps, to }: Stage & { kind: "call" },
  doubles: Float64Array,
  count: number,
  failing: Failing,
): void {
  const inputs = new Float64Array(from.length);
  const outputs = new Float64Array(to.length);
  for (let k = 0; k < count; k++) {
    for (let i = 0; i < inputs.length; i++) inputs[i] = doubles[from[i]! + steps[i]! * k]!;
    runCall(call, inputs, outputs, failing);
    for (let i = 0; i < outputs.length; i++) doubles[to[i]! + k] = outputs[i]!;
  }
}
