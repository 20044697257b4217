/**
 * Drivers of the lines of a crossbar without transistors in its cells: each row and column is
 * always held at a level.
 */
import type { Sheet } from "../../../formulas/sheet.ts";
import { given, part } from "../define.ts";
import { chain } from "../effort.ts";
import { layoutArea, selectSwing } from "./layout.ts";

export type BiasScheme = "floating" | "grounded" | "one-half" | "one-third";

/**
 * Levels that a line is switched to. A line has a full-current switch to each end of the write
 * voltage, because both
 * polarities are written; the other levels hold unselected lines.
 */
const LEVELS: Readonly<Record<BiasScheme, { levels: number; shifters: number; why: string }>> = {
  floating: { levels: 2, shifters: 1, why: "an unselected line has both switches open" },
  grounded: { levels: 2, shifters: 2, why: "an unselected line is held at the lower end" },
  "one-half": { levels: 4, shifters: 2, why: "both ends, the half level, and the read level" },
  "one-third": { levels: 4, shifters: 2, why: "both ends, and the two levels between them" },
};

function lineDriver(scheme: BiasScheme, raised: boolean): Sheet {
  const { levels, shifters, why } = LEVELS[scheme];
  const resistance = raised ? "thick_unit_linear_resistance" : "unit_linear_resistance";
  const leak = raised ? "thick_leakage_power_per_width" : "leakage_power_per_width";
  const gate = raised ? "thick_gate_capacitance" : "gate_capacitance";
  const layout = raised ? "thick_device_area_per_width" : "device_area_per_width";
  const pitch = raised ? "thick_contacted_pitch" : "contacted_gate_pitch";
  const shift = raised ? `${shifters} * level_shifter_transistors` : "0";
  const name = `${raised ? "raised_" : ""}line_driver_${scheme.replace("-", "_")}`;
  return part({
    name,
    title: `Line driver, ${scheme} scheme${raised ? ", with level shifters" : ""}`,
    about:
      `Switches from one row or column to ${levels} levels (${why}). Two transistors for each ` +
      `level: a ` +
      "complementary pair, so that it conducts at any voltage. Those to the ends of the write " +
      "voltage carry the line's current with a stated drop. The energy that charges the line is " +
      "not in it.",
    inputs: {
      line_current: { unit: "A", meaning: "current of the selected line in a write" },
      line_load: { unit: "F", meaning: "capacitance of the line" },
      line_pitch: { unit: "m", meaning: "pitch of the lines" },
    },
    formulas: {
      level_transistors: given(`2 * ${levels}`, "1", "transistors of the switches to the levels"),
      shifter_transistors: given(shift, "1", "transistors of the level shifters"),
      ...chain({ name: "chain", load: `${gate} * selected_width`, thick: raised }),
      chain_transistors: given(
        "2 * 2 * chain_stages",
        "1",
        "transistors of the chains that drive the gates of the two full-current switches",
      ),
      transistors: given(
        "level_transistors + shifter_transistors + chain_transistors",
        "1",
        "transistors of one line driver",
      ),
      switch_width: given(
        `max(gate_width, ${resistance} * line_current / (drop_share * write_voltage))`,
        "m",
        "width of the n-type device to an end of the write voltage",
        "dic",
      ),
      selected_width: given(
        "switch_width * (1 + 1 / p_to_n_current)",
        "m",
        "width of the complementary pair to an end of the write voltage",
      ),
      width: given(
        `selected_width * (2 + bias_switch_share * (${levels} - 2)) + 2 * chain_width`,
        "m",
        "device widths of one line driver",
      ),
      area: given(
        layoutArea(
          "width + shifter_transistors * thick_gate_length",
          "transistors",
          layout,
          "wide_layout_share",
        ),
        "m^2",
        "area of one line driver",
      ),
      pitch: given(
        `max(1, ceil(2 * ${pitch} / line_pitch))`,
        "1",
        "drivers that stand one behind another because the lines are closer than devices",
      ),
      leakage: given(
        `width * ${leak} / 2`,
        "W",
        "leakage of one line driver: half of its devices are off",
      ),
      read_energy: given(
        `width * (${gate} + drain_capacitance) * ${selectSwing("read", raised)} ^ 2`,
        "J",
        "energy of the driver's own capacitance, when its line is selected and released",
        "dic",
      ),
      write_energy: given(
        `width * (${gate} + drain_capacitance) * ${selectSwing("write", raised)} ^ 2`,
        "J",
        "energy of the driver's own capacitance, when its line is selected and released",
        "dic",
      ),
      resistance: given(
        `${resistance} / switch_width`,
        "ohm",
        "resistance between the line and its level",
      ),
      delay: given(
        `${raised ? "level_shifter_effort * thick_tau + " : ""}chain_delay + ` +
          "log(2) * resistance * line_load",
        "s",
        "delay until the line is at half of its swing, its own resistance left out",
        "wiring1983",
      ),
    },
  });
}

const HELD: Readonly<Record<BiasScheme, { levels: number; why: string }>> = {
  floating: { levels: 1, why: "the level to which columns return between accesses" },
  grounded: { levels: 1, why: "the level of an unselected column" },
  "one-half": { levels: 2, why: "the half level, and the level between accesses" },
  "one-third": {
    levels: 2,
    why: "the level of an unselected column, and the level between accesses",
  },
};

function columnBias(scheme: BiasScheme, raised: boolean): Sheet {
  const { levels, why } = HELD[scheme];
  const resistance = raised ? "thick_unit_linear_resistance" : "unit_linear_resistance";
  const leak = raised ? "thick_leakage_power_per_width" : "leakage_power_per_width";
  const gate = raised ? "thick_gate_capacitance" : "gate_capacitance";
  const layout = raised ? "thick_device_area_per_width" : "device_area_per_width";
  const pitch = raised ? "thick_contacted_pitch" : "contacted_gate_pitch";
  return part({
    name: `${raised ? "raised_" : ""}column_bias_${scheme.replace("-", "_")}`,
    title: `Column bias switches, ${scheme} scheme${raised ? ", raised voltage" : ""}`,
    about:
      `Holds an unselected column: ${why}. Complementary pairs, switched by the select lines ` +
      `against the multiplexer, ` +
      "so that they need no driver of their own; the selected column is driven through the " +
      "multiplexer.",
    formulas: {
      transistors: given(
        `2 * ${levels}`,
        "1",
        "transistors of the bias switches of one column wire",
      ),
      switch_width: given(
        `max(gate_width, bias_switch_share * ${resistance} * write_current / (drop_share * ` +
          `write_voltage))`,
        "m",
        "width of the n-type device of a switch",
        "dic",
      ),
      width: given(
        `${levels} * switch_width * (1 + 1 / p_to_n_current)`,
        "m",
        "device widths of one column's switches",
      ),
      area: given(
        layoutArea("width", "transistors", layout, "pitch_layout_share"),
        "m^2",
        "area of one column's switches",
      ),
      pitch: given(
        `max(1, ceil(2 * ${pitch} / cell_width))`,
        "1",
        "switches that stand one behind another because columns are closer than devices",
      ),
      leakage: given(`width * ${leak} / 2`, "W", "leakage of one column's switches"),
      read_energy: given(
        `width * (${gate} + drain_capacitance) * ${selectSwing("read", raised)} ^ 2`,
        "J",
        "energy when the column is selected and released",
        "dic",
      ),
      write_energy: given(
        `width * (${gate} + drain_capacitance) * ${selectSwing("write", raised)} ^ 2`,
        "J",
        "energy when the column is selected and released",
        "dic",
      ),
      resistance: given(
        `${resistance} / switch_width`,
        "ohm",
        "resistance between a column and its level",
      ),
      delay: given(
        "log(2) * resistance * column_capacitance",
        "s",
        "delay until an unselected column is at half of its swing, its own resistance left out",
        "wiring1983",
      ),
    },
  });
}

const built = new Map<string, Sheet>();

function once(key: string, make: () => Sheet): Sheet {
  const made = built.get(key) ?? make();
  built.set(key, made);
  return made;
}

/** The driver of one line. `raised`: the write voltage exceeds the core supply. */
export function lineDriverFor(scheme: BiasScheme, raised: boolean): Sheet {
  return once(`driver ${scheme} ${raised}`, () => lineDriver(scheme, raised));
}

/** What holds one unselected column. */
export function columnBiasFor(scheme: BiasScheme, raised: boolean): Sheet {
  return once(`bias ${scheme} ${raised}`, () => columnBias(scheme, raised));
}

/** The current of a selected row in a write. Instantiated once, without a prefix, for crossbars. */
export const lineCurrents = part({
  name: "line_currents",
  title: "Current of the selected row",
  about:
    "A selected row carries the current of all its cells that are written at once, and once " +
    "the current of the half-selected junctions along it, however many cells are written.",
  formulas: {
    row_write_current: given(
      "switch_write_current * row_cells_written + write_leak_current",
      "A",
      "current of a selected row in a write",
    ),
    shared_write_current: given(
      "row_write_current / row_cells_written",
      "A",
      "current of a selected row for each cell that is written on it",
    ),
  },
});
