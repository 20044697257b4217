/** Switches that are given by their geometry. */

import type { Problem } from "../errors/problem.ts";
import { geometryFigures, geometryRetention } from "../models/switch/geometry-figures.ts";
import type { Parameters } from "./entry.ts";
import { GEOMETRY_NEEDS } from "./fields/geometry.ts";
import { SWITCH_FIELDS } from "./fields/switch.ts";

/** The field that tells a switch from geometry: no measured switch has it. */
const MARK = "most_gap";

export function isGeometry(values: Parameters): boolean {
  return values[MARK] !== undefined;
}

/** What computes the measured figures of such a switch. */
export const geometryModels = { sheets: [geometryRetention], procedures: [geometryFigures] };

/** What a geometry lacks. */
export function geometryMissing(
  path: string,
  values: Parameters,
  defaulted: readonly string[],
): Problem[] {
  return GEOMETRY_NEEDS.filter(
    (name) => values[name] === undefined || defaulted.includes(name),
  ).map((name) => ({
    code: "missing-key",
    what: `the geometry of the switch has no \`${name}\``,
    path,
    expected: `\`${name}\`: ${SWITCH_FIELDS[name]!.meaning}, in ${SWITCH_FIELDS[name]!.unit}`,
    fix: "a switch with `most_gap` is given by its geometry, all of it",
  }));
}
