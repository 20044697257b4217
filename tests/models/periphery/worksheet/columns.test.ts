// What stands at the columns, device by device; write drivers and the logic that verifies.
import { describe, expect, test } from "vitest";
import { dataDriver } from "../../../../src/models/periphery/tile/bus.ts";
import {
  columnMultiplexer,
  columnSelect,
  precharge,
  raisedColumnMultiplexer,
  raisedColumnSelect,
} from "../../../../src/models/periphery/tile/columns.ts";
import { bitLineReturn, digitLineSwitch } from "../../../../src/models/periphery/tile/field.ts";
import { outputMultiplexer } from "../../../../src/models/periphery/tile/output-multiplexer.ts";
import { spareSteering } from "../../../../src/models/periphery/tile/spare.ts";
import {
  limitedWriteDriver,
  raisedLimitedWriteDriver,
  verifyLogic,
  writeDriver,
} from "../../../../src/models/periphery/tile/write.ts";
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
  valuesOf,
  writeSwing,
} from "./paper.ts";

const LN2 = Math.LN2;

describe.each(POINTS.map((point, k) => [k, point] as const))("at point %i", (_, point) => {
  for (const raised of [false, true]) {
    const words = raised ? "raised" : "core";
    test.each([1, 2, 8])(`a ${words} multiplexer of %i columns has a switch for each wire`, (n) => {
      const sheet = raised ? raisedColumnMultiplexer : columnMultiplexer;
      const v = valuesOf(sheet, { ...point, selected_columns: n });
      const d = devices(raised, v);
      const each = v["column_switch_transistors"]!;
      const drop = v["drop_share"]! * Math.max(v["supply"]!, v["write_voltage"]!);
      // As fast as a few inverters, each with a fan-out of four; five units of delay, where oxides are thick.
      const soon = v["switch_fan_outs"]! * (raised ? 5 * d.tau : v["fan_out_delay"]!);
      const width = Math.max(
        v["gate_width"]!,
        (d.linear * v["write_current"]!) / drop,
        (LN2 * d.saturated * v["column_capacitance"]!) / soon,
      );
      const switches = n > 1 ? n * v["column_lines"]! * each : 0;
      // A select line opens one column's wires; at the common node hang all columns and what leads on.
      const gates = n > 1 ? v["column_lines"]! * each * width * d.gate : 0;
      const node = n > 1 ? (n + 1) * width * v["drain_capacitance"]! : 0;
      const resistance = n > 1 ? d.linear / width : 0;
      expectPaper(v, {
        transistors: switches,
        width: switches * width,
        switch_width: width,
        select_capacitance: gates,
        node_capacitance: node,
        resistance,
        delay: LN2 * resistance * node,
        leakage: (switches * width * d.leak) / 2,
        read_energy: gates * readSwing(raised, v) ** 2,
        write_energy: gates * writeSwing(raised, v) ** 2,
        pitch: behind(each * d.contacted, v["cell_width"]!),
        area: switches === 0 ? 0 : layout(switches * width, switches, raised, "pitch", v),
      });
    });

    test(`a ${words} select line is a chain, a wire, and gates spread over it`, () => {
      const v = valuesOf(raised ? raisedColumnSelect : columnSelect, point);
      const wire = v["route_wire_capacitance_per_length"]! * v["row_length"]!;
      const gates = v["sense_amplifiers"]! * v["select_capacitance"]!;
      const chain = chainTo(wire + gates, raised, v);
      const d = devices(raised, v);
      const shifter = raised ? v["level_shifter_transistors"]! : 0;
      const shift = raised ? v["level_shifter_effort"]! * v["thick_tau"]! : 0;
      const line = v["route_wire_resistance_per_length"]! * v["row_length"]!;
      // The gates' energy is the multiplexers'.
      const energy = (swing: number) => wire * swing ** 2 + own(chain.width, raised, swing, v);
      expectPaper(v, {
        transistors: 2 * chain.inverters + shifter,
        delay: shift + chain.delay + line * (0.377 * wire + (LN2 * gates) / 2),
        leakage: (chain.width / 2) * d.leak,
        read_energy: energy(readSwing(raised, v)),
        write_energy: energy(writeSwing(raised, v)),
        area: layout(chain.width, 2 * chain.inverters + shifter, raised, "wide", v),
      });
    });

    test(`a ${words} limited write driver: a pair to each end and a mirror that limits`, () => {
      const v = valuesOf(raised ? raisedLimitedWriteDriver : limitedWriteDriver, point);
      const d = devices(raised, v);
      const voltage = Math.max(v["supply"]!, v["write_voltage"]!);
      const drop = v["drop_share"]! * voltage;
      const narrow = Math.max(v["gate_width"]!, (d.linear * v["write_current"]!) / drop);
      const width = 2 * narrow * pair(v) + 2 * narrow;
      const shifters = 2 * v["level_shifter_transistors"]!;
      const stated = v["limited_driver_transistors"]!;
      const transistors = raised ? Math.max(stated, shifters + 4) : Math.max(8, stated - shifters);
      const others = (transistors - 6) * (raised ? v["thick_gate_length"]! : v["gate_width"]!);
      const shift = raised ? v["level_shifter_effort"]! * d.tau : 0;
      const gates = 2 * d.tau * (v["best_stage_effort"]! + v["inverter_parasitic"]!);
      const switched = own(width, raised, voltage, v);
      // A current at the drop of two devices, for as long as it is written.
      const limits = 2 * drop * v["write_current"]! * v["write_time"]!;
      expectPaper(v, {
        transistors,
        width,
        delay: shift + gates + (LN2 * d.linear * v["column_capacitance"]!) / narrow,
        leakage: width * d.leak,
        read_energy: 0,
        write_energy: switched + limits,
        pitch: behind(8 * d.contacted, v["cell_width"]! * v["column_share"]!),
        area: layout(width + others, transistors, raised, "pitch", v),
      });
    });
  }

  test.each([4, 11])(
    "a plain write driver of %i devices pulls down as fast as some inverters",
    (own_devices) => {
      const v = valuesOf(writeDriver, { ...point, plain_driver_transistors: own_devices });
      const soon = v["switch_fan_outs"]! * v["fan_out_delay"]!;
      const pulls = Math.max(
        v["gate_width"]!,
        (LN2 * v["unit_resistance_n"]! * v["column_capacitance"]!) / soon,
        (v["unit_linear_resistance"]! * v["write_current"]!) / (v["drop_share"]! * v["supply"]!),
      );
      // A pair of pull-downs, each behind a gate smaller by the stage effort.
      const width = 2 * pulls + (2 * pulls) / v["best_stage_effort"]!;
      const count = v["plain_driver_transistors"]!;
      const supply = v["supply"]!;
      const others = (count * v["unit_gate_input_capacitance"]!) / 2;
      expectPaper(v, {
        transistors: count,
        width,
        delay: 2 * v["tau"]! * (v["best_stage_effort"]! + v["inverter_parasitic"]!) + soon,
        leakage: (count - 4) * v["transistor_leakage"]! + width * v["leakage_power_per_width"]!,
        read_energy: 0,
        write_energy: own(width, false, supply, v) + others * supply ** 2,
        area: layout(width + (count - 4) * v["gate_width"]!, count, false, "pitch", v),
      });
    },
  );

  test("a precharge pulls a column up in some inverters, and has three time constants for it", () => {
    const v = valuesOf(precharge, point);
    const soon = v["precharge_fan_outs"]! * v["fan_out_delay"]!;
    const pull =
      (3 * LN2 * v["column_capacitance"]! * v["unit_resistance_n"]!) / v["p_to_n_current"]!;
    const device = Math.max(v["gate_width"]!, pull / soon);
    // Three devices for a pair of wires: two pull up, one makes them equal.
    const count = Math.ceil((3 * v["column_lines"]!) / 2);
    const energy = count * device * v["gate_capacitance"]! * v["supply"]! ** 2;
    expectPaper(v, {
      transistors: count,
      width: count * device,
      delay: soon,
      leakage: (count * device * v["leakage_power_per_width"]!) / 2,
      read_energy: energy,
      write_energy: energy,
      area: layout(count * device, count, false, "pitch", v),
    });
  });

  test("a data driver carries a bit to the next repeater, from ten devices", () => {
    for (const macro_side of [20e-6, 5e-3]) {
      const v = valuesOf(dataDriver, { ...point, macro_side, segment_length: 0.4e-3 });
      const wire = v["route_wire_capacitance_per_length"]! * Math.min(macro_side, 0.4e-3);
      const drives = wire / v["drive_effort"]! / v["gate_capacitance"]!;
      const width = Math.max(2 * v["gate_width"]!, drives) + 8 * v["gate_width"]!;
      const moves = v["data_activity"]! / 2;
      expectPaper(v, {
        transistors: 10,
        width,
        leakage: (width / 2) * v["leakage_power_per_width"]!,
        read_energy: moves * own(width, false, v["supply"]!, v),
        write_energy: 0,
        area: layout(width, 10, false, "pitch", v),
      });
    }
  });

  test("switches behind the amplifiers lead a word's bits on", () => {
    const v = valuesOf(outputMultiplexer, point);
    const n = v["selected_columns"]!;
    const width = Math.max(v["gate_width"]!, v["latch_device_width"]!);
    const wire = (v["route_wire_capacitance_per_length"]! * v["row_length"]!) / v["data_ports"]!;
    const node = n * width * v["drain_capacitance"]! + wire;
    const gates = 2 * width * v["gate_capacitance"]!;
    // The latch pulls through the switch.
    const r = v["unit_resistance_n"]! / v["latch_device_width"]! + v["unit_resistance_n"]! / width;
    const energy = (gates + node) * v["supply"]! ** 2;
    expectPaper(v, {
      transistors: 2 * n,
      width: 2 * n * width,
      delay: LN2 * r * node,
      leakage: (2 * n * width * v["leakage_power_per_width"]!) / 2,
      read_energy: energy,
      write_energy: energy,
      area: layout(2 * n * width, 2 * n, false, "pitch", v),
    });
  });

  test.each([1, 2])(
    "switches at the ends of a line whose field writes, %i directions",
    (field_polarities) => {
      for (const [sheet, line_write_current] of [
        [digitLineSwitch, 7.3e-3],
        [bitLineReturn, 7.3e-3],
        [digitLineSwitch, 1e-6],
      ] as const) {
        const v = valuesOf(sheet, { ...point, field_polarities, line_write_current });
        // A device that carries the current at its slow corner, and the chain to its gate.
        const slow = v["worst_drive_share"]! * v["nmos_on_current"]!;
        const width = v["line_write_current"]! / (v["access_drive_share"]! * slow);
        const chain = chainTo(v["gate_capacitance"]! * width, false, v);
        const switches = sheet === digitLineSwitch ? 1 : field_polarities;
        const all = switches * (width + chain.width);
        const count = switches * (1 + 2 * chain.inverters);
        const energy = own(width + chain.width, false, v["supply"]!, v);
        // Half of the pulses have a current in this direction.
        const current = (v["supply"]! * v["line_write_current"]! * v["write_time"]!) / 2;
        expectPaper(v, {
          transistors: count,
          width: all,
          delay: chain.delay,
          leakage: (all / 2) * v["leakage_power_per_width"]!,
          read_energy: 0,
          write_energy: energy + (sheet === digitLineSwitch ? current : 0),
          area: layout(all, count, false, "wide", v),
        });
      }
    },
  );
});

test("verification: gates of four transistors for the macro and for each written bit", () => {
  const v = valuesOf(verifyLogic);
  const count = 4 * (v["verify_gates"]! + v["verify_bit_gates"]! * v["cells_written"]!);
  // A gate of four transistors switches like two inverters, once for each group.
  const switched =
    v["groups"]! * v["control_activity"]! * (count / 4) * 2 * v["logic_pair_energy"]!;
  expectPaper(v, {
    transistors: count,
    area: count * v["transistor_area"]!,
    leakage: count * v["transistor_leakage"]!,
    read_energy: 0,
    write_energy: switched,
  });
});

test("spares: the address of each faulty row is kept and compared, columns are steered past", () => {
  const v = valuesOf(spareSteering, {
    rows: 200,
    sense_amplifiers: 24,
    spare_columns: 9,
    column_share: 4,
  });
  // 200 rows have eight address bits, 24 amplifiers five; nine columns are three amplifiers' worth.
  const row = 3 * (8 * (v["fault_bit_transistors"]! + v["xor_transistors"]!) + 2 * 8 + 2);
  const column = 3 * (5 * v["fault_bit_transistors"]! + 24 * (v["multiplexer_transistors"]! + 2));
  const compared = 3 * 8 * v["xor_transistors"]! * v["address_activity"]!;
  const steered = 24 * v["multiplexer_transistors"]! * v["data_activity"]!;
  const energy = ((compared + steered) / 2) * v["logic_pair_energy"]!;
  expectPaper(v, {
    row_transistors: row,
    column_transistors: column,
    transistors: row + column,
    area: (row + column) * v["transistor_area"]!,
    leakage: (row + column) * v["transistor_leakage"]!,
    read_energy: energy,
    write_energy: energy,
    // An exclusive or of effort four and parasitic four, then a tree over nine bits: four levels of two-input gates.
    delay: v["tau"]! * (8 + 4 * (v["best_stage_effort"]! + 2)),
  });
  expect(v["row_bits"]).toBe(8);
  expect(v["column_bits"]).toBe(5);
  const least = valuesOf(spareSteering, { rows: 1, sense_amplifiers: 1 });
  expect(least["row_bits"]).toBe(1);
  expect(least["column_bits"]).toBe(1);
});
