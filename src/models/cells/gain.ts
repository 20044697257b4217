import type { Sheet } from "../../formulas/sheet.ts";
import { formula, model } from "../define.ts";
import { cellDefaults } from "./defaults.ts";

function gainCell(transistors: 2 | 3): Sheet {
  const three = transistors === 3;
  return model({
    parameters: cellDefaults,
    name: `cell_gain_${transistors}t`,
    title: three ? "Gain cell of three transistors" : "Gain cell of two transistors",
    about:
      "Charge on a gate, read through that gate without destroying it, written through a " +
      "device of low leakage. Write and read have a row and a column each. The stored one has " +
      "lost half of its gate drive at the end of retention. The area is a share of the 6T " +
      "cell under similar rules.",
    formulas: {
      cell_area: formula(
        "m^2",
        "cell_area_to_sram_6t * sram_6t_area",
        "area of the cell",
        "common practice",
        { symbol: "A_c" },
      ),
      cell_width: formula(
        "m",
        "sqrt(cell_area * dynamic_aspect)",
        "outline along the row",
        "common practice",
      ),
      cell_height: formula(
        "m",
        "sqrt(cell_area / dynamic_aspect)",
        "outline along the column",
        "common practice",
      ),
      cell_transistors: formula(
        "1",
        `${transistors}`,
        "transistors of the cell",
        three ? "gain16" : "gain130",
      ),
      cell_switches: formula("1", "0", "switches of the cell"),
      column_lines: formula("1", "2", "column wires of the cell", "common practice"),
      row_lines: formula("1", "2", "row wires of the cell", "common practice"),
      row_load: formula(
        "F",
        three ? "gate_capacitance * access_width" : "drain_capacitance * access_width",
        "load on the read row",
        "cmosvlsi",
        { note: three ? "gate of the read select" : "source of the storage device" },
      ),
      column_load: formula(
        "F",
        "drain_capacitance * access_width * shared_drain_share",
        "load on one column wire",
        "cmosvlsi",
      ),
      row_swing: formula("V", "supply", "swing of the row in a read", "cmosvlsi"),
      write_row_swing: formula(
        "V",
        "dynamic_boost * supply",
        "swing of the row in a write",
        "common practice",
        { note: "boosted, so that the whole level is stored" },
      ),
      column_swing: formula(
        "V",
        "bitline_swing",
        "by how much a column moves in a read",
        "cmosvlsi",
      ),
      write_column_swing: formula(
        "V",
        "supply",
        "by how much a column moves in a write",
        "cmosvlsi",
      ),
      cell_on_current: formula(
        "A",
        `gain_end_drive * ${three ? "read_stack_current" : "access_saturation_current"}`,
        "current of a stored one at the end of retention",
        "this project",
      ),
      cell_off_current: formula(
        "A",
        "read_buffer_leak_current",
        "current of a stored zero",
        "cmosvlsi",
      ),
      column_leak_current: formula(
        "A",
        "(rows - 1) * read_buffer_leak_current",
        "current of the unselected cells of a column",
        "cmosvlsi",
      ),
      signal_current: formula(
        "A",
        "cell_on_current - cell_off_current - column_leak_current",
        "difference that the sense amplifier can use",
        "cmosvlsi",
      ),
      read_static_current: formula(
        "A",
        "cell_on_current",
        "current of a sensed column",
        "cmosvlsi",
      ),
      cell_standby_power: formula(
        "W",
        "supply * read_buffer_leak_current",
        "leakage of the read path",
        "cmosvlsi",
        { note: "refresh comes on top" },
      ),
      write_current: formula("A", "access_saturation_current", "current at the driver", "dic"),
      write_voltage: formula("V", "supply", "voltage of the columns while a cell is written"),
      write_time: formula(
        "s",
        "3 * unit_resistance_n / access_width * storage_node_capacitance",
        "time to charge the storage node",
        "dic",
        { note: "three time constants" },
      ),
      storage_node_capacitance: formula(
        "F",
        "storage_gate_multiple * gate_capacitance * access_width",
        "capacitance of the storage node",
        "common practice",
      ),
      write_cell_energy: formula(
        "J",
        "data_flip_share * storage_node_capacitance * supply^2",
        "energy in the cell per written bit",
        "dic",
      ),
      stored_energy: formula(
        "J",
        "storage_node_capacitance * supply^2",
        "energy that recharges the cell",
        "dic",
      ),
      restore_swing: formula(
        "V",
        "bitline_swing + data_flip_share * supply",
        "read swing and write swing of a refresh",
        "this project",
        { note: "read column and write column move one after the other" },
      ),
      read_is_destructive: formula("1", "0", "1 where a read needs a write back"),
      erase_time: formula("s", "0", "time to erase a block", "this project", { note: "none" }),
    },
  });
}

export const gain2t = gainCell(2);
export const gain3t = gainCell(3);
