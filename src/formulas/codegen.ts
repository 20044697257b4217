/** Source text of the compiled functions. */

import { expression, variable } from "./generate.ts";
import type { ProcedureStep, Step } from "./program.ts";
import type { Segment } from "./segments.ts";
import { FUNCTIONS } from "./tree.ts";

/** Where the compiled code finds a name. */
export interface Layout {
  /** Position among the inputs, the carried values and the outputs; undefined where it is none. */
  readonly input: ReadonlyMap<string, number>;
  readonly carried: ReadonlyMap<string, number>;
  readonly output: ReadonlyMap<string, number>;
}

/** The procedures of a program, in the order in which generated code numbers them. */
export function proceduresOf(steps: readonly Step[]): ProcedureStep[] {
  return steps.filter((step): step is ProcedureStep => step.kind === "procedure");
}

/**
 * A factory `(f, P) => [segment, ...]` of functions `(I, S, O) => void` for one set of inputs: `I`,
 * `S`, `O` are the inputs, the carried values and the outputs.
 */
export function scalarSource(segments: readonly Segment[], layout: Layout): string {
  const place = (letter: string, index: number): string => `${letter}[${index}]`;
  const bodies = segments.map((segment, number) => {
    const first = firstProcedure(segments, number);
    return `(I,S,O)=>{\n${linesOf(segment, layout, place, first).join("\n")}\n}`;
  });
  return factory(segments, bodies);
}

function factory(segments: readonly Segment[], bodies: readonly string[]): string {
  const procedures = proceduresOf(segments.flatMap(({ steps }) => steps));
  const buffers = procedures.map(
    ({ inputs, outputs }, i) =>
      `const P${i}=P[${i}],P${i}i=new Float64Array(${inputs.length}),` +
      `P${i}o=new Float64Array(${outputs.length});`,
  );
  return [
    '"use strict";',
    `const {${[...FUNCTIONS, "pow"].join(",")}}=f;`,
    ...buffers,
    `return [${bodies.join(",\n")}];`,
  ].join("\n");
}

function firstProcedure(segments: readonly Segment[], before: number): number {
  return proceduresOf(segments.slice(0, before).flatMap(({ steps }) => steps)).length;
}

function linesOf(
  segment: Segment,
  layout: Layout,
  place: (letter: string, index: number) => string,
  firstProcedureNumber: number,
): string[] {
  const lines: string[] = [];
  let hoisted = 0;
  let procedures = firstProcedureNumber;
  const hoist = (code: string): string => {
    const name = `h${hoisted++}`;
    lines.push(`const ${name}=${code};`);
    return name;
  };
  for (const name of segment.reads) {
    const input = layout.input.get(name);
    const from = input === undefined ? place("S", layout.carried.get(name)!) : place("I", input);
    lines.push(`const ${variable(name)}=${from};`);
  }
  for (const step of segment.steps) {
    if (step.kind === "procedure") lines.push(callOf(step, procedures++));
    else {
      const code = expression(step.tree, hoist);
      lines.push(`const ${variable(step.name)}=${code};`);
    }
  }
  for (const name of segment.writes) {
    const carried = layout.carried.get(name);
    const output = layout.output.get(name);
    if (carried !== undefined) lines.push(`${place("S", carried)}=${variable(name)};`);
    if (output !== undefined) lines.push(`${place("O", output)}=${variable(name)};`);
  }
  return lines;
}

function callOf({ inputs, outputs }: ProcedureStep, number: number): string {
  const p = `P${number}`;
  const fill = inputs.map((name, i) => `${p}i[${i}]=${variable(name)};`).join("");
  const take = outputs.map((name, i) => `const ${variable(name)}=${p}o[${i}];`).join("");
  return `${fill}${p}.run(${p}i,${p}o);${take}`;
}
