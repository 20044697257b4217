/** Uses of a resolved entry's own sheets in a design. */

import type { Instance } from "../formulas/sheet.ts";
import type { Parameter } from "../quantities/parameter.ts";
import type { Resolved } from "./resolve.ts";

/**
 * The parameters of a resolved entry under their global names: `prefix` stands before each field.
 */
export function prefixedParameters(resolved: Resolved, prefix = ""): readonly Parameter[] {
  return Object.entries(resolved.parameters).map(([field, parameter]) => ({
    ...parameter,
    name: `${prefix}${field}`,
  }));
}

/** The sheets that compute the other fields, bound to those names. */
export function prefixedInstances(resolved: Resolved, prefix = ""): readonly Instance[] {
  return [...resolved.sheets, ...resolved.procedures].map((model) => ({
    of: model,
    prefix,
    bind: Object.fromEntries(Object.keys(model.inputs).map((name) => [name, `${prefix}${name}`])),
  }));
}
