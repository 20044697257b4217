import { defaultsOf } from "../models/common/define.ts";

/** Parameters of the composition itself. */
export const estimateDefaults = defaultsOf([
  ["temperature", "K", 300, 300, 300, "common practice", "default", "temperature of the macro"],
  [
    "periphery_beneath",
    "1",
    0,
    0,
    0,
    "this project",
    "default",
    "share of a tile's periphery beneath its array",
  ],
  [
    "largest_corner_share",
    "1",
    0.15,
    0.05,
    0.3,
    "common practice",
    "memory",
    "largest empty corner of a tile over its periphery beside the array",
  ],
  [
    "write_current_budget",
    "A",
    4e-3,
    2e-3,
    10e-3,
    "common practice",
    "memory",
    "current that a macro may draw for a write",
  ],
  [
    "power_switch_leak_share",
    "1",
    0.02,
    0.005,
    0.05,
    "common practice",
    "memory",
    "leakage that an open power switch lets through",
  ],
]);
