import type { Provenance } from "../../studies/estimate-data.ts";
import type { Organised } from "../../studies/organise/study.ts";

/** `tenfold.organise/1`: the organisations that were found, in SI, and why the winner wins. */
export function organiseData(result: Organised, provenance: Provenance): object {
  const { plan, found, winner, runnerUp, differences, evaluations, bounds } = result;
  const { intervals, obstacles } = result;
  const { study, design, variables, aims, conditions, total } = plan;
  return {
    format: "tenfold.organise/1",
    study: { title: study.title, ...provenance, seed: study.seed },
    design,
    aims: aims.map(({ text, unit, sense }) => ({ text, unit, sense })),
    conditions: conditions.map(({ text }) => text),
    organisations: total,
    evaluations,
    bounds,
    variables: variables.map(({ name, unit }) => ({ name, unit })),
    found: found.map((one) => ({
      values: Object.fromEntries(variables.map(({ name }, k) => [name, one.values[k]])),
      aims: one.aims,
      quantities: Object.fromEntries(one.figures),
    })),
    winner,
    ...(intervals.length > 0 && { winner_intervals: intervals.map((one) => one ?? null) }),
    ...(found.length === 0 && { obstacles }),
    ...(runnerUp !== undefined && { runner_up: runnerUp }),
    differences,
  };
}
