import type { FormulaDefinition, Sheet } from "../formulas/sheet.ts";
import { formula, model } from "../models/define.ts";
import type { LevelReading } from "../models/periphery/index.ts";
import { lineLoads } from "./geometry.ts";
import { definitionsOf } from "./names.ts";
import { organisation } from "./organisation.ts";

/** What decides which energies an access has. */
export interface EnergyFlags {
  readonly sensing: "voltage" | "current";
  /** Unselected lines are held at levels of their own. */
  readonly biased: boolean;
  /** How cells of several bits are read; absent where cells have two states. */
  readonly levels?: LevelReading;
  /** Writes are pulses that are verified. */
  readonly verify: boolean;
  /** A pulse can end with its own cell's switching. */
  readonly terminates: boolean;
  /** A destructive read is followed by a write of what was read. */
  readonly rewrites: boolean;
  /** A read takes the charge of all cells of the row, and gives it back. */
  readonly restores: boolean;
}

const energy = (text: string, meaning: string, source = "dic", note?: string): FormulaDefinition =>
  formula("J", text, meaning, source, note === undefined ? {} : { note });

const quantity = (unit: string, meaning: string) => ({ unit, meaning });

const INPUTS = {
  ...definitionsOf(organisation, lineLoads),
  supply: quantity("V", "core supply"),
  row_swing: quantity("V", "swing of a selected row in a read"),
  column_swing: quantity("V", "by how much a column moves in a read"),
  write_row_swing: quantity("V", "swing of a selected row in a write"),
  write_column_swing: quantity("V", "by how much a column moves in a write"),
  column_lines: quantity("1", "column wires of one cell"),
  row_bias_share: quantity("1", "level of an unselected row over the selected one's, in a read"),
  write_row_bias_share: quantity("1", "level of an unselected row in a write, likewise"),
  write_column_bias_share: quantity("1", "level of an unselected column in a write, likewise"),
  read_static_current: quantity("A", "current of a sensed column"),
  row_leak_current: quantity("A", "current of all unselected cells of the selected row"),
  bit_line_delay: quantity("s", "the column has settled at the amplifier"),
  sense_delay: quantity("s", "the amplifier has decided"),
  write_cell_energy: quantity("J", "energy in the cell per written bit"),
  half_selected_power: quantity("W", "power in the unselected junctions of a tile during a write"),
  write_time: quantity("s", "pulses of one write"),
  pulse_share: quantity("1", "time of the pulses over that of all pulses of a verified write"),
  verified_share: quantity("1", "1 where a read comes after each pulse"),
  polarity_share: quantity("1", "time of a write over that of its groups' longer pulses"),
  verify_pulses: quantity("1", "mean number of program-and-verify pulses"),
  write_pulses: quantity("1", "the same, of all levels of a cell"),
  level_references: quantity("1", "references between the levels of a cell"),
  sense_amplifier_read_energy: quantity("J", "energy of one decision"),
  stored_energy: quantity("J", "energy that restores a cell"),
};

/** Rows and columns, by what moves: a selected row, unselected rows at their level, columns that swing. */
function lineEnergies({ sensing, biased }: EnergyFlags): Record<string, FormulaDefinition> {
  const rows = (swing: string, share: string) => {
    const held = biased ? ` + (physical_rows - 1) * (${share} * ${swing})^2` : "";
    return `tiles_active * row_capacitance * (${swing}^2${held})`;
  };
  const readColumns =
    sensing === "voltage" || biased ? "physical_columns" : "sense_amplifiers * column_lines";
  const halfSelected =
    sensing === "voltage"
      ? "+ max(0, tiles_active * physical_columns - word_cells) * column_capacitance * " +
        "column_swing * max(supply, column_swing)"
      : "";
  const heldColumns = biased
    ? "+ tiles_active * physical_columns * column_capacitance * (write_column_bias_share * " +
      "write_row_swing)^2"
    : "";
  return {
    row_read_energy: energy(
      rows("row_swing", "row_bias_share"),
      "energy that charges rows in a read",
    ),
    column_read_energy: energy(
      `tiles_active * ${readColumns} * column_capacitance * column_swing * max(supply, column_swing)`,
      "energy that charges columns in a read",
      "dic",
      sensing === "voltage" ? "every cell of the selected row moves its column" : undefined,
    ),
    row_write_energy: energy(
      rows("write_row_swing", "write_row_bias_share"),
      "energy that charges rows in a write",
    ),
    column_write_energy: energy(
      `word_cells * column_lines * column_capacitance * write_column_swing^2${halfSelected}${heldColumns}`,
      "energy that charges columns in a write",
      "dic",
      sensing === "voltage"
        ? "cells of the row that are not written move their columns as in a read"
        : undefined,
    ),
  };
}

function currentEnergies({ sensing, biased }: EnergyFlags): Record<string, FormulaDefinition> {
  if (sensing === "voltage") {
    return {
      static_read_energy: energy(
        "0 * row_read_energy",
        "energy of steady currents in a read",
        "this project",
        "the swing of the columns is all that the cells draw",
      ),
    };
  }
  const leak = biased ? " + tiles_active * row_leak_current" : "";
  const voltage = biased ? "max(supply, row_swing)" : "supply";
  return {
    static_read_energy: energy(
      `(tiles_active * sense_amplifiers * read_static_current${leak}) * ${voltage} * (bit_line_delay + sense_delay)`,
      "energy of steady currents in a read",
    ),
  };
}

/** Decisions on one cell in one read. */
const DECISIONS = { successive: "bits_per_cell", parallel: "level_references" } as const;

function writeEnergies({
  biased,
  levels,
  verify,
  terminates,
  rewrites,
  restores,
}: EnergyFlags): Record<string, FormulaDefinition> {
  const reads = levels ? "write_pulses" : "verify_pulses";
  const decisions = levels ? `${DECISIONS[levels]} * ` : "";
  const pulses = terminates ? " * pulse_share" : "";
  const destroyed = restores ? "tiles_active * physical_columns * stored_energy" : "";
  const rewritten = rewrites ? "column_write_energy + cell_write_energy + half_select_energy" : "";
  return {
    cell_write_energy: energy(
      `coded_word * write_cell_energy${pulses}`,
      "energy in the written cells",
      "this project",
    ),
    half_select_energy: energy(
      biased
        ? `half_selected_power * write_time${pulses} * polarity_share * groups * tiles_active`
        : "0 * cell_write_energy",
      "energy in half-selected junctions during a write",
      "this project",
    ),
    verify_energy: energy(
      verify
        ? `${terminates ? "verified_share * " : ""}${reads} * ` +
            `(column_read_energy + static_read_energy + word_cells * ${decisions}` +
            "sense_amplifier_read_energy)"
        : "0 * cell_write_energy",
      "energy of the reads that verify a write",
      "this project",
    ),
    rewrite_energy: energy(
      destroyed || rewritten || "0 * cell_write_energy",
      "energy of writing back what a read destroyed",
      "this project",
      restores ? "every cell of the row, each as if it had lost all: an upper bound" : undefined,
    ),
    restore_energy: energy(
      restores
        ? "max(0, tiles_active * physical_columns - word_cells) * stored_energy"
        : "0 * cell_write_energy",
      "energy of giving back the charge of cells that a write wakes and does not write",
      "this project",
    ),
  };
}

/** Energies of one access that belong to lines and cells; those of the parts are added beside them. */
export function accessEnergy(flags: EnergyFlags): Sheet {
  return model({
    name: "access_energy",
    title: "Energy of lines and cells in one access",
    about:
      "Capacitance times swing times the supply that it is charged from; steady currents for as " +
      "long as the amplifier " +
      "senses; pulses in the cells; what half-selected junctions draw meanwhile. Lines are " +
      "charged once an access.",
    inputs: INPUTS,
    formulas: { ...lineEnergies(flags), ...currentEnergies(flags), ...writeEnergies(flags) },
  });
}

/** The row of a breakdown for what leaks meanwhile. */
export const LEAKAGE = "leakage meanwhile";

/** The rows of a breakdown that `accessEnergy` defines: ledger name and quantity. */
export const READ_ENERGIES = {
  rows: "row_read_energy",
  columns: "column_read_energy",
  "steady currents": "static_read_energy",
  "write back": "rewrite_energy",
} as const;
export const WRITE_ENERGIES = {
  rows: "row_write_energy",
  columns: "column_write_energy",
  cells: "cell_write_energy",
  "half-selected junctions": "half_select_energy",
  "verify reads": "verify_energy",
  "write back": "restore_energy",
} as const;
