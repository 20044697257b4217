/** What a fix costs and what it buys: which quantities, and what upkeep adds to them. */
import type { Goal } from "../../schema/reliability.ts";
import type { FixGroup } from "./options.ts";

/** A cost, and what the logic of upkeep adds to it. */
export interface CostQuantity {
  readonly name: string;
  readonly label: string;
  readonly unit: string;
  /** Of the spreading of writes, and of the scrub. */
  readonly spreading?: string;
  readonly scrub?: string;
}

export const COSTS: readonly CostQuantity[] = [
  {
    name: "macro_area",
    label: "area",
    unit: "m^2",
    spreading: "spreading_area",
    scrub: "scrub_area",
  },
  {
    name: "transistors",
    label: "transistors",
    unit: "1",
    spreading: "spreading_transistors",
    scrub: "scrub_transistors",
  },
  { name: "read_latency", label: "read time", unit: "s", spreading: "spreading_delay" },
  { name: "write_latency", label: "write time", unit: "s", spreading: "spreading_delay" },
  { name: "read_energy", label: "read energy", unit: "J", spreading: "spreading_energy" },
  {
    name: "write_energy",
    label: "energy",
    unit: "J",
    spreading: "spreading_write_energy",
  },
  { name: "standby_power", label: "power at rest", unit: "W", scrub: "scrub_power" },
];

/** What a goal asks for. */
export interface GoalQuantity {
  readonly key: keyof Goal;
  /** Which fixes change it. */
  readonly changedBy: readonly FixGroup[];
  readonly label: string;
  readonly unit: string;
  /** The first of these that a design has. */
  readonly names: readonly string[];
  /** In its place where writes are spread. */
  readonly spread?: string;
  readonly sense: "at most" | "at least";
}

/** Groups whose fixes add up in the errors of words. */
export const ERROR_GROUPS: readonly FixGroup[] = ["code", "verify", "scrub"];

export const GOALS: readonly GoalQuantity[] = [
  {
    key: "bit_errors",
    changedBy: ERROR_GROUPS,
    label: "bit errors",
    unit: "1",
    names: ["aged_bit_error_rate", "bit_error_rate"],
    sense: "at most",
  },
  {
    key: "word_failure",
    changedBy: ERROR_GROUPS,
    label: "word failure",
    unit: "1",
    names: ["aged_word_failure", "word_failure"],
    sense: "at most",
  },
  {
    key: "macro_failure",
    changedBy: ERROR_GROUPS,
    label: "macro lost",
    unit: "1",
    names: ["mission_failure", "macro_failure"],
    sense: "at most",
  },
  {
    key: "yield",
    changedBy: ["spares"],
    label: "yield",
    unit: "1",
    names: ["yield_repaired"],
    sense: "at least",
  },
  {
    key: "life",
    changedBy: ["spreading"],
    label: "life",
    unit: "s",
    names: ["hot_line_life"],
    spread: "spread_life",
    sense: "at least",
  },
];

/** Whether a figure meets a goal. */
export function meetsGoal({ sense }: GoalQuantity, value: number, wanted: number): boolean {
  return sense === "at most" ? value <= wanted : value >= wanted;
}
