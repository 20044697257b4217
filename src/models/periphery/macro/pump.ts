/** Voltages above the supply: charge pump and regulator. */
import { given, part } from "../define.ts";

/**
 * The pump formula alone: what a given pump gives. For checks, and for pumps that a study states.
 */
export const pumpOutput = part({
  name: "pump_output",
  title: "Output of a charge pump",
  about: "A multiplier of N stages with stray capacitance at the pumped nodes, in steady state.",
  inputs: {
    stages: { unit: "1", meaning: "stages" },
    pump_supply: { unit: "V", meaning: "supply of the pump, and swing of its clock" },
    stage_capacitance: { unit: "F", meaning: "capacitance of a stage" },
    load_current: { unit: "A", meaning: "current drawn from the output" },
  },
  formulas: {
    stray_capacitance: given(
      "pump_stray_ratio * stage_capacitance",
      "F",
      "stray capacitance of a pumped node",
    ),
    shared_capacitance: given(
      "stage_capacitance + stray_capacitance",
      "F",
      "whole capacitance of a pumped node",
    ),
    output_voltage: given(
      "pump_supply + stages * (pump_supply * stage_capacitance / shared_capacitance - " +
        "pump_diode_voltage - load_current / (pump_clock_frequency * shared_capacitance)) - " +
        "pump_diode_voltage",
      "V",
      "output voltage",
      "pump",
    ),
    output_resistance: given(
      "stages / (pump_clock_frequency * shared_capacitance)",
      "ohm",
      "resistance that the output shows",
      "pump",
    ),
    stray_current: given(
      "stages * pump_clock_frequency * pump_supply * stage_capacitance * stray_capacitance / " +
        "shared_capacitance",
      "A",
      "supply current that charges the stray capacitance of the pumped nodes",
      "pump",
    ),
    bottom_current: given(
      "stages * pump_clock_frequency * pump_supply * pump_bottom_ratio * stage_capacitance",
      "A",
      "supply current that charges the stray capacitance of the clocked nodes",
      "pump",
    ),
    input_current: given(
      "(stages + 1) * load_current + stray_current + bottom_current",
      "A",
      "supply current",
      "pump",
    ),
    efficiency: given(
      "output_voltage * load_current / (pump_supply * input_current)",
      "1",
      "power at the output over power from the supply",
      "pump",
    ),
  },
});

interface PumpFor {
  readonly name: string;
  readonly title: string;
  readonly about: string;
  /** Formulas of what is drawn [A], at what voltage [V], and what is delivered of it [W]. */
  readonly load: string;
  readonly loadMeaning: string;
  readonly target: string;
  readonly targetMeaning: string;
  readonly delivered: string;
  /** Formulas of the energy lost in a read and in a write [J]. */
  readonly lost: { readonly read: string; readonly write: string; readonly note?: string };
}

/** A pump designed for a voltage and a current. Bind `pump_supply` to the supply that feeds it. */
const pumpFor = ({ load, loadMeaning, target, targetMeaning, delivered, lost, ...of }: PumpFor) =>
  part({
    ...of,
    about:
      `${of.about} As many stages as the voltage needs when the load takes a stated share of each ` +
      "stage's gain, and the capacitance that then holds the voltage at the full current. " +
      "Capacitors are gates of thick-oxide devices.",
    inputs: {
      pump_supply: { unit: "V", meaning: "supply that feeds the pump" },
      read_cycle: { unit: "s", meaning: "until the same tile can be read again" },
    },
    formulas: {
      load_current: given(load, "A", loadMeaning),
      target_voltage: given(target, "V", targetMeaning),
      rise: given(
        "max(0, target_voltage - pump_supply + pump_diode_voltage)",
        "V",
        "voltage that all stages have to give",
        "pump",
      ),
      stage_gain: given(
        "max(pump_supply / (1 + pump_stray_ratio) - pump_diode_voltage, 0.05 * pump_supply)",
        "V",
        "voltage that one stage gives without load",
        "pump",
        "a supply hardly above the diode voltage gives almost nothing",
      ),
      stages: given("max(1, ceil(rise / (pump_drop_share * stage_gain)))", "1", "stages", "pump"),
      stage_drop: given(
        "stage_gain - rise / stages",
        "V",
        "voltage of each stage that the load may take",
        "pump",
      ),
      stage_capacitance: given(
        "load_current / (pump_clock_frequency * (1 + pump_stray_ratio) * stage_drop)",
        "F",
        "capacitance of one stage",
        "pump",
      ),
      capacitance_per_area: given(
        "thick_gate_capacitance / thick_gate_length",
        "F/m^2",
        "gate-oxide capacitance per area",
        "this project",
        "overlap and fringe are in the gate capacitance per width, so this is a little high",
      ),
      capacitor_area: given(
        "stages * stage_capacitance / capacitance_per_area",
        "m^2",
        "area of all capacitors",
      ),
      input_current: given(
        "(stages + 1) * load_current + stages * pump_clock_frequency * pump_supply * " +
          "stage_capacitance * (pump_stray_ratio / (1 + pump_stray_ratio) + pump_bottom_ratio)",
        "A",
        "supply current at full load",
        "pump",
      ),
      efficiency: given(
        "(target_voltage * load_current) / (pump_supply * input_current)",
        "1",
        "power at the output over power from the supply",
        "pump",
      ),
      loss_factor: given(
        `pump_supply * input_current / (${delivered})`,
        "1",
        "energy from the supply for each joule that is delivered",
      ),
      switch_width: given(
        "4 * stages * thick_unit_resistance * pump_clock_frequency * 2 * stage_capacitance",
        "m",
        "widths of the switches: a stage settles to within e^-4 in half a clock",
        "dic",
      ),
      transistors: given(
        "stages * pump_stage_transistors + oscillator_transistors",
        "1",
        "transistors of the pump",
        "pump",
      ),
      area: given(
        "(capacitor_area + switch_width * thick_device_area_per_width) * wide_layout_share + " +
          "transistors * transistor_area",
        "m^2",
        "area of the pump",
      ),
      leakage: given(
        "switch_width * thick_leakage_power_per_width + transistors * transistor_leakage",
        "W",
        "leakage of the pump",
      ),
      read_energy: given(lost.read, "J", "energy lost in a read", "pump"),
      write_energy: given(lost.write, "J", "energy lost in a write", "pump", lost.note),
      start_time: given(
        "stages * (stages + 1) / (2 * pump_clock_frequency)",
        "s",
        "time to the full voltage, counted in the wake-up and not in each write",
        "pump",
        "charge has to walk through the stages; without a reservoir at the output",
      ),
      delay: given("1 / pump_clock_frequency", "s", "one clock, until the output follows the load"),
    },
  });

/** A pump for the write voltage and current of the macro. */
export const chargePump = pumpFor({
  name: "charge_pump",
  title: "Charge pump",
  about: "Delivers the write current of the cells that are written at once.",
  load: "write_current * cells_written * (1 + regulator_current_share)",
  loadMeaning: "current that the cells written at once and the regulator draw",
  target: "write_voltage + regulator_drop",
  targetMeaning: "voltage in front of the regulator",
  delivered: "write_voltage * write_current * cells_written",
  lost: {
    read: "0",
    write:
      "(loss_factor - 1) * write_voltage * write_current * cells_written * groups * write_time",
    note: "what the cells and drivers take is counted with them",
  },
});

/** A pump for rows that swing beyond every supply, and carry no current but their charge. */
export const rowPump = pumpFor({
  name: "row_pump",
  title: "Row pump",
  about: "Delivers the charge of the rows that an access raises, once in each cycle of reads.",
  load: "tiles_active * row_capacitance * max(row_swing, write_row_swing) / read_cycle",
  loadMeaning: "mean current of rows that are raised in each cycle",
  target: "max(row_swing, write_row_swing)",
  targetMeaning: "highest voltage of a row",
  delivered: "load_current * target_voltage",
  lost: {
    read: "(loss_factor - 1) * tiles_active * row_capacitance * row_swing ^ 2",
    write: "(loss_factor - 1) * tiles_active * row_capacitance * write_row_swing ^ 2",
    note: "the charge of the rows is counted with them",
  },
});

/** A pump for the erasure of a block. */
export const erasePump = pumpFor({
  name: "erase_pump",
  title: "Erase pump",
  about:
    "Delivers the current of a tile that is erased as one block: what leaks and tunnels in its " +
    "cells. Idle in reads and writes; an erasure's own energy is not in those of accesses.",
  load: "decoded_rows * driven_columns * erase_cell_current",
  loadMeaning: "current of all cells of a tile while they are erased",
  target: "erase_voltage",
  targetMeaning: "voltage of an erasure",
  delivered: "load_current * target_voltage",
  lost: { read: "0", write: "0" },
});

/** Holds a pumped or an input-output supply at the voltage that a write needs. */
export const regulator = part({
  name: "regulator",
  title: "Voltage regulator",
  about:
    "A pass device for the write current of the macro at a stated headroom, and its amplifier. " +
    "One per raised voltage. The loss over the headroom is the pump's where there is a pump; " +
    "here it is counted for a plain raised supply.",
  inputs: { pump_supply: { unit: "V", meaning: "voltage in front of the regulator" } },
  formulas: {
    load_current: given(
      "write_current * cells_written",
      "A",
      "current that the cells written at once draw",
    ),
    pass_width: given(
      "thick_unit_linear_resistance / p_to_n_current * load_current / regulator_drop",
      "m",
      "width of the pass device",
      "dic",
    ),
    transistors: given("regulator_transistors", "1", "transistors of the regulator", "general"),
    area: given(
      "pass_width * thick_device_area_per_width * wide_layout_share + transistors * " +
        "thick_gate_length * thick_device_area_per_width * 2",
      "m^2",
      "area of the regulator",
    ),
    leakage: given(
      "pass_width * thick_leakage_power_per_width + transistors * transistor_leakage",
      "W",
      "leakage of the regulator when it is off",
    ),
    read_energy: given("0", "J", "idle in a read"),
    lost_voltage: given(
      "max(0, pump_supply * (1 + regulator_current_share) - write_voltage)",
      "V",
      "voltage lost over the pass device, the regulator's own current included",
    ),
    write_energy: given(
      "lost_voltage * load_current * groups * write_time",
      "J",
      "energy lost while the write current flows from a plain supply",
      "dic",
    ),
  },
});
