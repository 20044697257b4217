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

/**
 * A pump designed for the write voltage and current of the macro. Bind `pump_supply` to the
 * supply that feeds it.
 */
export const chargePump = part({
  name: "charge_pump",
  title: "Charge pump",
  about:
    "As many stages as the voltage needs when the load takes a stated share of each stage's " +
    "gain, and the capacitance that then holds the voltage at the full write current. Capacitors " +
    "are gates of thick-oxide devices.",
  inputs: { pump_supply: { unit: "V", meaning: "supply that feeds the pump" } },
  formulas: {
    load_current: given(
      "write_current * cells_written * (1 + regulator_current_share)",
      "A",
      "current that the cells written at once and the regulator draw",
    ),
    target_voltage: given(
      "write_voltage + regulator_drop",
      "V",
      "voltage in front of the regulator",
    ),
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
      "pump_supply * input_current / (write_voltage * write_current * cells_written)",
      "1",
      "energy from the supply for each joule at the write voltage, regulator included",
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
    read_energy: given("0", "J", "idle in a read"),
    write_energy: given(
      "(loss_factor - 1) * write_voltage * write_current * cells_written * groups * write_time",
      "J",
      "energy lost while the write current flows",
      "pump",
      "what the cells and drivers take is counted with them",
    ),
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
