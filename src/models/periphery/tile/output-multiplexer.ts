/** Behind the amplifiers of columns that each have one: the switches to the tile's data wires. */
import { given, part } from "../define.ts";
import { layoutArea } from "./layout.ts";

/** Pass devices from the amplifiers that share a pair of data wires. */
export const outputMultiplexer = part({
  name: "output_multiplexer",
  title: "Output multiplexer",
  about:
    "Where a read takes the charge of every cell of the row, each column has an amplifier that " +
    "restores it. A pass device at each side of the selected amplifier's latch leads to a pair " +
    "of data wires that lies along the columns which share it. The devices are as wide as the " +
    "latch's, which a write must overpower. One of the two wires falls in an access.",
  inputs: {
    latch_device_width: { unit: "m", meaning: "width of one device of the amplifier's latch" },
  },
  formulas: {
    transistors: given("2 * selected_columns", "1", "transistors of one multiplexer"),
    switch_width: given(
      "max(gate_width, latch_device_width)",
      "m",
      "width of one pass device",
      "dic",
    ),
    width: given("transistors * switch_width", "m", "device widths of one multiplexer"),
    area: given(
      layoutArea("width", "transistors", "device_area_per_width", "pitch_layout_share"),
      "m^2",
      "area of one multiplexer",
    ),
    node_capacitance: given(
      "selected_columns * switch_width * drain_capacitance + route_wire_capacitance_per_length * " +
        "row_length / data_ports",
      "F",
      "capacitance of one data wire",
      "dic",
    ),
    select_capacitance: given(
      "2 * switch_width * gate_capacitance",
      "F",
      "gate capacitance that one select line has to drive in one multiplexer",
    ),
    leakage: given(
      "width * leakage_power_per_width / 2",
      "W",
      "leakage of one multiplexer",
      "this project",
      "open switches between wires that are held at one level leak half of what a gate does",
    ),
    read_energy: given(
      "(select_capacitance + node_capacitance) * supply ^ 2",
      "J",
      "energy of opening one amplifier's switches and of the data wire that falls",
      "dic",
    ),
    write_energy: given("read_energy", "J", "energy of one access"),
    delay: given(
      "log(2) * unit_resistance_n * (1 / latch_device_width + 1 / switch_width) * node_capacitance",
      "s",
      "delay from the latch through the switch to the data wire",
      "dic",
    ),
  },
});
