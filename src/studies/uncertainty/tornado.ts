import { quantileOf } from "../../quantities/distribution.ts";
import type { Parameter } from "../../quantities/parameter.ts";
import type { UncertainModel } from "./model.ts";

/** What one parameter does to a quantity while all others keep their nominal value. */
export interface Swing {
  readonly parameter: Parameter;
  /** The parameter at its 2.5 % and 97.5 % points. */
  readonly from: number;
  readonly to: number;
  /** The quantity there; NaN where the model has no answer. */
  readonly atLow: number;
  readonly atHigh: number;
}

export interface Tornado {
  readonly quantity: string;
  readonly nominal: number;
  /** The widest first; those that change nothing are left out. */
  readonly swings: readonly Swing[];
}

const LOW = 0.025;
const HIGH = 0.975;

/** One parameter at a time at its low and its high value, for every quantity of a model. */
export function tornadoes(model: UncertainModel): Tornado[] {
  const { parameters } = model;
  const count = 2 * parameters.length + 1;
  const inputs = parameters.map(({ value }) => new Float64Array(count).fill(value));
  for (const [k, parameter] of parameters.entries()) {
    inputs[k]![2 * k] = quantileOf(parameter, LOW);
    inputs[k]![2 * k + 1] = quantileOf(parameter, HIGH);
  }
  const outputs = model.quantities.map(() => new Float64Array(count));
  model.evaluate(inputs, count, outputs);
  return model.quantities.map((quantity, q) => {
    const values = outputs[q]!;
    const nominal = values[count - 1]!;
    const swings = parameters.map((parameter, k) => ({
      parameter,
      from: inputs[k]![2 * k]!,
      to: inputs[k]![2 * k + 1]!,
      atLow: values[2 * k]!,
      atHigh: values[2 * k + 1]!,
    }));
    const moving = swings.filter(({ atLow, atHigh }) => atLow !== nominal || atHigh !== nominal);
    return {
      quantity,
      nominal,
      swings: moving.sort((a, b) => width(b, nominal) - width(a, nominal)),
    };
  });
}

/** How far the quantity moves; without an answer at an end that is the most that can be said. */
function width({ atLow, atHigh }: Swing, nominal: number): number {
  if (!(Number.isFinite(atLow) && Number.isFinite(atHigh))) return Number.POSITIVE_INFINITY;
  return Math.max(atLow, atHigh, nominal) - Math.min(atLow, atHigh, nominal);
}
