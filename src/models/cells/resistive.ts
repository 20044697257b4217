import type { FormulaDefinition, Sheet } from "../../formulas/sheet.ts";
import { formula, model } from "../define.ts";
import { cellDefaults } from "./defaults.ts";

const none = { note: "by what the cell is" };

/** What all resistive cells share. `{voltage}` is the voltage at the driver during the pulse. */
const energy = (voltage: string) =>
  `${voltage} * (set_current * set_time + reset_current * reset_time) / 2` +
  " * write_pulses / bits_per_cell";

/** What a kind of cell says otherwise than the one-transistor cell. */
interface Otherwise {
  readonly name: string;
  readonly title: string;
  readonly about: string;
  readonly formulas: Readonly<Record<string, FormulaDefinition>>;
}

/** @param otherwise of a cell whose write does not go through its transistor */
export function transistorCell(count: 1 | 2, otherwise?: Otherwise): Sheet {
  const n = String(count);
  return model({
    parameters: cellDefaults,
    name: count === 1 ? "cell_resistive_transistor" : "cell_resistive_pair",
    title: count === 1 ? "One transistor and one switch" : "Two transistors and two switches",
    ...otherwise,
    about:
      (otherwise?.about ?? "") +
      (count === 1
        ? "The gate is on the row, the switch between drain and column; a shared source line. "
        : "Two one-transistor cells side by side, read or searched against each other. ") +
      "The column has the read voltage across switch and transistor. Unselected cells are " +
      "off; their leakage is that of their transistors. Nothing is powered between accesses.",
    formulas: {
      cell_width: formula(
        "m",
        `${n} * access_cell_width`,
        "outline along the row",
        "this project",
        { symbol: "w_c" },
      ),
      cell_height: formula("m", "access_cell_height", "outline along the column", "this project", {
        symbol: "h_c",
      }),
      cell_area: formula("m^2", "cell_width * cell_height", "area of the cell", "this project", {
        symbol: "A_c",
      }),
      cell_transistors: formula("1", `${n}`, "transistors of the cell", "this project", none),
      cell_switches: formula("1", `${n}`, "switches of the cell", "this project", none),
      column_lines: formula(
        "1",
        `${n}`,
        "column wires of the cell that are driven and sensed",
        "this project",
        none,
      ),
      row_lines: formula("1", "1", "row wires of the cell", "this project", none),
      row_load: formula("F", `${n} * access_gate_load`, "load on the row wire", "cmosvlsi"),
      column_load: formula("F", "access_drain_load", "load on one column wire", "cmosvlsi"),
      row_swing: formula("V", "access_gate_voltage", "swing of the row in a read"),
      write_row_swing: formula("V", "access_write_gate_voltage", "swing of the row in a write"),
      column_swing: formula("V", "read_voltage", "by how much the column moves in a read"),
      write_column_swing: formula("V", "write_voltage", "by how much the column moves in a write"),
      cell_on_current: formula(
        "A",
        "read_voltage / (on_resistance + access_resistance)",
        "current of the selected cell, on",
        "dic",
        { symbol: "I_{on}" },
      ),
      cell_off_current: formula(
        "A",
        "read_voltage / (off_resistance + access_resistance)",
        "current of the selected cell, off",
        "dic",
        { symbol: "I_{off}" },
      ),
      column_leak_current: formula(
        "A",
        "(rows - 1) * min(access_off_current, read_voltage / on_resistance)",
        "current of the unselected cells of a column",
      ),
      signal_current: formula(
        "A",
        "cell_on_current - cell_off_current",
        "difference that the sense amplifier can use",
        "this project",
        {
          note:
            "the leak of unselected cells depends on what they store through a transistor " +
            "that is off: equal for both states",
        },
      ),
      read_static_current: formula(
        "A",
        "(cell_on_current + cell_off_current) / 2 + column_leak_current",
        "mean current of a sensed column",
      ),
      cell_standby_power: formula("W", "0", "power that keeps the data", "this project", {
        note: "none",
      }),
      write_current: formula("A", "switch_write_current", "current at the driver"),
      write_voltage: formula(
        "V",
        "max(set_voltage, reset_voltage) + access_drop + write_current * column_resistance * " +
          "write_path_lines",
        "largest voltage at the edge, for the far cell",
      ),
      write_time: formula("s", "switch_write_time", "pulses of one write"),
      write_cell_energy: formula(
        "J",
        energy("write_voltage"),
        "energy in the cell per written bit",
        "this project",
        {
          note:
            "mean of set and reset, each with its whole current for the whole pulse: an upper " +
            "bound",
        },
      ),
      refresh_power: formula("W", "0", "power of refresh", "this project", { note: "none" }),
      read_is_destructive: formula(
        "1",
        "0",
        "1 where a read needs a write back",
        "this project",
        none,
      ),
      erase_time: formula("s", "0", "time to erase a block", "this project", { note: "none" }),
      ...otherwise?.formulas,
    },
  });
}

export const resistiveTransistorCell = transistorCell(1);
export const resistivePairCell = transistorCell(2);

function crosspoint(pair: boolean): Sheet {
  return model({
    parameters: cellDefaults,
    name: pair ? "cell_complementary" : "cell_crosspoint",
    title: pair
      ? "Two switches back to back at each crossing"
      : "Switch and selector at each crossing",
    about:
      "Two half pitches each way; stacked crossbars share the area. Currents come from the " +
      "crossbar's model and are those of the far corner in the worst pattern. All lines rest " +
      "at zero between accesses.",
    formulas: {
      cell_width: formula("m", "2 * feature", "outline along the row", "common practice", {
        symbol: "w_c",
      }),
      cell_height: formula("m", "2 * feature", "outline along the column", "common practice", {
        symbol: "h_c",
      }),
      cell_area: formula(
        "m^2",
        "cell_width * cell_height / decks",
        "area of the cell, its share of the stack",
        "common practice",
        { symbol: "A_c" },
      ),
      cell_transistors: formula("1", "0", "transistors of the cell", "this project", none),
      cell_switches: formula("1", pair ? "2" : "1", "switches of the cell", "this project", none),
      column_lines: formula("1", "1", "column wires of the cell", "this project", none),
      row_lines: formula("1", "1", "row wires of the cell", "this project", none),
      row_load: formula(
        "F",
        pair ? "junction_capacitance / 2" : "junction_capacitance",
        "load on the row wire",
        "dic",
      ),
      column_load: formula("F", "row_load", "load on the column wire", "dic"),
      row_swing: formula("V", "array_read_voltage", "swing of the selected row in a read"),
      write_row_swing: formula("V", "write_voltage", "swing of the selected row in a write"),
      column_swing: formula(
        "V",
        "column_bias_share * array_read_voltage",
        "by how much an unselected column moves in a read",
      ),
      write_column_swing: formula(
        "V",
        "max(write_column_bias_share, 1 / 2) * write_voltage",
        "by how much a column moves in a write",
        "this project",
        {
          note:
            "in the opposite polarity the column takes the row's place: half of the pulses " +
            "move it whole",
        },
      ),
      signal_current: formula(
        "A",
        "read_margin_current",
        "difference that the sense amplifier can use",
      ),
      read_static_current: formula(
        "A",
        "(cell_on_current + cell_off_current) / 2 + column_leak_current",
        "current of a sensed column",
      ),
      cell_standby_power: formula("W", "0", "power that keeps the data", "this project", {
        note: "none",
      }),
      write_current: formula(
        "A",
        "switch_write_current + write_leak_current",
        "current at the driver of the row",
      ),
      write_voltage: formula(
        "V",
        "array_write_voltage + write_line_drop",
        "voltage at the edge that gives the far corner what it needs",
      ),
      write_time: formula(
        "s",
        "switch_write_time + selector_delay * write_pulses",
        "pulses of one write",
      ),
      write_cell_energy: formula(
        "J",
        energy("write_voltage"),
        "energy in the cell per written bit",
        "this project",
        {
          note:
            "mean of set and reset, each with its whole current for the whole pulse: an upper " +
            "bound",
        },
      ),
      refresh_power: formula("W", "0", "power of refresh", "this project", { note: "none" }),
      read_is_destructive: formula(
        "1",
        pair ? "1" : "0",
        "1 where a read needs a write back",
        "this project",
        none,
      ),
      erase_time: formula("s", "0", "time to erase a block", "this project", { note: "none" }),
    },
  });
}

export const crosspointCell = crosspoint(false);
export const complementaryCell = crosspoint(true);
