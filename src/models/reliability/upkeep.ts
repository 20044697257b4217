/** What it costs to spread writes, and to read and correct all words at intervals. */
import type { ExtraFormula } from "../../formulas/program.ts";
import { formula, reliabilitySheet } from "./define.ts";

const GAP = "wear-rotation2009";

export const wearSpreading = reliabilitySheet(
  "wear_spreading",
  "Spreading of writes",
  "A free word wanders through the macro, one step in so many writes, so that the place of each " +
    "word rotates. Two counters say where it stands; an adder and a comparison turn an address " +
    "into a place. Half of the gates switch in an access.",
  {
    rotation_copies: formula(
      "1",
      "1 / rotation_interval",
      "words copied per word that is written",
      GAP,
    ),
    spreading_flip_flops: formula(
      "1",
      "2 * address_bits + ceil(log2(rotation_interval))",
      "flip-flops of the two places and of the count of writes",
      GAP,
    ),
    spreading_transistors: formula(
      "1",
      "spreading_flip_flops * flip_flop_transistors + 2 * address_bits * full_adder_transistors",
      "transistors of counters, adder and comparison",
      GAP,
    ),
    spreading_area: formula(
      "m^2",
      "spreading_flip_flops * flip_flop_area + 2 * address_bits * full_adder_transistors * " +
        "transistor_area",
      "area of them; the free word is one among many",
      "this project",
    ),
    spreading_energy: formula(
      "J",
      "spreading_transistors / 4 * unit_gate_energy",
      "energy of turning one address into a place",
      "this project",
      { note: "half of the gates, two transistors each" },
    ),
    spreading_delay: formula(
      "s",
      "8 * tau * (ceil(log2(address_bits)) + 2)",
      "delay of adder and comparison, carries looked ahead",
      "logical-effort",
    ),
    spreading_write_energy: formula(
      "J",
      "spreading_energy + rotation_copies * (read_energy + write_energy)",
      "energy that a write takes more, copies included",
      "this project",
    ),
  },
);

/** `scrub_period` is the stated interval or the longest that is allowed. */
export const scrubLogic = reliabilitySheet(
  "scrub_logic",
  "Reading and correcting all words at intervals",
  "A counter steps through the addresses, a timer starts it; reads and writes are those of every " +
    "access.",
  {
    scrub_transistors: formula(
      "1",
      "(address_bits + scrub_timer_bits) * (flip_flop_transistors + half_adder_transistors)",
      "transistors of counter and timer",
      "this project",
    ),
    scrub_area: formula(
      "m^2",
      "(address_bits + scrub_timer_bits) * (flip_flop_area + half_adder_transistors * " +
        "transistor_area)",
      "area of them",
      "this project",
    ),
    scrub_power: formula(
      "W",
      "words * (read_energy + write_energy) / scrub_period",
      "power of reading and rewriting every word once per interval",
      "this project",
    ),
  },
);

/** Of an interval that the study states: the longest allowed one is often longer than anything. */
export const SCRUB_TIME: ExtraFormula = {
  name: "scrub_time_share",
  unit: "1",
  formula: "words * (read_latency + write_latency) / scrub_interval",
  meaning: "share of the time for which the macro is busy with the scrub",
  source: "this project",
};
