/**
 * The kernels that a machine has. A simple operation has one for each choice of operands with a
 * number for each set; the others take steps of any length.
 */

import { OPERATIONS, type Operation, operandsOf } from "./operations.ts";

/** Simple operations on two operands; one on a single operand has no choice: that one steps. */
const SIMPLE: ReadonlySet<Operation> = new Set([
  ...(["add", "subtract", "multiply", "divide", "min", "max"] as const),
  ...(["less", "atMost", "equal"] as const),
]);

/** The kernels of a simple operation: their names, and which operands step; one does. */
export function variantsOf(operation: Operation): [string, boolean[]][] {
  const operands = operandsOf(operation);
  const choices = Array.from({ length: (1 << operands) - 1 }, (_, fixed) =>
    Array.from({ length: operands }, (_, k) => ((fixed >> k) & 1) === 0),
  );
  return choices.map((steps) => [kernelOf(operation, steps), steps]);
}

/** The name of the kernel for an operation on operands that step or do not. */
export function kernelOf(operation: Operation, steps: readonly boolean[]): string {
  if (!SIMPLE.has(operation) || steps.every(Boolean)) return operation;
  return `${operation} ${steps.map((one) => (one ? "v" : "1")).join("")}`;
}

/** All kernels, in the order of their codes, with their operations. */
export const KERNELS: readonly { readonly name: string; readonly operation: Operation }[] =
  OPERATIONS.flatMap((operation) =>
    SIMPLE.has(operation)
      ? variantsOf(operation).map(([name]) => ({ name, operation }))
      : [{ name: operation, operation }],
  );

/** For each operation the code of its kernel by which operands are fixed, as bits. */
const CODES: readonly (readonly number[])[] = OPERATIONS.map((operation) =>
  Array.from({ length: 8 }, (_, fixed) => {
    const steps = Array.from({ length: operandsOf(operation) }, (_, k) => ((fixed >> k) & 1) === 0);
    return KERNELS.findIndex(({ name }) => name === kernelOf(operation, steps));
  }),
);

/**
 * The code of a kernel.
 *
 * @param operation its place among `OPERATIONS`
 * @param fixed bit k is set where operand k is one number for all sets
 */
export function codeOf(operation: number, fixed: number): number {
  return CODES[operation]![fixed]!;
}
