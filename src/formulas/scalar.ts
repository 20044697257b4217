/** A graph computed for one set of numbers. */

import { TenfoldError } from "../errors/problem.ts";
import { APPLY, OPERATIONS } from "../numerics/vectors/operations.ts";
import type { Call, Graph } from "./graph.ts";
import { NUMBER, RESULT } from "./nodes.ts";

/** What a set does that cannot be computed: is refused, or marked by NaN where that reaches. */
export type Failing = "refused" | "marked";

const BY_CODE = OPERATIONS.map((name) => APPLY[name]);
const CODES = new Map(OPERATIONS.map((name, i) => [name, i]));
const ADD = CODES.get("add");
const SUBTRACT = CODES.get("subtract");
const MULTIPLY = CODES.get("multiply");
const DIVIDE = CODES.get("divide");

/**
 * Computes nodes.
 *
 * @param nodes operations and results, each after what it reads
 * @param values of all nodes; those of numbers and inputs are set
 */
export function computeNodes(
  graph: Graph,
  nodes: readonly number[],
  values: Float64Array,
  failing: Failing,
): void {
  const { kinds, first, second, third } = graph;
  for (const node of nodes) {
    const kind = kinds[node]!;
    if (kind === RESULT) {
      // The first result stands for the call.
      if (second[node] === 0) callOnce(graph.calls[first[node]!]!, values, failing);
      continue;
    }
    const a = values[first[node]!]!;
    const b = values[second[node]!]!;
    if (kind === MULTIPLY) values[node] = a * b;
    else if (kind === ADD) values[node] = a + b;
    else if (kind === DIVIDE) values[node] = a / b;
    else if (kind === SUBTRACT) values[node] = a - b;
    else values[node] = BY_CODE[kind]!(a, b, values[third[node]!]!);
  }
}

/** Values of all nodes, of which the numbers are set. */
export function initialValues({ kinds, numbers }: Graph): Float64Array {
  const values = new Float64Array(kinds.length);
  for (let node = 0; node < kinds.length; node++) {
    if (kinds[node] === NUMBER) values[node] = numbers[node]!;
  }
  return values;
}

function callOnce(call: Call, values: Float64Array, failing: Failing): void {
  const inputs = Float64Array.from(call.from, (node) => values[node]!);
  const outputs = new Float64Array(call.to.length);
  runCall(call, inputs, outputs, failing);
  for (const [k, node] of call.to.entries()) values[node] = outputs[k]!;
}

/** Runs a call; one that refuses gives NaN where failing sets are marked. */
export function runCall(
  call: Call,
  inputs: Float64Array,
  outputs: Float64Array,
  failing: Failing,
): void {
  if (failing === "refused" || !call.refuses) {
    call.run(inputs, outputs);
    return;
  }
  try {
    call.run(inputs, outputs);
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    outputs.fill(Number.NaN);
  }
}
