import type { Catalogue } from "../../catalogue/index.ts";
import { parseFormula } from "../../formulas/parse.ts";
import type { Study } from "../../schema/study.ts";
import {
  type EstimatedDesign,
  estimateOf,
  estimateStudy,
  nominalStudy,
  type StudyEstimate,
} from "../../studies/estimate.ts";

/** At the nominal parameters alone, or with intervals. */
export type Depth = "nominal" | "full";

const MOST_KEPT = 64;

/**
 * Estimates studies of which the next one is much like the last: a design that did not change is not estimated again.
 * Draws depend on seed and parameter alone, so a design's figures are the same in whatever company.
 */
export class Designs {
  private readonly kept = new Map<string, EstimatedDesign>();

  /** @throws TenfoldError with the problems of all designs that changed */
  estimate(study: Study, catalogue: Catalogue, depth: Depth): StudyEstimate {
    const names = Object.keys(study.designs);
    const keys = new Map(names.map((name) => [name, keyOf(study, name, depth)]));
    const changed = names.filter((name) => !this.kept.has(keys.get(name)!));
    if (changed.length > 0) {
      const designs = Object.fromEntries(changed.map((name) => [name, study.designs[name]!]));
      const run = depth === "full" ? estimateStudy : nominalStudy;
      const made = run({ ...study, designs }, catalogue, parseFormula);
      for (const one of made.designs) this.keep(keys.get(one.name)!, one);
    }
    const estimated = names.map((name) => this.kept.get(keys.get(name)!)!);
    return estimateOf(study, estimated, catalogue.modelErrors());
  }

  private keep(key: string, design: EstimatedDesign): void {
    if (this.kept.size >= MOST_KEPT) this.kept.delete(this.kept.keys().next().value!);
    this.kept.set(key, design);
  }
}

/** All that a design's figures depend on. */
function keyOf(study: Study, name: string, depth: Depth): string {
  const { designs, catalogue, seed, samples, coverage } = study;
  return JSON.stringify([depth, name, designs[name], catalogue, seed, samples, coverage]);
}
