/** What brings the clock to the registers of a macro. */
import { given, part } from "../define.ts";
import { chain } from "../effort.ts";

/** The clock's wire and its drivers. The inverter at each flip-flop is counted with the flip-flop. */
export const clock = part({
  name: "clock",
  title: "Clock distribution",
  about:
    "A wire along the side of the macro at which the registers of address and data stand, and " +
    "one as long as a route to the banks, each of which has a gate on it. One chain of inverters " +
    "drives both. Charged whole in every access.",
  inputs: {
    way: { unit: "m", meaning: "length of a route to the banks" },
  },
  formulas: {
    registers: given("address_bits + 2 + 2 * word", "1", "flip-flops of the macro"),
    wire_capacitance: given(
      "route_wire_capacitance_per_length * (macro_side + way)",
      "F",
      "capacitance of the clock's wires",
    ),
    gates: given("banks * unit_gate_input_capacitance", "F", "load of the banks' gates"),
    load: given(
      "wire_capacitance + gates + registers * unit_gate_input_capacitance",
      "F",
      "whole load of the clock: each flip-flop has an inverter of its own on it",
      "cmosvlsi",
    ),
    ...chain({ name: "chain", load: "load" }),
    transistors: given("2 * chain_stages", "1", "transistors of the clock's drivers"),
    area: given(
      "max(chain_width * device_area_per_width * wide_layout_share, transistors * transistor_area)",
      "m^2",
      "area of the clock's drivers",
    ),
    leakage: given(
      "chain_width / 2 * leakage_power_per_width",
      "W",
      "leakage of the clock's drivers",
      "this project",
      "an inverter leaks through one of its two devices",
    ),
    read_energy: given(
      "(wire_capacitance + gates + chain_width * (gate_capacitance + drain_capacitance)) * " +
        "supply ^ 2",
      "J",
      "energy of one clock, inverters at the flip-flops apart: a clock rises once in an access",
      "cmosvlsi",
    ),
    write_energy: given("read_energy", "J", "energy of one clock"),
  },
});
