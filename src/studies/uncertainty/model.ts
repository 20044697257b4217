import { conditionsOf } from "../../estimate/conditions.ts";
import { isExact } from "../../estimate/draws.ts";
import type { MacroModel } from "../../estimate/model.ts";
import { compile } from "../../formulas/compile.ts";
import type { Parameter } from "../../quantities/parameter.ts";

/** Quantities as a function of parameters that are not known exactly. */
export interface UncertainModel {
  /** Those with a spread, each key once. */
  readonly parameters: readonly Parameter[];
  readonly quantities: readonly string[];
  /**
   * Computes many sets of parameters.
   *
   * @param inputs one column in SI per parameter
   * @param outputs receives one column in SI per quantity; NaN in all of them where the model has
   *   no answer, such as a design that does not work
   */
  evaluate(inputs: readonly Float64Array[], count: number, outputs: readonly Float64Array[]): void;
}

/** What of a design is asked for: the name that an expression reads, and the design's own name. */
export interface Asked {
  readonly model: MacroModel;
  readonly quantity: string;
  /** As it is called in the results, such as `baseline_macro_area`. */
  readonly name: string;
}

/** Parameters with the same key and figures are one. */
function identity({ key, distribution, value, low, high }: Parameter): string {
  return [key, distribution, value, low, high].join("|");
}

/** Quantities of one or more designs that share the draws of what they share. */
export class MacroUncertainty implements UncertainModel {
  readonly parameters: readonly Parameter[];
  readonly quantities: readonly string[];
  private readonly parts: readonly Part[];

  /** @param also names of exact parameters that are to be varied too */
  constructor(asked: readonly Asked[], also: readonly string[] = []) {
    const models = [...new Set(asked.map(({ model }) => model))];
    const indices = new Map<string, number>();
    const parameters: Parameter[] = [];
    const place = (parameter: Parameter): number => {
      const id = identity(parameter);
      const known = indices.get(id);
      if (known !== undefined) return known;
      indices.set(id, parameters.length);
      parameters.push(parameter);
      return parameters.length - 1;
    };
    this.quantities = asked.map(({ name }) => name);
    this.parts = models.map((model) => partOf(model, asked, also, place));
    this.parameters = parameters;
  }

  evaluate(inputs: readonly Float64Array[], count: number, outputs: readonly Float64Array[]): void {
    const works = new Uint8Array(count).fill(1);
    for (const part of this.parts) runPart(part, inputs, count, outputs, works);
    for (let i = 0; i < count; i++) {
      if (works[i] === 1) continue;
      for (const column of outputs) column[i] = Number.NaN;
    }
  }
}

interface Part {
  readonly compiled: ReturnType<typeof compile>;
  /** Per input of the program: which parameter, or the exact value. */
  readonly sources: readonly { readonly index?: number; readonly value: number }[];
  /** Per output of the program: where it goes; undefined for one that only has to be above zero. */
  readonly targets: readonly (readonly number[])[];
  readonly guards: readonly number[];
}

function partOf(
  model: MacroModel,
  asked: readonly Asked[],
  also: readonly string[],
  place: (parameter: Parameter) => number,
): Part {
  const own = asked.flatMap((one, i) => (one.model === model ? [{ ...one, i }] : []));
  const guards = conditionsOf(model.program).map(({ quantity }) => quantity);
  const names = [...new Set([...own.map(({ quantity }) => quantity), ...guards])];
  const compiled = compile(model.program, names);
  return {
    compiled,
    sources: compiled.inputs.map((name) => {
      const parameter = model.design.parameters.get(name)!;
      const varies = !isExact(parameter) || also.includes(name);
      return varies
        ? { index: place(parameter), value: parameter.value }
        : { value: parameter.value };
    }),
    targets: compiled.names.map((name) =>
      own.filter(({ quantity }) => quantity === name).map(({ i }) => i),
    ),
    guards: guards.map((name) => compiled.names.indexOf(name)),
  };
}

function runPart(
  { compiled, sources, targets, guards }: Part,
  inputs: readonly Float64Array[],
  count: number,
  outputs: readonly Float64Array[],
  works: Uint8Array,
): void {
  const columns = sources.map(({ index, value }) =>
    index === undefined ? new Float64Array(count).fill(value) : inputs[index]!,
  );
  const results = targets.map(() => new Float64Array(count));
  compiled.evaluateMany(columns, count, results, "marked");
  for (const [k, result] of results.entries()) {
    for (const to of targets[k]!) outputs[to]!.set(result);
  }
  for (let i = 0; i < count; i++) {
    const finite = results.every((column) => Number.isFinite(column[i]));
    if (!finite || guards.some((k) => !(results[k]![i]! > 0))) works[i] = 0;
  }
}
