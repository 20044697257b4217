/** The section `uncertainty:` of a study. */

import type { Parameter } from "../quantities/parameter.ts";
import { choice, group, list, name, quantity, share, text, whole } from "./define.ts";
import type { Field } from "./field.ts";

/** Two parameters whose values go together. */
export interface CorrelationStatement {
  readonly between: readonly string[];
  readonly rank: Parameter;
}

/** What shall hold, with which confidence, and which parameters may be changed for it. */
export interface TargetStatement {
  readonly design?: string;
  readonly want: string;
  readonly confidence?: Parameter;
  readonly change?: readonly string[];
}

export interface UncertaintySection {
  readonly quantities?: readonly string[];
  readonly sampling?: "low-discrepancy" | "pseudo-random";
  readonly interval?: "symmetric" | "shortest";
  readonly scale?: "logarithmic" | "linear";
  readonly digits?: number;
  readonly most_draws?: number;
  readonly shown?: number;
  readonly correlations?: readonly CorrelationStatement[];
  readonly targets?: readonly TargetStatement[];
}

const correlation = group<CorrelationStatement>("two parameters whose values go together", {
  between: list("names of the two parameters", name("a parameter"), {
    required: true,
    example: "[on_resistance, off_resistance]",
  }),
  rank: quantity("1", "rank correlation coefficient (Spearman's)", {
    minimum: -0.999,
    maximum: 0.999,
    required: true,
    example: "0.6",
  }),
});

const target = group<TargetStatement>("what shall hold, and what may change for it", {
  design: name("the design; the first that is not the baseline unless said", {
    example: "one-transistor",
  }),
  want: text("a comparison of quantities; `baseline_` before a name means the baseline's", {
    required: true,
    example: "read_latency <= 10 ns",
  }),
  confidence: share("share of the draws in which it must hold", {
    example: "90 %",
    default: { value: "95 %", source: "common practice" },
  }),
  change: list("parameters that are tried, one at a time", name("a parameter"), {
    example: "[sense_offset]",
  }),
});

export const uncertaintyField: Field<UncertaintySection> = group<UncertaintySection>(
  "how the ranges of the parameters are carried through to the results",
  {
    quantities: list("the quantities; those of a comparison unless said", name("a quantity"), {
      example: "[macro_area, read_latency]",
    }),
    sampling: choice("how points in the space of the parameters are chosen", {
      "low-discrepancy": "a scrambled Sobol' sequence",
      "pseudo-random": "seeded random numbers",
    }),
    interval: choice("which coverage interval", {
      symmetric: "as much probability below as above",
      shortest: "the shortest of all",
    }),
    scale: choice("on which scale of a quantity its results must be stable, and have indices", {
      logarithmic: "of its logarithm where all draws are positive: for tails that are heavy",
      linear: "of the quantity itself, as the guide has it",
    }),
    digits: whole("digits of the standard uncertainty that must be stable", {
      maximum: 4,
      example: "2",
      default: { value: "2", source: "jcgm101" },
    }),
    most_draws: whole("draws at most", {
      minimum: 1000,
      maximum: 2 ** 24,
      example: "4000000",
      default: { value: "131072", source: "this project" },
    }),
    shown: whole("parameters of which the influence is told one by one", {
      maximum: 1000,
      example: "12",
      default: { value: "12", source: "this project" },
    }),
    correlations: list("parameters that are not independent", correlation),
    targets: list("what must improve, and how far, for a target to hold", target),
  },
);
