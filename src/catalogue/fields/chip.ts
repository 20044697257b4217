import type { FieldTable } from "./field.ts";

const SIZE: FieldTable = {
  node: { unit: "m", meaning: "name of the node, no measured length" },
  capacity: { unit: "bit", meaning: "stored bits" },
  bits_per_cell: { unit: "1", meaning: "bits of one cell" },
  cell_area: { unit: "m^2", meaning: "area of one cell", symbol: "A_{cell}" },
  cell_area_in_feature_squared: { unit: "1", meaning: "cell area in squares of its half pitch" },
  cell_area_to_sram_6t: { unit: "1", meaning: "cell area over that of a static cell of six" },
  area: { unit: "m^2", meaning: "area; the note says of what" },
  density: { unit: "bit/m^2", meaning: "bits per area" },
  array_efficiency: { unit: "1", meaning: "cell area over area", shape: "share" },
};

const SPEED: FieldTable = {
  clock: { unit: "Hz", meaning: "clock frequency" },
  cycle_time: { unit: "s", meaning: "time from one access to the next" },
  read_latency: { unit: "s", meaning: "time of a read" },
  write_latency: { unit: "s", meaning: "time of a write" },
  erase_latency: { unit: "s", meaning: "time of an erase" },
  search_latency: { unit: "s", meaning: "time of a search" },
  store_time: { unit: "s", meaning: "time to save a state" },
  restore_time: { unit: "s", meaning: "time to restore a state" },
  read_bandwidth: { unit: "bit/s", meaning: "bits read per time" },
  write_bandwidth: { unit: "bit/s", meaning: "bits written per time" },
  interface_rate_per_pin: { unit: "bit/s", meaning: "bits per time and pin" },
};

const POWER: FieldTable = {
  supply: { unit: "V", meaning: "supply" },
  read_current: { unit: "A", meaning: "supply current while reading" },
  write_current: { unit: "A", meaning: "write current of one cell" },
  standby_power: { unit: "W", meaning: "power while the state is kept" },
  leakage_current_per_bit: { unit: "A/bit", meaning: "leakage current per bit" },
  read_energy_per_bit: { unit: "J/bit", meaning: "energy of a read per bit" },
  energy_per_access: { unit: "J", meaning: "energy of one access" },
  search_energy_per_bit: { unit: "J/bit", meaning: "energy of a search per bit" },
  store_restore_energy_per_bit: { unit: "J/bit", meaning: "energy of save and restore per bit" },
};

/** Published figures of one chip, macro or cell. */
export const CHIP_FIELDS: FieldTable = {
  ...SIZE,
  ...SPEED,
  ...POWER,
  endurance: { unit: "1", meaning: "write cycles" },
  retention_time: { unit: "s", meaning: "time between two refreshes" },
};
