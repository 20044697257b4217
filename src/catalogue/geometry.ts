/** Switches that are given by their geometry. */

import type { Problem } from "../errors/problem.ts";
import { geometryFigures, geometryRetention } from "../models/switch/geometry-figures.ts";
import { geometrySpread } from "../models/switch/geometry-spread.ts";
import type { Parameter } from "../quantities/parameter.ts";
import type { Parameters } from "./entry.ts";
import {
  GEOMETRY_GIVES,
  GEOMETRY_NEEDS,
  GEOMETRY_SPREADS,
  SPREAD_GIVES,
} from "./fields/geometry.ts";
import { SWITCH_FIELDS } from "./fields/switch.ts";

/** The field that tells a switch from geometry: no measured switch has it. */
const MARK = "most_gap";

export function isGeometry(values: Parameters): boolean {
  return values[MARK] !== undefined;
}

/** Whether it says how its geometry spreads. */
function isSpread(values: Parameters): boolean {
  return isGeometry(values) && GEOMETRY_SPREADS.some((name) => values[name] !== undefined);
}

/** What computes the measured figures of such a switch. */
export function geometryModels(values: Parameters) {
  if (!isGeometry(values)) return { sheets: [], procedures: [] };
  const spread = isSpread(values) ? [geometrySpread] : [];
  return { sheets: [geometryRetention], procedures: [geometryFigures, ...spread] };
}

/** The measured figures that they compute. */
export function geometryGives(values: Parameters): readonly string[] {
  if (!isGeometry(values)) return [];
  return isSpread(values) ? [...GEOMETRY_GIVES, ...SPREAD_GIVES] : GEOMETRY_GIVES;
}

/** A spread that nobody gives beside others is none: the others are all that there is. */
export function completeSpreads(values: Record<string, Parameter>, path: string): void {
  if (!isSpread(values)) return;
  for (const name of GEOMETRY_SPREADS) {
    if (values[name] !== undefined) continue;
    const { unit } = SWITCH_FIELDS[name]!;
    values[name] = {
      name,
      unit,
      value: 0,
      low: 0,
      high: 0,
      distribution: "exact",
      source: "this project",
      basis: "default",
      note: "no spread beside those that are given",
      key: `switch/${path}/${name}`,
    };
  }
}

/** Spreads of a geometry without one, or beside what they would compute. */
export function spreadProblems(path: string, values: Parameters): Problem[] {
  const stated = GEOMETRY_SPREADS.filter((name) => values[name] !== undefined);
  if (stated.length === 0 || isGeometry(values)) return [];
  return [
    {
      code: "missing-key",
      what: `\`${stated[0]}\` is the spread of a geometry that the switch does not give`,
      path,
      expected: "`most_gap` and the rest of a geometry beside it",
      fix: "state `device_spread` and `cycle_spread` for a switch that was measured",
    },
  ];
}

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
