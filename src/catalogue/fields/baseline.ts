import type { FieldTable } from "./field.ts";

const AREA: FieldTable = {
  cell_area_to_sram_6t: {
    unit: "1",
    meaning: "cell area over the published area of the six-transistor static cell of the node",
  },
  cell_area_in_feature_squared: {
    unit: "1",
    meaning: "cell area in squares of the half pitch of its own process",
  },
  cell_area_to_flip_flop: { unit: "1", meaning: "cell area over the area of a flip-flop" },
};

const CHARGE: FieldTable = {
  storage_capacitance: { unit: "F", meaning: "capacitance that stores the bit", symbol: "C_s" },
  retention_time: { unit: "s", meaning: "time between two refreshes", symbol: "t_{ret}" },
};

const FLOATING_GATE: FieldTable = {
  read_current: { unit: "A", meaning: "current of an on cell in a read" },
  read_gate_voltage: { unit: "V", meaning: "gate voltage of the selected row in a read" },
  program_current: { unit: "A", meaning: "current of one cell while it is programmed" },
  program_voltage: { unit: "V", meaning: "gate voltage while programming" },
  drain_voltage: { unit: "V", meaning: "drain voltage while programming" },
  program_time: { unit: "s", meaning: "time to program one cell, verify included" },
  erase_voltage: { unit: "V", meaning: "voltage between gate and well in an erase" },
  erase_time: { unit: "s", meaning: "time to erase one sector" },
  tunnel_oxide_thickness: { unit: "m", meaning: "thickness of the tunnel oxide" },
  endurance: { unit: "1", meaning: "program and erase cycles" },
};

/**
 * An all-CMOS cell, or a hybrid one beside it. Only the cell: its periphery is composed as for
 * every memory.
 */
export const BASELINE_FIELDS: FieldTable = {
  cell_transistors: { unit: "1", meaning: "transistors of one cell", required: true },
  cell_switches: { unit: "1", meaning: "resistance switches of one cell" },
  ...AREA,
  ...CHARGE,
  ...FLOATING_GATE,
};
