/** Wires between the banks and the edge of the macro, with repeaters. */
import { given, part } from "../define.ts";

/**
 * Best repeaters of a wire. Delays are half-crossings: tau is ln 2 R C of the smallest inverter.
 */
export const route = part({
  name: "route",
  title: "Routing to the banks",
  about:
    "A bus of address, data in and data out over a stated multiple of the macro's side, with " +
    "repeaters of a share of the fastest size, at a multiple of the fastest spacing. A wire " +
    "shorter than that has one driver, no larger than its own load asks for. Wires lie over " +
    "circuits except for a stated share.",
  formulas: {
    length: given("route_share * macro_side", "m", "length of a route"),
    bus_wires: given(
      "address_bits + 2 * coded_word",
      "1",
      "wires of the bus: address, data in, data out",
    ),
    unit_resistance: given(
      "tau / (log(2) * unit_gate_input_capacitance)",
      "ohm",
      "resistance of the smallest inverter",
      "logical-effort",
    ),
    fastest_segment: given(
      "sqrt(2 * unit_resistance * unit_gate_input_capacitance * (1 + inverter_parasitic) / " +
        "(route_wire_resistance_per_length * route_wire_capacitance_per_length))",
      "m",
      "distance of repeaters for the shortest delay",
      "cmosvlsi",
    ),
    fastest_size: given(
      "sqrt(unit_resistance * route_wire_capacitance_per_length / " +
        "(route_wire_resistance_per_length * unit_gate_input_capacitance))",
      "1",
      "size of a repeater for the shortest delay, in smallest inverters",
      "cmosvlsi",
    ),
    segment_length: given("repeater_spacing_share * fastest_segment", "m", "distance of repeaters"),
    repeater_size: given(
      "repeater_size_share * fastest_size",
      "1",
      "size of a repeater, in smallest inverters",
    ),
    delay_per_length: given(
      "log(2) * (unit_resistance * unit_gate_input_capacitance * (1 + inverter_parasitic) / " +
        "segment_length + unit_resistance * route_wire_capacitance_per_length / repeater_size + " +
        "route_wire_resistance_per_length * route_wire_capacitance_per_length * " +
        "segment_length / 2 " +
        "+ route_wire_resistance_per_length * unit_gate_input_capacitance * repeater_size)",
      "s/m",
      "delay per length of a wire with repeaters",
      "cmosvlsi",
      "Elmore sums times ln 2",
    ),
    repeaters_per_wire: given("max(1, ceil(length / segment_length))", "1", "repeaters of a wire"),
    driver_size: given(
      "repeaters_per_wire > 1 ? repeater_size : max(1, min(repeater_size, " +
        "route_wire_capacitance_per_length * length / (drive_effort * " +
        "unit_gate_input_capacitance)))",
      "1",
      "size of the gates that drive the wire, in smallest inverters",
      "logical-effort",
      "a short wire needs no more than any gate of its load would",
    ),
    short_delay: given(
      "log(2) * (unit_resistance * unit_gate_input_capacitance * inverter_parasitic + " +
        "unit_resistance / driver_size * route_wire_capacitance_per_length * length + " +
        "route_wire_resistance_per_length * route_wire_capacitance_per_length * length ^ 2 / 2)",
      "s",
      "delay of a wire without repeaters behind its driver",
      "cmosvlsi",
      "Elmore sum times ln 2",
    ),
    first_delay: given(
      "tau * (best_stage_effort + inverter_parasitic) * max(1, round(log(driver_size) " +
        "/ log(best_stage_effort)))",
      "s",
      "delay of the chain up to the first repeater",
      "logical-effort",
    ),
    first_transistors: given(
      "2 * max(1, round(log(driver_size) / log(best_stage_effort)))",
      "1",
      "transistors of the chain up to the first repeater of a wire",
      "logical-effort",
    ),
    transistors: given(
      "bus_wires * (2 * repeaters_per_wire + first_transistors)",
      "1",
      "transistors of all repeaters of the bus",
    ),
    width: given(
      "bus_wires * (repeaters_per_wire + 1 / (best_stage_effort - 1)) * driver_size * " +
        "unit_gate_input_capacitance / gate_capacitance",
      "m",
      "device widths of all repeaters",
    ),
    channel_area: given(
      "channel_share * bus_wires * (intermediate_wire_width + intermediate_wire_spacing) * length",
      "m^2",
      "area of wires that lie beside circuits",
    ),
    area: given(
      "width * device_area_per_width * wide_layout_share + channel_area",
      "m^2",
      "area of the routing",
    ),
    leakage: given(
      "width / 2 * leakage_power_per_width",
      "W",
      "leakage of all repeaters",
      "this project",
      "an inverter leaks through one of its two devices",
    ),
    wire_energy: given(
      "(route_wire_capacitance_per_length * length + width / bus_wires * (gate_capacitance + " +
        "drain_capacitance)) * supply ^ 2 / 2",
      "J",
      "mean energy of a change of one wire: a rise takes all of it, a fall nothing",
      "dic",
    ),
    read_energy: given(
      "(address_activity * address_bits + data_activity * coded_word) * wire_energy",
      "J",
      "energy of one read: address in, data out",
    ),
    write_energy: given("read_energy", "J", "energy of one write: address in, data in"),
    delay: given(
      "first_delay + (repeaters_per_wire > 1 ? length * delay_per_length : short_delay)",
      "s",
      "delay one way",
      "cmosvlsi",
    ),
  },
});
