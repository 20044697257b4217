import { boundsOf, type ParameterDefault } from "../models/define.ts";
import { defaults as peripheryDefaults } from "../models/periphery/index.ts";
import { modelDefaults } from "../models/registry.ts";
import { reliabilityDefaults } from "../models/reliability/index.ts";
import type { Parameter } from "../quantities/parameter.ts";
import { estimateDefaults } from "./defaults.ts";

/** Every figure that no file has, by name: models, periphery, composition. */
export const DEFAULTS: ReadonlyMap<string, ParameterDefault> = new Map(
  [...modelDefaults, ...peripheryDefaults, ...reliabilityDefaults, ...estimateDefaults].map(
    (one) => [one.name, one],
  ),
);

/** A default as a parameter: figures above zero spread as the logarithm does. */
export function parameterOfDefault(one: ParameterDefault): Parameter {
  const { name, unit, value, low, high, source, basis, meaning } = one;
  const spread = high > low;
  const { least, most } = boundsOf(one);
  const kind = low > 0 ? "two-piece lognormal" : "two-piece normal";
  return {
    name,
    unit,
    value,
    low,
    high,
    distribution: spread ? kind : "exact",
    ...(spread && low === 0 && { least }),
    ...(spread && most !== undefined && { most }),
    source,
    basis,
    note: meaning,
    key: `default/${name}`,
  };
}

/** A choice of the design, such as a number of rows. */
export function chosen(name: string, value: number, unit = "1", source = "this study"): Parameter {
  return {
    name,
    unit,
    value,
    low: value,
    high: value,
    distribution: "exact",
    source,
    basis: "user",
    key: `choice/${name}/${value}`,
  };
}

/** Parameters by name; what is added later replaces what was there. */
export class ParameterSet {
  private readonly byName = new Map<string, Parameter>();

  constructor() {
    for (const one of DEFAULTS.values()) this.byName.set(one.name, parameterOfDefault(one));
  }

  add(...parameters: readonly (Parameter | undefined)[]): this {
    for (const one of parameters) if (one !== undefined) this.byName.set(one.name, one);
    return this;
  }

  get(name: string): Parameter | undefined {
    return this.byName.get(name);
  }

  all(): readonly Parameter[] {
    return [...this.byName.values()];
  }
}
