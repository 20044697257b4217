/** Configured routing: the signal path through pass transistors or through switches. */
import { type Formulas, gateDelay, given, logicCosts, part } from "./define.ts";

const path = (resistance: string, load: string, growth: string): Formulas => ({
  series_resistance: given(resistance, "ohm", "resistance of one closed point", "dic"),
  point_load: given(load, "F", "load of one point on the wire behind it", "cmosvlsi"),
  wire_capacitance: given(
    `column_length * ${growth} * column_wire_capacitance_per_length`,
    "F",
    "capacitance of the wire behind the points",
  ),
  load: given("wire_capacitance + fan_in * point_load", "F", "capacitance behind the points"),
  delay: given(
    "log(2) * series_resistance * load",
    "s",
    "delay of the closed point into its wire",
    "dic",
  ),
  energy: given("data_activity / 2 * load * supply ^ 2", "J", "energy of one routed bit", "dic"),
});

const FAN_IN = { fan_in: { unit: "1", meaning: "points that can drive one wire" } };

/** A pass transistor held open by a configuration bit. */
export const passPath = part({
  name: "pass_path",
  title: "Signal path through pass transistors",
  about:
    "One n-type device of the average width of logic; all points of a wire load it with a drain.",
  inputs: { ...FAN_IN, addition_growth: { unit: "1", meaning: "length over the memory's" } },
  formulas: path(
    "unit_resistance_n / gate_width",
    "drain_capacitance * gate_width",
    "addition_growth",
  ),
});

/** A switch in the signal path. */
export const switchPath = part({
  name: "switch_path",
  title: "Signal path through a switch",
  about:
    "The signal runs through the on switch itself; all points of a wire load it with what a cell " +
    "hangs on its column. What the off switches let through is left out.",
  inputs: FAN_IN,
  formulas: path("on_resistance", "column_load", "1"),
});

/** Devices between a signal wire and what programs its switches. */
export const wireIsolation = part({
  name: "wire_isolation",
  title: "Isolation of a signal wire",
  about:
    "While switches are programmed, signals are parted from their wires and the program drivers " +
    "connected: thick-oxide devices that carry the write current.",
  formulas: {
    transistors: given("isolation_transistors", "1", "transistors on one wire", "general"),
    device_width: given(
      "max(thick_gate_length, thick_unit_linear_resistance * write_current / (drop_share * " +
        "write_voltage))",
      "m",
      "width of one device",
      "dic",
    ),
    area: given(
      "transistors * device_width * thick_device_area_per_width",
      "m^2",
      "area on one wire",
    ),
    energy: given("0", "J", "idle while signals run"),
  },
});

const buffer = (transistors: string, meaning: string) => ({
  transistors: given(transistors, "1", meaning),
  ...logicCosts("data_activity"),
  delay: given(gateDelay("2"), "s", "delay of two inverters", "logical-effort"),
});

/** The buffer behind a routed wire with full swing. */
export const signalBuffer = part({
  name: "signal_buffer",
  title: "Signal buffer",
  about: "Two inverters behind each routed wire.",
  formulas: buffer("signal_buffer_transistors", "transistors of one buffer"),
});

/** The buffer behind a pass transistor, which loses a threshold. */
export const restoringBuffer = part({
  name: "restoring_buffer",
  title: "Signal buffer with level restorer",
  about: "Two inverters and a device that pulls a degraded level to the supply.",
  formulas: buffer(
    "signal_buffer_transistors + level_restorer_transistors",
    "transistors of one buffer with its restorer",
  ),
});
