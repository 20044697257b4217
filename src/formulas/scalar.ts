/** A graph computed for one set of numbers. */

import { TenfoldError } from "../errors/problem.ts";
import { APPLY, OPERATIONS, type Operation } from "../numerics/vectors/operations.ts";
import { type Call, type Graph, RESULT } from "./graph.ts";

/** What a set does that cannot be computed: is refused, or marked by NaN where that reaches. */
export type Failing = "refused" | "marked";

const [ADD, SUBTRACT, MULTIPLY, DIVIDE, MIN, MAX] = (
  ["add", "subtract", "multiply", "divide", "min", "max"] satisfies Operation[]
).map((name) => OPERATIONS.indexOf(name as Operation));
const BY_CODE = OPERATIONS.map((name) => APPLY[name]);

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
  const { kinds } = graph;
  const [first, second, third] = graph.operands;
  for (const node of nodes) {
    const kind = kinds[node]!;
    const a = values[first[node]!]!;
    const b = values[second[node]!]!;
    switch (kind) {
      case ADD:
        values[node] = a + b;
        break;
      case SUBTRACT:
        values[node] = a - b;
        break;
      case MULTIPLY:
        values[node] = a * b;
        break;
      case DIVIDE:
        values[node] = a / b;
        break;
      case MIN:
        values[node] = Math.min(a, b);
        break;
      case MAX:
        values[node] = Math.max(a, b);
        break;
      case RESULT:
        // The first result stands for the call.
        if (second[node] === 0) callOnce(graph.calls[first[node]!]!, values, failing);
        break;
      default:
        values[node] = BY_CODE[kind]!(a, b, values[third[node]!]!);
    }
  }
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
