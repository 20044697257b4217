import type { LevelPlan } from "../models/reliability/index.ts";
import type { AgingPart, ReliabilityParts } from "./reliability-parts.ts";

const NOTHING: ReliabilityParts = {
  mission: false,
  faults: false,
  defects: false,
};

const aging = (times: number, more: Partial<AgingPart> = {}): AgingPart => ({
  times,
  losses: "lost-flipped",
  tracking: false,
  scrubbed: false,
  mission: true,
  ...more,
});

const plan = (levels: number, drifts: boolean, series: boolean): LevelPlan => ({
  levels,
  stated: { resistance: false, spread: false, drift: false },
  drifts,
  noise: true,
  series,
});

/** What reliability may add, with each of its models at least once. */
export const RELIABILITIES: readonly ReliabilityParts[] = [
  {
    reads: { kind: "two-level" },
    aging: aging(4),
    retention: 0,
    mission: true,
    wear: "as-stated",
    rate: "stated",
    disturb: "none",
    faults: true,
    defects: false,
  },
  {
    ...NOTHING,
    aging: aging(4, { losses: "flipped" }),
    retention: 3,
    wear: "first-cell",
    faults: true,
    defects: true,
    scrub: "allowed",
  },
  {
    ...NOTHING,
    reads: { kind: "levels", plan: plan(2, true, false) },
    verified: true,
    retention: 0,
    aging: aging(3, { losses: "lost", scrubbed: true }),
    rate: "decades",
    disturb: "none",
    scrub: "stated",
  },
  {
    ...NOTHING,
    reads: { kind: "levels", plan: plan(4, true, true) },
    aging: aging(2, { losses: "kept", tracking: true }),
  },
  {
    ...NOTHING,
    reads: { kind: "pair", drifts: true },
    aging: aging(1, { losses: "kept" }),
    rate: "stated",
  },
];
