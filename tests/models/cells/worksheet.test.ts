// What a cell hangs on its lines, draws, keeps and costs, worked out from its devices.
import { describe, expect, test } from "vitest";
import type { Sheet } from "../../../src/formulas/sheet.ts";
import { cells, crosspointCellModel } from "../../../src/models/registry.ts";
import { oddValues, type Values } from "../odd.ts";
import { expectPaper } from "../periphery/worksheet/paper.ts";

const all = [
  ...Object.values(cells),
  crosspointCellModel("none", { read: "one-half", write: "one-half" }),
  crosspointCellModel("complementary", { read: "one-half", write: "one-half" }),
];
const sheets = new Map(
  all.flatMap(({ instances }) => instances.map(({ of }) => [of.name, of as Sheet] as const)),
);
const of = (name: string, given: Values = {}) =>
  oddValues(sheets.get(name)!, { rows: 130, columns: 70, bits_per_cell: 2, decks: 3, ...given });

/** A cell of a stated area, so many times as wide as high. */
const sides = (area: number, aspect: number) => ({
  cell_area: area,
  cell_width: Math.sqrt(area * aspect),
  cell_height: Math.sqrt(area / aspect),
});

const NOTHING = { refresh_power: 0, erase_time: 0, read_is_destructive: 0 };

describe("static cells", () => {
  const KINDS = [
    ["cell_sram_6t", 6, 2, 1, 2, 0],
    ["cell_sram_8t", 8, 3, 2, 1, 1],
    ["cell_sram_10t", 10, 3, 2, 1, 1],
  ] as const;
  test.each(KINDS)(
    "%s: %i devices on %i columns",
    (name, devices, columns, rows, gates, buffers) => {
      const v = of(name);
      const leak = v["cell_leak_current"]! + buffers * v["read_buffer_leak_current"]!;
      const neighbours = 129 * v["read_buffer_leak_current"]!;
      expectPaper(v, {
        ...NOTHING,
        ...sides(v["cell_area_to_sram_6t"]! * v["sram_6t_area"]!, v["sram_aspect"]!),
        cell_transistors: devices,
        cell_switches: 0,
        column_lines: columns,
        row_lines: rows,
        row_load: gates * v["gate_capacitance"]! * v["access_width"]!,
        column_load: v["access_width"]! * v["drain_capacitance"]! * v["shared_drain_share"]!,
        row_swing: v["supply"]!,
        column_swing: v["bitline_swing"]!,
        write_row_swing: v["supply"]!,
        write_column_swing: v["supply"]!,
        write_voltage: v["supply"]!,
        write_current: v["access_saturation_current"]!,
        cell_on_current: v["read_stack_current"]!,
        cell_off_current: v["read_buffer_leak_current"]!,
        column_leak_current: neighbours,
        signal_current: v["read_stack_current"]! - v["read_buffer_leak_current"]! - neighbours,
        read_static_current: v["read_stack_current"]!,
        cell_standby_power: v["supply"]! * leak,
        // A flip moves both inner nodes.
        write_cell_energy: v["data_flip_share"]! * 2 * v["node_capacitance"]! * v["supply"]! ** 2,
        write_time:
          (v["sram_flip_fan_outs"]! * v["fan_out_delay"]! * v["drive_ratio"]!) /
          v["memory_drive_ratio"]!,
      });
    },
  );

  test.each([0, 0.5e-12])(
    "their devices: slow ones, by the area of %f or the half pitch",
    (stated) => {
      for (const supply of [1.1, 0.35]) {
        const v = of("static_devices", {
          supply,
          nominal_supply: 1.05,
          threshold_voltage: 0.31,
          threshold_at_supply: 0.34,
          memory_off_ratio: 0.07,
          subthreshold_swing: 0.087,
          overdrive_scale: 0.05,
          nominal_overdrive_scale: 0.06,
          swing_at_temperature: 0.09,
          sram_6t_cell_area: stated,
        });
        // Fewer decades of leakage are so many swings of threshold.
        const shift = 0.087 * Math.log10(1 / 0.07);
        const fade = (x: number, s: number) => s * Math.log(1 + Math.exp(x / s));
        const over = fade(supply - 0.34 - shift, 0.05);
        const nominal = fade(1.05 - 0.31 - shift, 0.06);
        const drive = v["mobility_ratio"]! * (over / nominal) ** v["drive_exponent"]!;
        const access = v["minimum_width"]!;
        const driver = v["sram_cell_ratio"]! * access;
        const saturated = v["sram_current_share"]! * v["nmos_on_current"]! * drive * access;
        // The driver below, linear at the current's own rise of the node: its resistance times the overdrive.
        const share = v["sram_current_share"]! * drive * driver;
        const above = Math.max(((1.05 - 0.31) * over) / nominal, 0.09 / Math.LN10);
        const drop = (saturated * v["unit_linear_resistance"]! * v["drive_ratio"]!) / share;
        const off = v["memory_off_ratio"]! * v["off_current"]!;
        const leaks = driver + access + v["p_to_n_current"]! * access;
        expectPaper(v, {
          access_width: access,
          driver_width: driver,
          memory_drive_ratio: drive,
          access_saturation_current: saturated,
          read_stack_current: saturated / (1 + drop / above),
          read_buffer_leak_current: off * access,
          cell_leak_current: off * leaks + v["fixed_current"]! * (driver + access),
          // Each inner node has a driver, a load and an access device.
          node_capacitance:
            (v["gate_capacitance"]! + v["drain_capacitance"]!) * (driver + access + access),
          sram_6t_area: stated || v["sram_half_pitch_squares"]! * v["metal_half_pitch"]! ** 2,
        });
      }
    },
  );
});

describe("cells that keep charge", () => {
  test.each(["cell_dram", "cell_embedded_dram"])(
    "%s: a capacitor shares its charge with a column",
    (name) => {
      const v = of(name, {
        feature: 51e-9,
        cell_area_in_feature_squared: 6.3,
        storage_capacitance: 21e-15,
      });
      const memory = name === "cell_dram";
      const width = memory ? 51e-9 : v["minimum_width"]!;
      const area = memory ? 6.3 * 51e-9 ** 2 : v["cell_area_to_sram_6t"]! * v["sram_6t_area"]!;
      const r = (v["dynamic_resistance_ratio"]! * v["unit_resistance_n"]!) / width;
      const [cs, cb] = [21e-15, v["column_capacitance"]!];
      const half = v["supply"]! / 2;
      // Nine tenths of what the two capacitors in series let flow.
      const time = Math.log(10) * r * (1 / (1 / cs + 1 / cb));
      const signal = half * (cs / (cs + cb));
      expectPaper(v, {
        ...sides(area, v["dynamic_aspect"]!),
        cell_transistors: 1,
        cell_switches: 0,
        erase_time: 0,
        read_is_destructive: 1,
        cell_standby_power: 0,
        read_static_current: 0,
        column_lines: 1,
        row_lines: 1,
        row_load: v["gate_capacitance"]! * width,
        column_load: v["drain_capacitance"]! * width * v["shared_drain_share"]!,
        row_swing: v["dynamic_boost"]! * v["supply"]!,
        write_row_swing: v["dynamic_boost"]! * v["supply"]!,
        column_swing: half,
        write_column_swing: half,
        restore_swing: half,
        write_voltage: v["supply"]!,
        cell_on_current: (signal * cb) / time,
        signal_current: (signal * cb) / time,
        cell_off_current: 0,
        // Each neighbour loses half of its charge in its retention.
        column_leak_current: (129 * (cs * half)) / v["retention_time"]!,
        write_current: half / r,
        write_time: 3 * r * cs,
        write_cell_energy: v["data_flip_share"]! * cs * v["supply"]! ** 2,
        stored_energy: (cs * v["supply"]! ** 2) / 2,
      });
    },
  );

  test.each([
    ["cell_gain_2t", 2],
    ["cell_gain_3t", 3],
  ] as const)("%s: a gate keeps the charge", (name, devices) => {
    const v = of(name);
    const three = devices === 3;
    const kept = v["storage_gate_multiple"]! * v["gate_capacitance"]! * v["access_width"]!;
    const current =
      v["gain_end_drive"]! * (three ? v["read_stack_current"]! : v["access_saturation_current"]!);
    const leak = v["read_buffer_leak_current"]!;
    const v2 = v["supply"]! ** 2;
    expectPaper(v, {
      ...sides(v["cell_area_to_sram_6t"]! * v["sram_6t_area"]!, v["dynamic_aspect"]!),
      cell_transistors: devices,
      cell_switches: 0,
      erase_time: 0,
      read_is_destructive: 0,
      column_lines: 2,
      row_lines: 2,
      // Two devices read from the end of the one that keeps, three through a gate.
      row_load: (three ? v["gate_capacitance"]! : v["drain_capacitance"]!) * v["access_width"]!,
      column_load: v["drain_capacitance"]! * v["access_width"]! * v["shared_drain_share"]!,
      row_swing: v["supply"]!,
      write_row_swing: v["dynamic_boost"]! * v["supply"]!,
      column_swing: v["bitline_swing"]!,
      write_column_swing: v["supply"]!,
      write_voltage: v["supply"]!,
      write_current: v["access_saturation_current"]!,
      write_time: (3 * v["unit_resistance_n"]! * kept) / v["access_width"]!,
      write_cell_energy: v["data_flip_share"]! * kept * v2,
      stored_energy: kept * v2,
      cell_on_current: current,
      cell_off_current: leak,
      column_leak_current: 129 * leak,
      signal_current: current - 130 * leak,
      read_static_current: current,
      cell_standby_power: v["supply"]! * leak,
      restore_swing: v["bitline_swing"]! + v["data_flip_share"]! * v["supply"]!,
    });
  });

  test("a refresh restores a column, its part of a row, and the charge; heat halves the time for it", () => {
    const v = of("refresh", { leakage_doubling: 10, retention_temperature: 358, temperature: 378 });
    const energy =
      v["column_capacitance"]! * v["supply"]! * v["restore_swing"]! +
      (v["row_capacitance"]! * v["write_row_swing"]! ** 2) / 70 +
      v["stored_energy"]!;
    // 20 K are two doublings.
    const time = v["retention_time"]! / 4;
    expectPaper(v, {
      retention_at_temperature: time,
      refresh_energy: energy,
      refresh_power: energy / time,
    });
  });

  test("a floating gate: charge over the tunnel oxide, written by hot carriers of a drain's current", () => {
    const v = of("cell_floating_gate", {
      feature: 90e-9,
      cell_area_in_feature_squared: 9.4,
      flash_aspect: 1.7,
      oxide_permittivity: 3.9,
      tunnel_oxide_thickness: 9e-9,
      gate_coupling: 0.58,
      flash_off_ratio: 0.013,
    });
    const area = 9.4 * 90e-9 ** 2;
    // The capacitance of the oxide, seen from the control gate.
    const oxide = (8.8541878128e-12 * 3.9 * 90e-9 ** 2) / 9e-9;
    const on = v["read_current"]!;
    const load = v["row_load"]! / (0.58 * oxide);
    expect(Math.abs(load - 1)).toBeLessThan(1e-8);
    expectPaper(v, {
      cell_area: area,
      cell_width: Math.sqrt(area / 1.7),
      cell_height: Math.sqrt(area * 1.7),
      cell_transistors: 1,
      cell_switches: 0,
      cell_standby_power: 0,
      refresh_power: 0,
      read_is_destructive: 0,
      column_lines: 1,
      row_lines: 1,
      column_load: v["drain_capacitance"]! * 90e-9 * v["shared_drain_share"]!,
      row_swing: v["read_gate_voltage"]!,
      column_swing: v["read_drain_voltage"]!,
      write_row_swing: v["program_voltage"]!,
      write_column_swing: v["drain_voltage"]!,
      write_voltage: v["drain_voltage"]!,
      write_current: v["program_current"]!,
      write_time: v["program_time"]!,
      write_cell_energy: (v["drain_voltage"]! * v["program_current"]! * v["program_time"]!) / 2,
      cell_on_current: on,
      cell_off_current: 0.013 * on,
      column_leak_current: 129 * 0.013 * on,
      signal_current: on - 130 * 0.013 * on,
      read_static_current: (on + 0.013 * on) / 2,
    });
  });
});

describe("cells of switches", () => {
  /** A verified write of several levels: the mean of both pulses, as often as they come, to the bit. */
  const written = (v: Values, voltage: number) =>
    ((voltage * (v["set_current"]! * v["set_time"]! + v["reset_current"]! * v["reset_time"]!)) /
      2) *
    (v["write_pulses"]! / 2);

  test.each([
    ["cell_resistive_transistor", 1, 1],
    ["cell_resistive_pair", 2, 2],
    ["cell_array_diode", 0, 1],
    ["cell_field_written", 1, 1],
  ] as const)("%s: %i transistors, %i switches, a path in series", (name, devices, switches) => {
    for (const access_off_current of [1e-9, 1e-3]) {
      const v = of(name, { access_off_current, off_resistance: 77e3, write_path_lines: 2 });
      const field = name === "cell_field_written";
      const on = v["read_voltage"]! / (v["on_resistance"]! + v["access_resistance"]!);
      const off = v["read_voltage"]! / (77e3 + v["access_resistance"]!);
      const neighbours =
        129 * Math.min(access_off_current, v["read_voltage"]! / v["on_resistance"]!);
      const needed = field
        ? v["line_write_current"]! * v["column_resistance"]!
        : Math.max(v["set_voltage"]!, v["reset_voltage"]!) +
          v["access_drop"]! +
          v["switch_write_current"]! * v["column_resistance"]! * (v["write_path_lines"] ?? 1);
      const width = switches * v["access_cell_width"]!;
      expectPaper(v, {
        ...NOTHING,
        cell_width: width,
        cell_height: v["access_cell_height"]!,
        cell_area: width * v["access_cell_height"]!,
        cell_transistors: devices,
        cell_switches: switches,
        cell_standby_power: 0,
        column_lines: switches,
        row_lines: 1,
        row_load: switches * v["access_gate_load"]!,
        column_load: v["access_drain_load"]!,
        row_swing: v["access_gate_voltage"]!,
        column_swing: v["read_voltage"]! + (devices === 0 ? v["read_junction_voltage"]! : 0),
        cell_on_current: on,
        cell_off_current: off,
        signal_current: on - off,
        column_leak_current: neighbours,
        read_static_current: (on + off) / 2 + neighbours,
        write_voltage: needed,
        write_column_swing: needed,
        write_row_swing: field ? 0 : v["access_write_gate_voltage"]!,
        write_current: field ? v["line_write_current"]! : v["switch_write_current"]!,
        write_time: field ? Math.max(v["set_time"]!, v["reset_time"]!) : v["switch_write_time"]!,
        write_cell_energy: field
          ? (v["supply"]! * v["line_write_current"]! * Math.max(v["set_time"]!, v["reset_time"]!)) /
            2
          : written(v, needed),
      });
      if (devices === 0) {
        expectPaper(v, { row_sink_current: v["row_sink_share"]! * v["switch_write_current"]! });
      }
    }
  });

  test.each(["cell_crosspoint", "cell_complementary"])(
    "%s: a junction of two half pitches",
    (name) => {
      for (const write_column_bias_share of [1 / 3, 0.77]) {
        const v = of(name, { feature: 30e-9, write_column_bias_share });
        const two = name === "cell_complementary";
        const voltage = v["array_write_voltage"]! + v["write_line_drop"]!;
        // Two junctions in series have half of the capacitance of one.
        const load = v["junction_capacitance"]! / (two ? 2 : 1);
        const currents = (v["cell_on_current"]! + v["cell_off_current"]!) / 2;
        expectPaper(v, {
          cell_width: 60e-9,
          cell_height: 60e-9,
          cell_area: 60e-9 ** 2 / 3,
          cell_transistors: 0,
          cell_switches: two ? 2 : 1,
          cell_standby_power: 0,
          refresh_power: 0,
          erase_time: 0,
          read_is_destructive: two ? 1 : 0,
          column_lines: 1,
          row_lines: 1,
          row_load: load,
          column_load: load,
          row_swing: v["array_read_voltage"]!,
          column_swing: v["column_bias_share"]! * v["array_read_voltage"]!,
          signal_current: v["read_margin_current"]!,
          read_static_current: currents + v["column_leak_current"]!,
          write_voltage: voltage,
          write_row_swing: voltage,
          write_column_swing: Math.max(write_column_bias_share, 0.5) * voltage,
          write_current: v["switch_write_current"]! + v["write_leak_current"]!,
          write_time: v["switch_write_time"]! + v["selector_delay"]! * v["write_pulses"]!,
          write_cell_energy: written(v, voltage),
        });
      }
    },
  );
});
