import { formula, model } from "../define.ts";
import { switchDefaults } from "./defaults.ts";

/** The switch as it was measured: what a write needs of it. */
export const measuredSwitch = model({
  parameters: switchDefaults,
  name: "measured_switch",
  title: "Switch from measured figures",
  about:
    "On state ohmic, off state a sinh law through its resistance at the read voltage. The set " +
    "pulse is limited by the circuit or by the resistance that it leaves; the reset current " +
    "is what the on state draws, but no more than the set left behind can carry: in filaments " +
    "both are nearly equal. Several levels per cell need a program-and-verify pulse each.",
  formulas: {
    resistance_window: formula(
      "1",
      "off_resistance / on_resistance",
      "off resistance over on resistance at the read voltage",
      "common practice",
    ),
    set_current: formula(
      "A",
      "min(set_voltage / on_resistance, current_limit)",
      "largest current of the set pulse",
      "common practice",
      { symbol: "I_{set}" },
    ),
    reset_current: formula(
      "A",
      "min(reset_voltage / on_resistance, reset_current_ratio * current_limit)",
      "largest current of the reset pulse",
      "common practice",
      { symbol: "I_{reset}" },
    ),
    switch_write_current: formula(
      "A",
      "max(set_current, reset_current)",
      "current that the write path must carry",
      "this project",
    ),
    switch_write_voltage: formula(
      "V",
      "max(set_voltage, reset_voltage)",
      "voltage that the switch needs in a write",
      "this project",
    ),
    off_write_resistance: formula(
      "ohm",
      "off_resistance * switch_write_voltage / read_voltage * exp((read_voltage - " +
        "switch_write_voltage) / scale_voltage) * expm1(-2 * read_voltage / scale_voltage) / " +
        "expm1(-2 * switch_write_voltage / scale_voltage)",
      "off resistance at the voltage of a write",
      "this project",
      { note: "the sinh law of the off state, its ratio as exponentials, which overflow later" },
    ),
    lesser_write_share: formula(
      "1",
      "spin_transfer > 0.5 ? min(1, on_resistance / off_write_resistance) : 1",
      "current of the write direction that needs less over that of the other",
      "spin-torque-bias",
      { note: "torque follows the voltage; filaments need about the same both ways" },
    ),
    write_pulses: formula(
      "1",
      "verify_pulses * levels_share",
      "pulses of one write, verified",
      "common practice",
    ),
    levels_share: formula(
      "1",
      "1 + pulses_per_level * (2^bits_per_cell - 2)",
      "pulses that further levels add",
      "common practice",
      { note: "two levels need none" },
    ),
    switch_write_time: formula(
      "s",
      "max(set_time, reset_time) * write_pulses",
      "pulses of one write of one cell",
      "this project",
      { symbol: "t_w" },
    ),
  },
});

/** Voltage scale of the sinh law for a switch that is given by its nonlinearity. */
export const scaleFromNonlinearity = model({
  parameters: switchDefaults,
  name: "scale_from_nonlinearity",
  title: "Voltage scale from a nonlinearity",
  about: "For a nonlinearity above 2, which is that of an ohmic resistance.",
  formulas: {
    scale_voltage: formula(
      "V",
      "read_voltage / (2 * acosh(nonlinearity / 2))",
      "voltage scale of the sinh law",
      "this project",
      { symbol: "S", note: "sinh(2x) = 2 sinh(x) cosh(x)" },
    ),
  },
});

/** What a crossing of two wires has room for. */
export const junctionFilm = model({
  parameters: switchDefaults,
  name: "junction_film",
  title: "Film at a junction",
  about: "Two plates as wide as the crossing wires; the fringe belongs to the wires.",
  formulas: {
    largest_element_area: formula(
      "m^2",
      "pi / 4 * feature^2",
      "area of the largest round element at a crossing",
      "common practice",
    ),
    junction_capacitance: formula(
      "F",
      "vacuum_permittivity * film_permittivity * feature^2 / film_thickness",
      "capacitance of the switch film",
      "dic",
      { symbol: "C_j" },
    ),
  },
});
