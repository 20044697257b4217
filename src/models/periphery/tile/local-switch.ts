/** Lines of crossbars whose levels come by main lines that tiles share. */
import type { Sheet } from "../../../formulas/sheet.ts";
import { given, part } from "../define.ts";
import { layoutArea, selectSwing } from "./layout.ts";

/** The switches of one line of a tile whose lines are divided: the main lines bring the levels. */
function localSwitch(raised: boolean): Sheet {
  const resistance = raised ? "thick_unit_linear_resistance" : "unit_linear_resistance";
  const leak = raised ? "thick_leakage_power_per_width" : "leakage_power_per_width";
  const gate = raised ? "thick_gate_capacitance" : "gate_capacitance";
  const layout = raised ? "thick_device_area_per_width" : "device_area_per_width";
  return part({
    name: `${raised ? "raised_" : ""}local_line_switch`,
    title: `Local line switch${raised ? ", raised voltage" : ""}`,
    about:
      "Two n-type devices with boosted gates between a line of a crossbar and lines that tiles " +
      "share: one to the level of the selected line, which carries its current at a stated drop, " +
      "one to the level of unselected lines. The levels themselves are switched once for a row of " +
      "tiles.",
    inputs: {
      line_current: { unit: "A", meaning: "current of the selected line in a write" },
      line_load: { unit: "F", meaning: "capacitance of the line" },
    },
    formulas: {
      transistors: given("2", "1", "transistors of one line"),
      switch_width: given(
        `max(gate_width, ${resistance} * line_current / (drop_share * write_voltage))`,
        "m",
        "width of the device to the level of the selected line",
        "dic",
      ),
      width: given(
        "switch_width * (1 + bias_switch_share)",
        "m",
        "device widths of one line's switches",
      ),
      load: given(`width * ${gate}`, "F", "load on the main line that opens them"),
      area: given(
        layoutArea("width", "transistors", layout, "wide_layout_share"),
        "m^2",
        "area of one line's switches",
      ),
      leakage: given(`width * ${leak} / 2`, "W", "leakage of one line's switches"),
      read_energy: given(
        `width * (${gate} + drain_capacitance) * ${selectSwing("read", raised)} ^ 2`,
        "J",
        "energy of the switches when their line is selected and released",
        "dic",
      ),
      write_energy: given(
        `width * (${gate} + drain_capacitance) * ${selectSwing("write", raised)} ^ 2`,
        "J",
        "energy of the switches when their line is selected and released",
        "dic",
      ),
      resistance: given(
        `${resistance} / switch_width`,
        "ohm",
        "resistance between the line and the level of the selected one",
      ),
      delay: given(
        "log(2) * resistance * line_load",
        "s",
        "delay until the line is at half of its swing, its own resistance left out",
        "wiring1983",
      ),
    },
  });
}

const PLAIN = localSwitch(false);
const RAISED = localSwitch(true);

/** The switches of one line where main lines bring its levels. */
export function localSwitchFor(raised: boolean): Sheet {
  return raised ? RAISED : PLAIN;
}
