// What the clock drives, what logic by count costs, and the far ends of cells that are written from both sides.
import { expect, test } from "vitest";
import { clock } from "../../../../src/models/periphery/macro/clock.ts";
import { logicEnergy } from "../../../../src/models/periphery/macro/logic.ts";
import { sourceLinesFor } from "../../../../src/models/periphery/tile/source-lines.ts";
import {
  chainTo,
  devices,
  expectPaper,
  layout,
  own,
  POINTS,
  switchFor,
  valuesOf,
  writeSwing,
} from "./paper.ts";

test("a pair of average transistors, so wide as the average gate, and the wires' share of the whole", () => {
  const v = valuesOf(logicEnergy);
  const gates = (v["unit_gate_energy"]! / v["minimum_width"]!) * v["gate_width"]!;
  // What the wires take is their share of gates and wires together.
  const wires = v["logic_pair_energy"]! * v["logic_wire_share"]!;
  expect((gates + wires) / v["logic_pair_energy"]!).toBeCloseTo(1, 12);
});

test("one clock: wires past the registers and to the banks, an inverter at each flip-flop and bank", () => {
  for (const macro_side of [30e-6, 2e-3]) {
    const v = valuesOf(clock, { macro_side, way: 1.7 * macro_side });
    const flops = v["address_bits"]! + 2 + 2 * v["word"]!;
    const inverter = v["unit_gate_input_capacitance"]!;
    const wire = v["route_wire_capacitance_per_length"]! * 2.7 * macro_side;
    const chain = chainTo(wire + (v["banks"]! + flops) * inverter, false, v);
    const supply = v["supply"]!;
    // The inverters at the flip-flops are charged with them.
    const energy =
      (wire + v["banks"]! * inverter) * supply ** 2 + own(chain.width, false, supply, v);
    const drawn = chain.width * v["device_area_per_width"]! * v["wide_layout_share"]!;
    expectPaper(v, {
      registers: flops,
      transistors: 2 * chain.inverters,
      area: Math.max(drawn, 2 * chain.inverters * v["transistor_area"]!),
      leakage: (chain.width / 2) * v["leakage_power_per_width"]!,
      read_energy: energy,
      write_energy: energy,
    });
  }
});

test.each([false, true])(
  "source lines: a switch and a hold at each, none for one polarity (raised: %s)",
  (raised) => {
    for (const point of POINTS) {
      for (const write_polarities of [1, 2]) {
        const v = valuesOf(sourceLinesFor(raised), {
          ...point,
          write_polarities,
          source_lines_per_cell: 0.5,
          selected_columns: 8,
        });
        const d = devices(raised, v);
        const there = write_polarities - 1;
        const lines = there * v["driven_columns"]! * 0.5;
        const voltage = Math.max(v["supply"]!, v["write_voltage"]!);
        const device = switchFor(v["write_current"]!, raised, voltage, v);
        const hold = switchFor(v["cell_on_current"]!, raised, v["column_swing"]!, v);
        const each = v["column_switch_transistors"]! * device + hold;
        const wire = v["route_wire_capacitance_per_length"]! * v["row_length"]!;
        const gates = there * v["data_ports"]! * v["column_lines"]! * 0.5 * each * d.gate;
        const chain = chainTo(wire + gates, raised, v);
        const shifter = raised ? v["level_shifter_transistors"]! : 0;
        const selects = there * 8;
        const count = lines * (v["column_switch_transistors"]! + 1);
        const drivers = selects * (2 * chain.inverters + shifter);
        const swing = writeSwing(raised, v);
        expectPaper(v, {
          transistors: count + drivers,
          area:
            there === 0
              ? 0
              : layout(lines * each, count, raised, "pitch", v) +
                layout(selects * chain.width, drivers, raised, "wide", v),
          leakage: ((lines * each + selects * chain.width) / 2) * d.leak,
          read_energy: 0,
          write_energy: there * ((wire + gates) * swing ** 2 + own(chain.width, raised, swing, v)),
        });
      }
    }
  },
);
