import type { ExtraFormula } from "../formulas/program.ts";

/** How cells keep their data while the periphery sleeps: by a state of matter, by charge, in a latch. */
export type Keeping = "unpowered" | "charged" | "latched";

/** Quantities of a whole macro that follow from its totals. */
export function summaryFormulas(keeping: Keeping): readonly ExtraFormula[] {
  const keepsDataUnpowered = keeping === "unpowered";
  const asleep =
    keeping === "latched" ? "all_cells_leakage * retention_leak_ratio" : "all_cells_leakage";
  const make = (
    name: string,
    unit: string,
    formula: string,
    meaning: string,
    note?: string,
  ): ExtraFormula => ({
    name,
    unit,
    formula,
    meaning,
    source: "this project",
    ...(note === undefined ? {} : { note }),
  });
  return [
    make(
      "array_efficiency",
      "1",
      "all_cells_area / macro_area",
      "area of the cells over the area of the macro",
    ),
    make(
      "sense_margin_left",
      "1",
      "sense_amplifier_margin - 1",
      "signal over the offset to beat, beyond what is needed",
    ),
    make("switches", "1", "cells * cell_switches", "switches of the macro"),
    make(
      "read_energy_per_bit",
      "J",
      "read_energy / word",
      "energy of one read over the bits of the word",
    ),
    make(
      "write_energy_per_bit",
      "J",
      "write_energy / word",
      "energy of one write over the bits of the word",
    ),
    make(
      "read_bandwidth",
      "1/s",
      "word / read_cycle",
      "bits read in a second from one bank",
      "one bank; banks can overlap",
    ),
    make(
      "sleep_power",
      "W",
      keepsDataUnpowered
        ? "power_switch_leak_share * standby_power"
        : `${asleep} + all_refresh_power + power_switch_leak_share * (standby_power - ` +
            "all_cells_leakage - all_refresh_power)",
      "power that keeps the data while the periphery is switched off",
      keepsDataUnpowered
        ? "what the power switch lets through; the cells need none"
        : keeping === "latched"
          ? "the cells stay at a lower supply"
          : undefined,
    ),
  ];
}
