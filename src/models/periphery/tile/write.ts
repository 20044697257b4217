/** What writes: drivers of the columns, and the logic that programs and verifies. */
import { given, part } from "../define.ts";
import { layoutArea } from "./layout.ts";

/**
 * Write driver of columns that swing within the supply, for cells without a write current of
 * their own.
 */
export const writeDriver = part({
  name: "write_driver",
  title: "Write driver",
  about:
    "Discharges one of a pair of columns through the multiplexer, in the time that a column " +
    "switch may add. One for each sense amplifier. The charge of the columns is not in it.",
  formulas: {
    transistors: given(
      "plain_driver_transistors",
      "1",
      "transistors of one write driver",
      "cmosvlsi",
    ),
    drive_width: given(
      "max(gate_width, log(2) * unit_resistance_n * column_capacitance / (switch_fan_outs * " +
        "fan_out_delay), unit_linear_resistance * write_current / (drop_share * supply))",
      "m",
      "width of a device that drives a column",
      "dic",
    ),
    width: given(
      "drive_width * (2 + 2 / best_stage_effort)",
      "m",
      "device widths: two outputs and what drives them",
      "logical-effort",
    ),
    area: given(
      layoutArea(
        "width + max(0, transistors - 4) * gate_width",
        "transistors",
        "device_area_per_width",
        "pitch_layout_share",
      ),
      "m^2",
      "area of one write driver",
    ),
    leakage: given(
      "max(0, transistors - 4) * transistor_leakage + width * leakage_power_per_width",
      "W",
      "leakage of one write driver",
    ),
    read_energy: given("0", "J", "idle in a read"),
    write_energy: given(
      "(width * (gate_capacitance + drain_capacitance) + transistors * " +
        "unit_gate_input_capacitance / 2) * supply ^ 2",
      "J",
      "energy of the driver's own capacitance",
      "dic",
    ),
    delay: given(
      "tau * 2 * (best_stage_effort + inverter_parasitic) + switch_fan_outs * fan_out_delay",
      "s",
      "delay from the data to a column at its level",
      "logical-effort",
    ),
  },
});

/**
 * Write driver of a resistive cell: both polarities, with a current limit, at a raised voltage
 * or not.
 */
function limited(raised: boolean) {
  const resistance = raised ? "thick_unit_linear_resistance" : "unit_linear_resistance";
  const leak = raised ? "thick_leakage_power_per_width" : "leakage_power_per_width";
  const gate = raised ? "thick_gate_capacitance" : "gate_capacitance";
  const layout = raised ? "thick_device_area_per_width" : "device_area_per_width";
  const shifters = raised ? "2 * level_shifter_transistors" : "0";
  return part({
    name: raised ? "raised_limited_write_driver" : "limited_write_driver",
    title: `Write driver with current limit${raised ? " for a raised voltage" : ""}`,
    about:
      "Two half bridges put either polarity across a cell, a mirror limits the current. Device " +
      "widths from the write current and the drop that one switch may have. One for each sense " +
      "amplifier.",
    formulas: {
      shifter_transistors: given(
        shifters,
        "1",
        "transistors of the level shifters, which the published count includes",
      ),
      transistors: given(
        raised
          ? "max(limited_driver_transistors, shifter_transistors + 4)"
          : "max(8, limited_driver_transistors - 2 * level_shifter_transistors)",
        "1",
        "transistors of one write driver",
        "general",
        "without a raised voltage the level shifters are left out",
      ),
      drive_width: given(
        `max(gate_width, ${resistance} * write_current / (drop_share * max(supply, ` +
          `write_voltage)))`,
        "m",
        "width of one switch of a half bridge, n-type",
        "dic",
      ),
      width: given(
        "drive_width * (2 * (1 + 1 / p_to_n_current) + 2)",
        "m",
        "device widths: two half bridges, and the mirror in both polarities",
      ),
      area: given(
        layoutArea(
          `width + max(0, transistors - 6) * ${raised ? "thick_gate_length" : "gate_width"}`,
          "transistors",
          layout,
          "pitch_layout_share",
        ),
        "m^2",
        "area of one write driver",
      ),
      pitch: given(
        `max(1, ceil(8 * ${raised ? "thick_contacted_pitch" : "contacted_gate_pitch"} / ` +
          `(cell_width * column_share)))`,
        "1",
        "drivers that stand one behind another",
      ),
      leakage: given(`width * ${leak}`, "W", "leakage of one write driver"),
      read_energy: given("0", "J", "idle in a read"),
      switching_energy: given(
        `width * (${gate} + drain_capacitance) * max(supply, write_voltage) ^ 2`,
        "J",
        "energy of the driver's own capacitance in one pulse",
        "dic",
      ),
      limit_energy: given(
        "drop_share * max(supply, write_voltage) * write_current * write_time * 2",
        "J",
        "energy lost in the switches and the mirror while the write current flows",
        "this project",
        "a drop at each end of the cell's path",
      ),
      write_energy: given("switching_energy + limit_energy", "J", "energy of one write driver"),
      delay: given(
        `${raised ? "level_shifter_effort * thick_tau + " : ""}` +
          `${raised ? "thick_tau" : "tau"} * 2 * (best_stage_effort + inverter_parasitic) + ` +
          `log(2) * ${resistance} / drive_width * column_capacitance`,
        "s",
        "delay from the data to half of the swing of a column, its own resistance left out",
        "wiring1983",
      ),
    },
  });
}
export const limitedWriteDriver = limited(false);
export const raisedLimitedWriteDriver = limited(true);

/**
 * Program-and-verify: a state machine for the macro, and a comparison for each bit that is written.
 */
export const verifyLogic = part({
  name: "verify_logic",
  title: "Program-and-verify logic",
  about:
    "Repeats pulse and verify until the read bit is right. Gates by count, in the area of the " +
    "library's density; the verify reads themselves are reads.",
  formulas: {
    machine_transistors: given("4 * verify_gates", "1", "transistors of the state machine"),
    bit_transistors: given(
      "4 * verify_bit_gates * cells_written",
      "1",
      "transistors that compare and stop each bit's pulse",
    ),
    transistors: given(
      "machine_transistors + bit_transistors",
      "1",
      "transistors of program-and-verify",
    ),
    area: given("transistors * transistor_area", "m^2", "area of program-and-verify"),
    leakage: given("transistors * transistor_leakage", "W", "leakage of program-and-verify"),
    read_energy: given("0", "J", "idle in a read"),
    write_energy: given(
      "groups * control_activity * transistors / 2 * logic_pair_energy",
      "J",
      "energy of one write",
      "this project",
      "one pass for each group; a gate of four transistors counts as two inverters",
    ),
  },
});
