/**
 * What drives the rows: chains of inverters, with level shifters where the row swings beyond the
 * supply.
 */
import { given, part } from "../define.ts";
import { chain } from "../effort.ts";
import { layoutArea } from "./layout.ts";

/** One row driver of the core supply: the inverters behind the decoder's last one. */
export const rowDriver = part({
  name: "row_driver",
  title: "Row driver",
  about:
    "A chain of an odd number of inverters from the decoder's last inverter (counted there) to " +
    "the row, with the best number of stages. The energy that charges the row itself is not in " +
    "it.",
  formulas: {
    ...chain({ name: "chain", load: "row_capacitance", odd: true }),
    inverters: given("chain_stages - 1", "1", "inverters behind the decoder's last one"),
    transistors: given("2 * inverters", "1", "transistors of one row driver"),
    width: given(
      "chain_width - unit_gate_input_capacitance / gate_capacitance",
      "m",
      "device widths of one row driver",
    ),
    area: given(
      layoutArea("width", "transistors", "device_area_per_width", "wide_layout_share"),
      "m^2",
      "area of one row driver",
    ),
    pitch: given(
      "max(1, ceil(contacted_gate_pitch * 2 / cell_height))",
      "1",
      "drivers that stand one behind another because a row is narrower than an inverter",
      "this project",
      "an inverter in its smallest orientation is two gate pitches high",
    ),
    leakage: given(
      "width / 2 * leakage_power_per_width",
      "W",
      "leakage of one row driver",
      "this project",
      "an inverter leaks through one of its two devices",
    ),
    read_energy: given(
      "width * (gate_capacitance + drain_capacitance) * supply ^ 2",
      "J",
      "energy of the driver's own capacitance",
      "dic",
    ),
    write_energy: given("read_energy", "J", "energy of the driver's own capacitance"),
    delay: given("chain_delay", "s", "delay from the decoder to the row", "logical-effort"),
  },
});

/** One row driver with a level shifter, in thick-oxide devices. */
export const raisedRowDriver = part({
  name: "raised_row_driver",
  title: "Row driver with level shifter",
  about:
    "A level shifter and a chain of thick-oxide inverters, used where a row swings beyond the " +
    "core supply in a write. Reads go through the same chain. The energy that charges the row " +
    "itself and the loss of the pump are not in it.",
  formulas: {
    ...chain({ name: "chain", load: "row_capacitance", thick: true }),
    chain_transistors: given("2 * chain_stages", "1", "transistors of the chain"),
    transistors: given(
      "level_shifter_transistors + chain_transistors",
      "1",
      "transistors of one row driver with its level shifter",
    ),
    shifter_width: given(
      "level_shifter_transistors * thick_gate_length",
      "m",
      "device widths of the level shifter",
    ),
    width: given("chain_width + shifter_width", "m", "device widths of one row driver"),
    area: given(
      layoutArea("width", "transistors", "thick_device_area_per_width", "wide_layout_share"),
      "m^2",
      "area of one row driver",
    ),
    pitch: given(
      "max(1, ceil(thick_contacted_pitch * 2 / cell_height))",
      "1",
      "drivers that stand one behind another because a row is narrower than a thick-oxide inverter",
    ),
    leakage: given(
      "width / 2 * thick_leakage_power_per_width",
      "W",
      "leakage of one row driver",
      "this project",
      "an inverter leaks through one of its two devices",
    ),
    read_energy: given(
      "width * (thick_gate_capacitance + drain_capacitance) * max(supply, row_swing) ^ 2",
      "J",
      "energy of the driver's own capacitance, at the level of a read",
      "dic",
    ),
    write_energy: given(
      "width * (thick_gate_capacitance + drain_capacitance) * max(supply, write_row_swing) ^ 2",
      "J",
      "energy of the driver's own capacitance, at the level of a write",
      "dic",
    ),
    delay: given(
      "level_shifter_effort * thick_tau + chain_delay",
      "s",
      "delay from the decoder to the row",
      "logical-effort",
    ),
  },
});
