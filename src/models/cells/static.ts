import type { Sheet } from "../../formulas/sheet.ts";
import { formula, model } from "../define.ts";
import { softened } from "../softened.ts";
import { cellDefaults } from "./defaults.ts";

/** Currents and loads that the static cells share. */
export const staticDevices = model({
  parameters: cellDefaults,
  name: "static_devices",
  title: "Devices of static cells",
  about:
    "The access device is as narrow as the technology allows, the driver wider by the cell " +
    "ratio. Memory devices have a higher threshold than fast logic: they carry and leak a " +
    "share of its current. Body effect and the rise of the inner node beyond the linear " +
    "region of the driver are left out.",
  formulas: {
    sram_6t_area: formula(
      "m^2",
      "sram_6t_cell_area > 0 ? sram_6t_cell_area : sram_half_pitch_squares * metal_half_pitch^2",
      "area of the 6T cell",
      "common practice",
      { note: "published for the node, or from its metal half pitch" },
    ),
    access_width: formula("m", "minimum_width", "width of the access device", "common practice"),
    driver_width: formula(
      "m",
      "sram_cell_ratio * access_width",
      "width of the pull-down device",
      "cmosvlsi",
    ),
    memory_threshold_shift: formula(
      "V",
      "-subthreshold_swing * log10(memory_off_ratio)",
      "threshold of memory devices beyond that of logic devices",
      "tm",
      { note: "what makes them leak less" },
    ),
    memory_overdrive: formula(
      "V",
      softened("(supply - threshold_at_supply - memory_threshold_shift)", "overdrive_scale"),
      "effective overdrive of memory devices",
      "charge1995",
    ),
    nominal_memory_overdrive: formula(
      "V",
      softened(
        "(nominal_supply - threshold_voltage - memory_threshold_shift)",
        "nominal_overdrive_scale",
      ),
      "the same at nominal supply and reference temperature",
      "charge1995",
    ),
    memory_drive_ratio: formula(
      "1",
      "mobility_ratio * (memory_overdrive / nominal_memory_overdrive)^drive_exponent",
      "on-current of memory devices over that at nominal supply",
      "alpha1990",
    ),
    memory_off_current: formula(
      "A/m",
      "memory_off_ratio * off_current",
      "off-current of memory devices per width",
      "common practice",
    ),
    access_saturation_current: formula(
      "A",
      "sram_current_share * nmos_on_current * memory_drive_ratio * access_width",
      "saturation current of the access device",
      "dic",
    ),
    read_stack_current: formula(
      "A",
      "access_saturation_current / (1 + access_saturation_current * unit_linear_resistance / " +
        "(sram_current_share * driver_width * memory_drive_ratio / drive_ratio * " +
        "max((nominal_supply - threshold_voltage) * memory_overdrive / nominal_memory_overdrive, " +
        "swing_at_temperature / log(10))))",
      "current through access and driver in series",
      "dic",
      {
        symbol: "I_{read}",
        note:
          "the access device loses gate drive by the rise of the inner node, of the overdrive, or " +
          "below threshold of the slope of its current; the driver is in its linear region",
      },
    ),
    cell_leak_current: formula(
      "A",
      "memory_off_current * (driver_width + access_width + access_width * p_to_n_current) + " +
        "fixed_current * (driver_width + access_width)",
      "leakage of the core: one driver, one access, one load device",
      "cmosvlsi",
      {
        note:
          "gates and junctions leak as those of logic do, since they share its oxide: the gate of " +
          "one driver, the junctions of an access device",
      },
    ),
    read_buffer_leak_current: formula(
      "A",
      "memory_off_current * access_width",
      "leakage of one read buffer that is off",
      "cmosvlsi",
    ),
    node_capacitance: formula(
      "F",
      "(gate_capacitance + drain_capacitance) * (driver_width + 2 * access_width)",
      "capacitance of one inner node",
      "cmosvlsi",
    ),
  },
});

interface Kind {
  readonly name: string;
  readonly title: string;
  readonly about: string;
  readonly transistors: number;
  readonly columns: number;
  readonly rows: number;
  /** Gates of the read row, buffers that leak, and column wires that move in a read. */
  readonly gates: number;
  readonly buffers: number;
}

function staticCell(kind: Kind): Sheet {
  return model({
    parameters: cellDefaults,
    name: kind.name,
    title: kind.title,
    about: kind.about,
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
        "sqrt(cell_area * sram_aspect)",
        "outline along the row",
        "common practice",
        { symbol: "w_c" },
      ),
      cell_height: formula(
        "m",
        "sqrt(cell_area / sram_aspect)",
        "outline along the column",
        "common practice",
        { symbol: "h_c" },
      ),
      cell_transistors: formula("1", `${kind.transistors}`, "transistors of the cell", "cmosvlsi"),
      cell_switches: formula("1", "0", "switches of the cell", "this project"),
      column_lines: formula("1", `${kind.columns}`, "column wires of the cell", "cmosvlsi"),
      row_lines: formula("1", `${kind.rows}`, "row wires of the cell", "cmosvlsi"),
      row_load: formula(
        "F",
        `${kind.gates} * gate_capacitance * access_width`,
        "load on the read row",
        "cmosvlsi",
      ),
      column_load: formula(
        "F",
        "drain_capacitance * access_width * shared_drain_share",
        "load on one column wire",
        "cmosvlsi",
        { note: "neighbours in a column share the contact" },
      ),
      row_swing: formula("V", "supply", "swing of the row in a read", "cmosvlsi"),
      write_row_swing: formula("V", "supply", "swing of the row in a write", "cmosvlsi"),
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
        "read_stack_current",
        "current of a cell that pulls its column down",
        "dic",
      ),
      cell_off_current: formula(
        "A",
        "read_buffer_leak_current",
        "current of a cell that does not pull",
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
        { note: "in the worst pattern all unselected cells leak against the signal" },
      ),
      read_static_current: formula(
        "A",
        "cell_on_current",
        "current of a sensed column",
        "cmosvlsi",
      ),
      cell_standby_power: formula(
        "W",
        `supply * (cell_leak_current + ${kind.buffers} * read_buffer_leak_current)`,
        "power that keeps the data",
        "cmosvlsi",
      ),
      write_current: formula("A", "access_saturation_current", "current at the driver", "dic", {
        note: "while the access device pulls the inner node over",
      }),
      write_voltage: formula("V", "supply", "voltage at the edge", "cmosvlsi"),
      write_time: formula(
        "s",
        "sram_flip_fan_outs * fan_out_delay * drive_ratio / memory_drive_ratio",
        "time to flip the cell",
        "common practice",
        { note: "with the devices of the cell, which a low supply slows more than those of logic" },
      ),
      write_cell_energy: formula(
        "J",
        "data_flip_share * 2 * node_capacitance * supply^2",
        "energy in the cell per written bit",
        "dic",
      ),
      refresh_power: formula("W", "0", "power of refresh", "this project", { note: "none" }),
      read_is_destructive: formula("1", "0", "1 where a read needs a write back", "this project"),
      erase_time: formula("s", "0", "time to erase a block", "this project", { note: "none" }),
    },
  });
}

export const static6t = staticCell({
  name: "cell_sram_6t",
  title: "Static cell of six transistors",
  about:
    "Two access devices on one row, a pair of columns; each inverter leaks through one " +
    "device, one access leaks.",
  transistors: 6,
  columns: 2,
  rows: 1,
  gates: 2,
  buffers: 0,
});

export const static8t = staticCell({
  name: "cell_sram_8t",
  title: "Static cell of eight transistors",
  about:
    "A 6T core with a read stack of its own: a write row and pair, a read row and one read " +
    "column, single-ended.",
  transistors: 8,
  columns: 3,
  rows: 2,
  gates: 1,
  buffers: 1,
});

export const static10t = staticCell({
  name: "cell_sram_10t",
  title: "Static cell of ten transistors",
  about:
    "A 6T core with a buffer of four transistors that isolates the read, single-ended, for " +
    "low supplies.",
  transistors: 10,
  columns: 3,
  rows: 2,
  gates: 1,
  buffers: 1,
});
