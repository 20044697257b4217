import { formula, model } from "../define.ts";
import { processDefaults } from "./defaults.ts";

/**
 * What every circuit takes from the technology: resistances, areas, energies, leakage. Source: the
 * sheet's own lines; how currents follow the supply stands in `drive.ts`.
 */
export const processSheet = model({
  parameters: processDefaults,
  name: "process",
  title: "Transistors of the technology",
  about:
    "The resistance of a switching device comes from supply and effective current, the unit of " +
    "delay from the fan-out-of-four delay; how well both agree is a quantity of its own. Body " +
    "effect is left out; thick-oxide devices are at the input-output supply, whatever that of the " +
    "core is.",
  formulas: {
    unit_resistance_n: formula(
      "ohm m",
      "supply / (2 * log(2) * effective_current_share * on_current)",
      "switching resistance of an n-type device times its width",
      "cmosvlsi",
      {
        symbol: "R_n",
        note:
          "half of the supply at the effective current, so that ln 2 RC is the delay; the " +
          "textbook's other form, 3/4 of supply over on-current, is the lower bound beside",
      },
    ),
    saturated_resistance_n: formula(
      "ohm m",
      "0.75 * supply / on_current",
      "switching resistance if the device gave its whole on-current",
      "dic",
      { note: "without channel length modulation; a lower bound" },
    ),
    unit_resistance_p: formula(
      "ohm m",
      "unit_resistance_n / p_to_n_current",
      "switching resistance of a p-type device times its width",
      "cmosvlsi",
      { symbol: "R_p" },
    ),
    delay_consistency: formula(
      "1",
      "tau / (log(2) * unit_resistance_n * gate_capacitance * (1 + 1 / p_to_n_current))",
      "unit of delay over the one from resistance and gate capacitance",
      "this project",
      { note: "1 when the published delay, current and capacitance belong together" },
    ),
    unit_linear_resistance: formula(
      "ohm m",
      "drain_saturation_voltage / (2 * on_current)",
      "resistance of an n-type device at small drain voltage times its width",
      "dic",
      { note: "slope at zero of I = I_on (2 - V/V_D0) V/V_D0; exact for the square law" },
    ),
    thick_heat_ratio: formula(
      "1",
      "mobility_ratio * ((io_supply - thick_threshold_voltage - threshold_temperature_slope * " +
        "(temperature - reference_temperature)) / (io_supply - thick_threshold_voltage))^" +
        "drive_exponent",
      "on-current of a thick-oxide device at the temperature over the stated one",
      "alpha1990",
      { note: "far above its threshold; with the slope of the core device's threshold" },
    ),
    thick_unit_resistance: formula(
      "ohm m",
      "io_supply / (2 * log(2) * effective_current_share * thick_on_current * thick_heat_ratio)",
      "switching resistance of a thick-oxide n-type device times its width",
      "cmosvlsi",
    ),
    thick_drain_saturation_voltage: formula(
      "V",
      "drain_saturation_share * (io_supply - thick_threshold_voltage)",
      "drain voltage at which a thick-oxide device saturates",
      "dic",
    ),
    thick_unit_linear_resistance: formula(
      "ohm m",
      "thick_drain_saturation_voltage / (2 * thick_on_current * thick_heat_ratio)",
      "resistance of a thick-oxide device at small drain voltage times its width",
      "dic",
    ),
    transistor_area: formula(
      "m^2",
      "1 / (4 * gate_density)",
      "area of an average logic transistor",
      "common practice",
      { note: "a two-input gate has four transistors" },
    ),
    device_area_per_width: formula(
      "m",
      "contacted_gate_pitch * layout_width_ratio * device_layout_overhead",
      "layout area of a wide device per width",
      "common practice",
      { note: "folded into fingers, one per gate pitch" },
    ),
    thick_device_area_per_width: formula(
      "m",
      "thick_contacted_pitch * device_layout_overhead",
      "layout area of a wide thick-oxide device per width",
      "common practice",
    ),
    gate_width: formula(
      "m",
      "gate_width_multiple * minimum_width",
      "average n-type width in logic",
      "common practice",
    ),
    unit_gate_input_capacitance: formula(
      "F",
      "gate_capacitance * minimum_width * (1 + 1 / p_to_n_current)",
      "input capacitance of the minimum inverter",
      "logical-effort",
      { symbol: "C_{in}", note: "the p-type device is widened until both pull alike" },
    ),
    unit_gate_energy: formula(
      "J",
      "(gate_capacitance + drain_capacitance) * minimum_width * (1 + 1 / p_to_n_current) * " +
        "supply^2",
      "energy from the supply for one charge of the minimum inverter and its own drains",
      "dic",
      { symbol: "E_{in}" },
    ),
    transistor_leakage: formula(
      "W",
      "supply * standing_current * gate_width * (1 + 1 / p_to_n_current) / 4 * leakage_stack_share",
      "leakage power of an average logic transistor",
      "cmosvlsi",
      { note: "in an inverter one of the two devices is off, each half of the time" },
    ),
    leakage_power_per_width: formula(
      "W/m",
      "supply * standing_current",
      "leakage power per width of a device that is off",
      "cmosvlsi",
      { note: "a gate leaks through the device that is on beside it, too: counted in the current" },
    ),
    thick_leakage_power_per_width: formula(
      "W/m",
      "io_supply * thick_off_current * leakage_heat_ratio",
      "leakage power per width of a thick-oxide device that is off",
      "this project",
      { note: "with the temperature law of the core device" },
    ),
  },
});
