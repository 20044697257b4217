// Drivers and switches of rows and lines, device by device (transistors and their currents as in textbooks).
import { describe, expect, test } from "vitest";
import {
  type BiasScheme,
  columnBiasFor,
  lineCurrents,
  lineDriverFor,
} from "../../../../src/models/periphery/tile/bias.ts";
import {
  globalColumnByCurrent,
  globalDataLine,
  localRowDriver,
  mainRowDriver,
  sinkingRowDriver,
} from "../../../../src/models/periphery/tile/divided.ts";
import { localSwitchFor } from "../../../../src/models/periphery/tile/local-switch.ts";
import { raisedRowDriver, rowDriver } from "../../../../src/models/periphery/tile/rows.ts";
import {
  behind,
  chainTo,
  devices,
  expectPaper,
  layout,
  own,
  POINTS,
  pair,
  readSwing,
  switchFor,
  valuesOf,
  writeSwing,
} from "./paper.ts";

const LN2 = Math.LN2;

describe.each(POINTS.map((point, k) => [k, point] as const))("at point %i", (_, point) => {
  test("a row driver is an odd chain behind the decoder's own inverter", () => {
    const v = valuesOf(rowDriver, point);
    const chain = chainTo(v["row_capacitance"]!, false, v, true);
    const width = chain.width - v["unit_gate_input_capacitance"]! / v["gate_capacitance"]!;
    const energy = own(width, false, v["supply"]!, v);
    const transistors = 2 * (chain.inverters - 1);
    expectPaper(v, {
      transistors,
      delay: chain.delay,
      leakage: (width / 2) * v["leakage_power_per_width"]!,
      read_energy: energy,
      write_energy: energy,
      pitch: behind(2 * v["contacted_gate_pitch"]!, v["cell_height"]!),
      area: transistors === 0 ? 0 : layout(width, transistors, false, "wide", v),
    });
  });

  test("a raised row driver is a level shifter and a chain of thick-oxide inverters", () => {
    const v = valuesOf(raisedRowDriver, point);
    const chain = chainTo(v["row_capacitance"]!, true, v);
    const shifter = v["level_shifter_transistors"]!;
    const width = chain.width + shifter * v["thick_gate_length"]!;
    const transistors = shifter + 2 * chain.inverters;
    expectPaper(v, {
      transistors,
      width,
      delay: v["level_shifter_effort"]! * v["thick_tau"]! + chain.delay,
      leakage: (width / 2) * v["thick_leakage_power_per_width"]!,
      read_energy: own(width, true, Math.max(v["supply"]!, v["row_swing"]!), v),
      write_energy: own(width, true, Math.max(v["supply"]!, v["write_row_swing"]!), v),
      pitch: behind(2 * v["thick_contacted_pitch"]!, v["cell_height"]!),
      area: layout(width, transistors, true, "wide", v),
    });
  });

  test.each([localRowDriver, sinkingRowDriver])("$title: three devices", (sheet) => {
    const v = valuesOf(sheet, point);
    const up = Math.max(
      v["thick_gate_length"]!,
      v["row_capacitance"]! / v["local_drive_effort"]! / v["thick_gate_capacitance"]!,
    );
    const fast = up * v["p_to_n_current"]!;
    const carries =
      (v["thick_unit_linear_resistance"]! * v["row_sink_current"]! * v["row_cells_written"]!) /
      (v["drop_share"]! * Math.max(v["supply"]!, v["write_voltage"]!));
    const down = sheet === sinkingRowDriver ? Math.max(fast, carries) : fast;
    const width = up + down + v["thick_gate_length"]!;
    // The p-type device that pulls up, against the row and the drains of both devices, its own and as much again.
    const resistance = v["thick_unit_resistance"]! / v["p_to_n_current"]! / up;
    const load = v["row_capacitance"]! + 2 * up * v["drain_capacitance"]!;
    expectPaper(v, {
      transistors: 3,
      width,
      load: (up + down) * v["thick_gate_capacitance"]!,
      delay: LN2 * resistance * load,
      leakage: (width / 2) * v["thick_leakage_power_per_width"]!,
      read_energy: own(width, true, Math.max(v["supply"]!, v["row_swing"]!), v),
      write_energy: own(width, true, Math.max(v["supply"]!, v["write_row_swing"]!), v),
      area: layout(width, 3, true, "wide", v),
    });
  });

  test("a main row line is a wire with local drivers spread over it", () => {
    const v = valuesOf(mainRowDriver, point);
    const wire = v["route_wire_capacitance_per_length"]! * v["main_row_length"]!;
    const hung = v["tiles_along_row"]! * v["rows_per_main_line"]! * v["local_load"]!;
    const chain = chainTo(wire + hung, true, v);
    const shifter = v["level_shifter_transistors"]!;
    const width = chain.width + shifter * v["thick_gate_length"]!;
    const line = v["route_wire_resistance_per_length"]! * v["main_row_length"]!;
    const charge = (swing: number) => (wire + hung) * swing ** 2 + own(width, true, swing, v);
    const [supply, read, write] = [v["supply"]!, v["row_swing"]!, v["write_row_swing"]!];
    expectPaper(v, {
      transistors: shifter + 2 * chain.inverters,
      width,
      load: wire + hung,
      delay:
        v["level_shifter_effort"]! * v["thick_tau"]! +
        chain.delay +
        line * (0.377 * wire + (LN2 * hung) / 2),
      leakage: (width / 2) * v["thick_leakage_power_per_width"]!,
      read_energy: charge(Math.max(supply, read)),
      write_energy: charge(Math.max(supply, read, write)),
      area: layout(width, shifter + 2 * chain.inverters, true, "wide", v),
    });
  });

  test("a global column is a wire that settles, or moves by a share of the supply", () => {
    const held = valuesOf(globalColumnByCurrent, point);
    const c = held["route_wire_capacitance_per_length"]! * held["global_column_length"]!;
    const r = held["route_wire_resistance_per_length"]! * held["global_column_length"]!;
    const [supply, moved] = [held["supply"]!, held["column_swing"]!];
    const wire = { transistors: 0, area: 0, leakage: 0, capacitance: c, resistance: r };
    expectPaper(held, {
      ...wire,
      delay: Math.log(10) * (held["column_series_resistance"]! + r / 2) * c,
      read_energy: c * moved * Math.max(supply, moved),
      write_energy: c * held["write_column_swing"]! ** 2,
    });
    const data = valuesOf(globalDataLine, { ...point, global_swing_share: 0.31 });
    const swing = 0.31 * supply;
    const driver = (2 * data["unit_resistance_n"]!) / data["latch_device_width"]!;
    expectPaper(data, {
      ...wire,
      swing,
      delay: LN2 * driver * c * 0.31 + 0.377 * r * c,
      read_energy: c * swing * supply,
      write_energy: c * data["write_column_swing"]! ** 2,
    });
  });

  for (const raised of [false, true]) {
    const words = raised ? "raised" : "core";
    test(`a local line switch, ${words}: a full switch and one that holds`, () => {
      const v = valuesOf(localSwitchFor(raised), point);
      const full = switchFor(v["line_current"]!, raised, v["write_voltage"]!, v);
      const width = full * (1 + v["bias_switch_share"]!);
      const resistance = devices(raised, v).linear / full;
      expectPaper(v, {
        transistors: 2,
        width,
        load: width * devices(raised, v).gate,
        resistance,
        delay: LN2 * resistance * v["line_load"]!,
        leakage: (width * devices(raised, v).leak) / 2,
        read_energy: own(width, raised, readSwing(raised, v), v),
        write_energy: own(width, raised, writeSwing(raised, v), v),
        area: layout(width, 2, raised, "wide", v),
      });
    });

    // Levels that a line is switched to, shifters of raised switches, and levels that hold an unselected column.
    const SCHEMES: readonly (readonly [BiasScheme, number, number, number])[] = [
      ["floating", 2, 1, 1],
      ["grounded", 2, 2, 1],
      ["one-half", 4, 2, 2],
      ["one-third", 4, 2, 2],
    ];
    test.each(SCHEMES)(
      `a ${words} line driver, %s: two devices for each level`,
      (scheme, levels, shifters) => {
        const v = valuesOf(lineDriverFor(scheme, raised), point);
        const d = devices(raised, v);
        const narrow = switchFor(v["line_current"]!, raised, v["write_voltage"]!, v);
        const full = narrow * pair(v);
        const chain = chainTo(d.gate * full, raised, v);
        const shifting = raised ? shifters * v["level_shifter_transistors"]! : 0;
        const widths: number[] = [full, full, chain.width, chain.width];
        for (let k = 2; k < levels; k++) widths.push(full * v["bias_switch_share"]!);
        const width = widths.reduce((a, b) => a + b, 0);
        const transistors = 2 * levels + shifting + 4 * chain.inverters;
        const resistance = d.linear / narrow;
        const shift = raised ? v["level_shifter_effort"]! * v["thick_tau"]! : 0;
        expectPaper(v, {
          transistors,
          width,
          resistance,
          pitch: behind(2 * d.contacted, v["line_pitch"]!),
          leakage: (width * d.leak) / 2,
          read_energy: own(width, raised, readSwing(raised, v), v),
          write_energy: own(width, raised, writeSwing(raised, v), v),
          delay: shift + chain.delay + LN2 * resistance * v["line_load"]!,
          area: layout(width + shifting * v["thick_gate_length"]!, transistors, raised, "wide", v),
        });
      },
    );

    test.each(SCHEMES)(
      `${words} switches hold a column, %s`,
      (scheme, _levels, _shifters, held) => {
        const v = valuesOf(columnBiasFor(scheme, raised), point);
        const d = devices(raised, v);
        const share = v["bias_switch_share"]! * v["write_current"]!;
        const narrow = switchFor(share, raised, v["write_voltage"]!, v);
        const width = held * narrow * pair(v);
        expectPaper(v, {
          transistors: 2 * held,
          width,
          resistance: d.linear / narrow,
          delay: (LN2 * d.linear * v["column_capacitance"]!) / narrow,
          pitch: behind(2 * d.contacted, v["cell_width"]!),
          leakage: (width * d.leak) / 2,
          read_energy: own(width, raised, readSwing(raised, v), v),
          write_energy: own(width, raised, writeSwing(raised, v), v),
          area: layout(width, 2 * held, raised, "pitch", v),
        });
      },
    );
  }
});

test("a selected row carries its written cells and, once, its half-selected ones", () => {
  const v = valuesOf(lineCurrents, { row_cells_written: 5 });
  const row = 5 * v["switch_write_current"]! + v["write_leak_current"]!;
  expect(v["row_write_current"]! / row).toBeCloseTo(1, 12);
  expect((v["shared_write_current"]! * 5) / row).toBeCloseTo(1, 12);
});
