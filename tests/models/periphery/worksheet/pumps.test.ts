// Charge pumps and regulators, by the charge that each clock moves.
import { describe, expect, test } from "vitest";
import {
  chargePump,
  erasePump,
  pumpOutput,
  regulator,
  rowPump,
} from "../../../../src/models/periphery/macro/pump.ts";
import { expectPaper, type Values, valuesOf } from "./paper.ts";

describe("charge pumps", () => {
  /** What a pump of n stages gives: each clock a stage hands its load's charge on, from a node that shares it. */
  const output = (n: number, c: number, load: number, v: Values) => {
    const shared = c * (1 + v["pump_stray_ratio"]!);
    let voltage = v["pump_supply"]! - v["pump_diode_voltage"]!;
    for (let k = 0; k < n; k++) {
      voltage +=
        (v["pump_supply"]! * c - load / v["pump_clock_frequency"]!) / shared -
        v["pump_diode_voltage"]!;
    }
    return voltage;
  };
  /** Charge per second from the supply: the load's through each stage and in, and strays at both plates. */
  const taken = (n: number, c: number, load: number, v: Values) => {
    const stray = v["pump_stray_ratio"]! * c;
    const inSeries = 1 / (1 / c + 1 / stray);
    const bottom = v["pump_bottom_ratio"]! * c;
    return (
      (n + 1) * load + n * v["pump_clock_frequency"]! * v["pump_supply"]! * (inSeries + bottom)
    );
  };

  test("the pump formula counts charge", () => {
    const v = valuesOf(pumpOutput, {
      stages: 4,
      pump_supply: 1.31,
      stage_capacitance: 31e-12,
      load_current: 0.23e-3,
    });
    const voltage = output(4, 31e-12, 0.23e-3, v);
    const input = taken(4, 31e-12, 0.23e-3, v);
    expectPaper(v, {
      output_voltage: voltage,
      input_current: input,
      efficiency: (voltage * 0.23e-3) / (1.31 * input),
      // What the output falls by with the load.
      output_resistance: (output(4, 31e-12, 0, v) - voltage) / 0.23e-3,
    });
  });

  const CASES: readonly Values[] = [
    { write_voltage: 2.2, pump_supply: 1.31 },
    {
      write_voltage: 5.3,
      pump_supply: 1.31,
      row_swing: 4.4,
      write_row_swing: 3.1,
      erase_voltage: 14,
    },
    {
      write_voltage: 1.3,
      pump_supply: 2.61,
      row_swing: 0.9,
      write_row_swing: 1.1,
      erase_voltage: 3,
    },
    { write_voltage: 2.2, pump_supply: 1.31, pump_diode_voltage: 1.29 },
  ];
  test.each([chargePump, rowPump, erasePump])(
    "$title: the fewest stages of which none gives more than its share",
    (sheet) => {
      for (const given of CASES) {
        const v = valuesOf(sheet, given);
        const written = v["write_current"]! * v["cells_written"]!;
        const swing = Math.max(v["row_swing"]!, v["write_row_swing"]!);
        const rows = v["tiles_active"]! * v["row_capacitance"]!;
        const [target, load, useful] = {
          charge_pump: [
            v["write_voltage"]! + v["regulator_drop"]!,
            written * (1 + v["regulator_current_share"]!),
            written * v["write_voltage"]!,
          ],
          row_pump: [swing, (rows * swing) / v["read_cycle"]!, undefined],
          erase_pump: [
            v["erase_voltage"]!,
            v["decoded_rows"]! * v["driven_columns"]! * v["erase_cell_current"]!,
            undefined,
          ],
        }[sheet.name] as [number, number, number | undefined];
        const supply = v["pump_supply"]!;
        const gain = Math.max(
          supply / (1 + v["pump_stray_ratio"]!) - v["pump_diode_voltage"]!,
          supply / 20,
        );
        const rise = Math.max(0, target - (supply - v["pump_diode_voltage"]!));
        let n = 1;
        while (n * v["pump_drop_share"]! * gain < rise * (1 - 1e-12)) n++;
        // What a stage may lose to its load decides its capacitance.
        const f = v["pump_clock_frequency"]!;
        const c = load / f / (1 + v["pump_stray_ratio"]!) / (gain - rise / n);
        const input = taken(n, c, load, v);
        const factor = (supply * input) / (useful ?? load * target);
        const perArea = v["thick_gate_capacitance"]! / v["thick_gate_length"]!;
        // Each of two switches charges a stage in half a clock, of which four time constants are to pass; both edges.
        const switches = n * 8 * v["thick_unit_resistance"]! * f * c;
        const count = n * v["pump_stage_transistors"]! + v["oscillator_transistors"]!;
        const lost = factor - 1;
        const energies = {
          charge_pump: [0, lost * useful! * v["groups"]! * v["write_time"]!],
          row_pump: [lost * rows * v["row_swing"]! ** 2, lost * rows * v["write_row_swing"]! ** 2],
          erase_pump: [0, 0],
        }[sheet.name]!;
        const drawn = (n * c) / perArea + switches * v["thick_device_area_per_width"]!;
        expectPaper(
          v,
          {
            stages: n,
            stage_capacitance: c,
            input_current: input,
            efficiency: (target * load) / (supply * input),
            loss_factor: factor,
            transistors: count,
            switch_width: switches,
            area: drawn * v["wide_layout_share"]! + count * v["transistor_area"]!,
            leakage:
              switches * v["thick_leakage_power_per_width"]! + count * v["transistor_leakage"]!,
            read_energy: energies[0]!,
            write_energy: energies[1]!,
            // Charge walks: a clock for every two stages that it has to pass, of each stage.
            start_time: Array.from({ length: n }, (_, k) => k + 1).reduce((t, k) => t + k / f, 0),
            delay: 1 / f,
          },
          JSON.stringify(given),
        );
        if (rise > 0 && gain > supply / 20) {
          expect(output(n, c, load, v) / target).toBeCloseTo(1, 12);
        }
      }
    },
  );

  test("a regulator has a p-type device at its headroom, and loses what is above the write voltage", () => {
    for (const pump_supply of [2.7, 1.1]) {
      const v = valuesOf(regulator, { pump_supply, write_voltage: 1.4 });
      const load = v["write_current"]! * v["cells_written"]!;
      const pass =
        (v["thick_unit_linear_resistance"]! / v["p_to_n_current"]! / v["regulator_drop"]!) * load;
      const count = v["regulator_transistors"]!;
      const own_current = pump_supply * v["regulator_current_share"]!;
      const lost = Math.max(0, pump_supply - 1.4 + own_current);
      const perWidth = v["thick_device_area_per_width"]!;
      expectPaper(v, {
        transistors: count,
        pass_width: pass,
        area:
          pass * perWidth * v["wide_layout_share"]! +
          2 * count * v["thick_gate_length"]! * perWidth,
        leakage: pass * v["thick_leakage_power_per_width"]! + count * v["transistor_leakage"]!,
        read_energy: 0,
        write_energy: lost * load * v["groups"]! * v["write_time"]!,
      });
    }
  });
});
