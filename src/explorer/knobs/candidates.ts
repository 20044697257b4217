import { REPORTED } from "../../estimate/quantities.ts";
import { log } from "../../numerics/special/elementary.ts";
import type { Parameter } from "../../quantities/parameter.ts";
import { STUDY_KEYS } from "../../schema/locate.ts";
import type { StudyEstimate } from "../../studies/estimate.ts";
import { MacroUncertainty } from "../../studies/uncertainty/model.ts";
import { tornadoes } from "../../studies/uncertainty/tornado.ts";

/** Figures that a proposal stands and falls with. */
const HEADLINE = [
  "macro_area",
  "read_latency",
  "write_latency",
  "read_energy_per_bit",
  "write_energy_per_bit",
  "standby_power",
];

/** A parameter with what it has to say. */
export interface Candidate {
  readonly parameter: Parameter;
  /** Its 2.5 % and 97.5 % points. */
  readonly from: number;
  readonly to: number;
  /** The designs that read it, by name. */
  readonly designs: readonly string[];
  /** The share of the squared swings of the headline figures that is its own, summed over all of them. */
  readonly weight: number;
}

/**
 * The parameters that move the headline figures of the designs, the one that carries most first: one at a time from its
 * low to its high value, the swing on the scale of the figure's logarithm.
 */
export function candidatesOf({ designs }: StudyEstimate): readonly Candidate[] {
  const found = new Map<string, Candidate>();
  const names = HEADLINE.filter((name) => REPORTED.some((known) => known.name === name));
  for (const { name, model, broken } of designs) {
    if (broken.length > 0) continue;
    const asked = names.map((quantity) => ({ model, quantity, name: quantity }));
    for (const { swings } of tornadoes(new MacroUncertainty(asked))) {
      const widths = swings.map(({ atLow, atHigh }) => squared(log(atHigh / atLow)));
      const all = widths.reduce((sum, width) => sum + width, 0);
      for (const [i, { parameter, from, to }] of swings.entries()) {
        if (!(widths[i]! > 0)) continue;
        const id = `${parameter.key} ${parameter.name}`;
        const before = found.get(id) ?? { parameter, from, to, designs: [], weight: 0 };
        found.set(id, {
          ...before,
          designs: before.designs.includes(name) ? before.designs : [...before.designs, name],
          weight: before.weight + widths[i]! / all,
        });
      }
    }
  }
  return [...found.values()].sort((a, b) => b.weight - a.weight);
}

function squared(x: number): number {
  return Number.isFinite(x) ? x * x : 0;
}

/** Whether the study itself states the parameter. */
export function isStated({ key }: Parameter): boolean {
  return key.startsWith(STUDY_KEYS);
}
