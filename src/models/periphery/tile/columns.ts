/** Between the columns and their amplifiers: multiplexers and precharge. */
import type { Sheet } from "../../../formulas/sheet.ts";
import { given, part } from "../define.ts";
import { chain } from "../effort.ts";
import { layoutArea, selectSwing } from "./layout.ts";

function multiplexer(raised: boolean): Sheet {
  const resistance = raised ? "thick_unit_resistance" : "unit_resistance_n";
  const gate = raised ? "thick_gate_capacitance" : "gate_capacitance";
  const layout = raised ? "thick_device_area_per_width" : "device_area_per_width";
  const linear = raised ? "thick_unit_linear_resistance" : "unit_linear_resistance";
  const leak = raised ? "thick_leakage_power_per_width" : "leakage_power_per_width";
  const slowness = raised ? "5 * thick_tau" : "fan_out_delay";
  return part({
    name: raised ? "raised_column_multiplexer" : "column_multiplexer",
    title: raised ? "Column multiplexer for a raised write voltage" : "Column multiplexer",
    about:
      "Pass switches from the columns that share a sense amplifier, wide enough for the write " +
      "current at a stated drop and for a column that settles within a stated number of " +
      "fan-out-of-four delays. One instance serves one sense amplifier and all wires of its " +
      "columns." +
      (raised
        ? " Thick-oxide devices; each select line has a level shifter (see column select)."
        : ""),
    formulas: {
      switched: given(
        "selected_columns > 1 ? 1 : 0",
        "1",
        "whether columns share an amplifier at all",
      ),
      wires: given("selected_columns * column_lines", "1", "column wires of one sense amplifier"),
      transistors: given(
        "switched * wires * column_switch_transistors",
        "1",
        "transistors of one multiplexer",
      ),
      write_width: given(
        `${linear} * write_current / (drop_share * max(supply, write_voltage))`,
        "m",
        "width that carries the write current",
        "dic",
      ),
      settle_width: given(
        `log(2) * ${resistance} * column_capacitance / (switch_fan_outs * ${slowness})`,
        "m",
        "width that moves the column within some fan-out-of-four delays of its own devices",
        "dic",
      ),
      switch_width: given(
        "max(gate_width, write_width, settle_width)",
        "m",
        "width of one transistor of a switch",
      ),
      width: given("transistors * switch_width", "m", "device widths of one multiplexer"),
      area: given(
        layoutArea("width", "transistors", layout, "pitch_layout_share"),
        "m^2",
        "area of one multiplexer",
      ),
      pitch: given(
        `max(1, ceil(${raised ? "thick_contacted_pitch" : "contacted_gate_pitch"} * ` +
          `column_switch_transistors / cell_width))`,
        "1",
        "switches that stand one behind another because columns are closer than devices",
      ),
      resistance: given(
        `switched * ${linear} / switch_width`,
        "ohm",
        "resistance of the switch in series with a column",
      ),
      node_capacitance: given(
        "switched * (selected_columns + 1) * switch_width * drain_capacitance",
        "F",
        "capacitance of the node that the columns share",
      ),
      select_capacitance: given(
        `switched * column_lines * column_switch_transistors * switch_width * ${gate}`,
        "F",
        "gate capacitance that one select line has to drive in one multiplexer",
      ),
      leakage: given(
        `width * ${leak} / 2`,
        "W",
        "leakage of one multiplexer",
        "this project",
        "open switches between lines that are held at one level leak half of what a gate does",
      ),
      read_energy: given(
        `select_capacitance * ${selectSwing("read", raised)} ^ 2`,
        "J",
        "energy of opening one column and closing another",
        "dic",
      ),
      write_energy: given(
        `select_capacitance * ${selectSwing("write", raised)} ^ 2`,
        "J",
        "energy of opening one column and closing another",
        "dic",
      ),
      delay: given(
        "log(2) * resistance * node_capacitance",
        "s",
        "delay of the switch into the shared node",
        "dic",
        "its share in the settling of the column is in the delay of the column line",
      ),
    },
  });
}

/** Pass switches of the columns of one sense amplifier, core devices. */
export const columnMultiplexer = multiplexer(false);
/** The same in thick-oxide devices, where the write voltage exceeds the core supply. */
export const raisedColumnMultiplexer = multiplexer(true);

/** The drivers of the multiplexers' select lines: one for each column address. */
function select(raised: boolean): Sheet {
  const gate = raised ? "thick_gate_capacitance" : "gate_capacitance";
  const layout = raised ? "thick_device_area_per_width" : "device_area_per_width";
  const leak = raised ? "thick_leakage_power_per_width" : "leakage_power_per_width";
  return part({
    name: raised ? "raised_column_select" : "column_select",
    title: raised ? "Column select driver with level shifter" : "Column select driver",
    about:
      "Drives one select line along all sense amplifiers of a tile. Its chain ends at the gates " +
      "of the switches and at the line; the energy of the gates is in the multiplexers.",
    inputs: {
      select_capacitance: { unit: "F", meaning: "gate capacitance of one multiplexer's select" },
    },
    formulas: {
      line_capacitance: given(
        "route_wire_capacitance_per_length * row_length",
        "F",
        "capacitance of the select line without gates",
      ),
      load: given(
        "line_capacitance + sense_amplifiers * select_capacitance",
        "F",
        "whole load of a select line",
      ),
      ...chain({ name: "chain", load: "load", thick: raised }),
      transistors: given(
        `2 * chain_stages${raised ? " + level_shifter_transistors" : ""}`,
        "1",
        "transistors of one select driver",
      ),
      area: given(
        layoutArea("chain_width", "transistors", layout, "wide_layout_share"),
        "m^2",
        "area of one select driver",
      ),
      leakage: given(
        `chain_width / 2 * ${leak}`,
        "W",
        "leakage of one select driver",
        "this project",
        "an inverter leaks through one of its two devices",
      ),
      read_energy: given(
        `(line_capacitance + chain_width * (${gate} + drain_capacitance)) * ` +
          `${selectSwing("read", raised)} ^ 2`,
        "J",
        "energy of the select line and its driver",
        "dic",
      ),
      write_energy: given(
        `(line_capacitance + chain_width * (${gate} + drain_capacitance)) * ` +
          `${selectSwing("write", raised)} ^ 2`,
        "J",
        "energy of the select line and its driver",
        "dic",
      ),
      delay: given(
        `chain_delay${raised ? " + level_shifter_effort * thick_tau" : ""} + ` +
          "route_wire_resistance_per_length * row_length * (0.377 * line_capacitance + log(2) * " +
          "sense_amplifiers * select_capacitance / 2)",
        "s",
        "delay of the select line to its far end",
        "wiring1983",
        "the gates are spread over the line, which counts them half",
      ),
    },
  });
}
export const columnSelect = select(false);
export const raisedColumnSelect = select(true);

/** Precharge of the wires of one cell column. */
export const precharge = part({
  name: "precharge",
  title: "Column precharge",
  about:
    "Pulls the wires of a column back to their level between reads, within a stated number of " +
    "fan-out-of-four delays. The charge of the columns themselves is not in it.",
  formulas: {
    transistors: given(
      "ceil(pull_up_transistors * column_lines / 2)",
      "1",
      "transistors that precharge one column: two wires share three",
      "cmosvlsi",
    ),
    device_width: given(
      "max(gate_width, log(2) * unit_resistance_n / p_to_n_current * column_capacitance * 3 / " +
        "(precharge_fan_outs * fan_out_delay))",
      "m",
      "width of one pull-up: three half-lives restore seven eighths of the swing",
      "dic",
    ),
    width: given("transistors * device_width", "m", "device widths of one column's precharge"),
    area: given(
      layoutArea("width", "transistors", "device_area_per_width", "pitch_layout_share"),
      "m^2",
      "area of one column's precharge",
    ),
    leakage: given("width * leakage_power_per_width / 2", "W", "leakage of one column's precharge"),
    read_energy: given(
      "width * gate_capacitance * supply ^ 2",
      "J",
      "energy of switching the precharge on and off",
      "dic",
    ),
    write_energy: given("read_energy", "J", "energy of switching the precharge on and off"),
    delay: given(
      "precharge_fan_outs * fan_out_delay",
      "s",
      "time of a precharge, which counts in the cycle and not in the latency",
    ),
  },
});
