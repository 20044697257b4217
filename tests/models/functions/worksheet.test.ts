// What functions add to a memory, worked out from their circuits: devices counted, lines charged, trees walked.
import { describe, expect, test } from "vitest";
import type { Sheet } from "../../../src/formulas/sheet.ts";
import * as functions from "../../../src/models/functions/index.ts";
import { oddValues, type Values } from "../odd.ts";
import { expectPaper, flipFlop } from "../periphery/worksheet/paper.ts";

const sheets = new Map(
  Object.values(functions)
    .filter((one): one is Sheet => typeof one === "object" && "kind" in one)
    .map((one) => [one.name, one]),
);
const of = (name: string, given: Values = {}) => oddValues(sheets.get(name)!, given);

/** A gate of the best stage effort. */
const gate = (v: Values) => v["tau"]! * (v["best_stage_effort"]! + v["inverter_parasitic"]!);
/** Logic by count: area at the library's density, and half of it as many inverters, of which a share switches. */
const counted = (count: number, activity: number, v: Values) => ({
  transistors: count,
  area: count * v["transistor_area"]!,
  energy: activity * (count / 2) * v["logic_pair_energy"]!,
});

test("a function's devices are the published circuit's without its memory cells", () => {
  const given = { memory_cells: 2, published_transistors: 17, cell_transistors: 6 };
  const v = of("cell_addition", { ...given, published_area_ratio: 3.4 });
  // Both pitches grow alike: the area by 1.7, a line by its root.
  expectPaper(v, {
    transistors: 5,
    area: 1.4 * v["sram_6t_area"]!,
    growth: Math.sqrt(1.7),
    energy: 0,
  });
  expectPaper(of("cell_addition", { ...given, published_area_ratio: 1.5 }), { area: 0, growth: 1 });
});

test.each([2, 4, 6])(
  "a table of %i inputs: a tree of switches, an inverter for each input",
  (n) => {
    const v = of("table_multiplexer", { table_inputs: n, table_buffer_transistors: 7 });
    let switches = 0;
    for (let level = 1; level <= n; level++) switches += 2 ** level;
    const count = switches + 2 * n + 7;
    const width = v["gate_width"]!;
    const node = 3 * v["drain_capacitance"]! * width;
    const r = v["unit_resistance_n"]! / width;
    // Elmore: behind each switch lie all nodes from it to the output.
    let elmore = 0;
    for (let k = 1; k <= n; k++) elmore += r * (n - k + 1) * node;
    // A changed input moves the gates of its level, true and complement; levels have on average so many switches.
    const gates = (switches / n) * v["gate_capacitance"]! * width;
    const half = v["data_activity"]! / 2;
    expectPaper(v, {
      stored_bits: 2 ** n,
      tree_transistors: switches,
      transistors: count,
      area: count * v["transistor_area"]!,
      delay: Math.LN2 * elmore + 2 * gate(v),
      energy: half * (n * node + n * gates) * v["supply"]! ** 2,
    });
  },
);

describe("a search", () => {
  test("a static match cell: two stacks hang on the match line, and both leak", () => {
    const v = of("static_compare");
    expectPaper(v, {
      match_load: v["drain_capacitance"]! * 2 * v["access_width"]!,
      search_load: v["gate_capacitance"]! * v["access_width"]!,
      mismatch_current: v["read_stack_current"]!,
      matched_current: v["read_buffer_leak_current"]! * 2,
      line_growth: v["addition_growth"]!,
      match_swing: v["bitline_swing"]!,
    });
  });

  test("two switches of a symbol: both columns load a match line, each row wire one search line", () => {
    const v = of("resistive_compare", { cells_per_bit: 2, column_lines: 3 });
    expectPaper(v, {
      match_load: 6 * v["column_load"]!,
      search_load: v["row_load"]! / 3,
      mismatch_current: v["cell_on_current"]!,
      matched_current: v["cell_off_current"]!,
      line_growth: 1,
      match_swing: v["read_voltage"]!,
    });
  });

  test.each([0.3, 1.9])(
    "lines: one of each pair of search lines rises, all match lines move by %f V",
    (swing) => {
      const v = of("match_lines", {
        word: 72,
        cells_of_symbol: 3,
        rows: 130,
        match_swing: swing,
        supply: 0.9,
      });
      const growth = v["line_growth"]!;
      const match =
        v["row_length"]! * growth * v["row_wire_capacitance_per_length"]! + 24 * v["match_load"]!;
      const search =
        v["column_length"]! * growth * v["column_wire_capacitance_per_length"]! +
        130 * v["search_load"]!;
      expectPaper(v, {
        symbols: 24,
        search_lines: 48,
        match_line_capacitance: match,
        search_line_capacitance: search,
        // One symbol of an entry differs; all others agree, and leak.
        match_signal_current: v["mismatch_current"]! - v["matched_current"]!,
        match_leak_current: 23 * v["matched_current"]!,
        search_line_energy: 24 * search * 0.9 ** 2,
        match_line_energy: 130 * match * swing * Math.max(0.9, swing),
      });
    },
  );

  test.each([1, 2, 16, 256])("the first of %i lines: a tree of nodes", (lines) => {
    const v = of("priority_encoder", { encoder_inputs: lines, multiplexer_transistors: 7 });
    const levels = Math.log2(lines);
    let [nodes, selects] = [0, 0];
    for (let level = 1; level <= levels; level++) {
      nodes += lines / 2 ** level;
      selects += (lines / 2 ** level) * (level - 1);
    }
    // An or of three pairs and an inverter at each node.
    expectPaper(v, {
      bits: levels,
      nodes,
      multiplexers: selects,
      ...counted(8 * nodes + 7 * selects, v["control_activity"]!, v),
      delay: 2 * levels * gate(v),
    });
  });

  test("one device precharges a match line; a register holds the word", () => {
    const v = of("match_precharge");
    expectPaper(v, {
      transistors: 1,
      area: 2 * v["gate_width"]! * v["device_area_per_width"]!,
      energy: 2 * v["gate_width"]! * v["gate_capacitance"]! * v["supply"]! ** 2,
    });
    const r = of("hold_register", { held_bits: 29, flip_flop_transistors: 22 });
    expectPaper(r, {
      transistors: 29 * 22,
      area: 29 * r["flip_flop_area"]!,
      energy: 29 * flipFlop(r["data_activity"]!, r),
      delay: 2 * gate(r),
    });
  });
});

describe("registers", () => {
  test("a flip-flop is one bit of a register", () => {
    const v = of("plain_flip_flop", { flip_flop_transistors: 22 });
    expectPaper(v, {
      transistors: 22,
      area: v["flip_flop_area"]!,
      energy: flipFlop(v["data_activity"]!, v),
      delay: 2 * gate(v),
    });
  });

  test.each([1e-7, 3e-4])("a shadow has two devices for the write current of %f A", (current) => {
    const v = of("shadow", {
      switch_write_current: current,
      store_transistors: 9,
      io_supply: 2.4,
      drop_share: 0.06,
    });
    const drop = 0.06 * 2.4;
    const carries = (v["thick_unit_linear_resistance"]! * current) / drop;
    const width = Math.max(v["thick_gate_length"]!, carries);
    expectPaper(v, {
      transistors: 9,
      switches: 2,
      write_width: width,
      area: 2 * width * v["thick_device_area_per_width"]! + 7 * v["transistor_area"]!,
      energy: 0,
    });
  });

  test("control and transfer are logic that rests while the clock runs", () => {
    const control = of("store_control", { store_control_gates: 31 });
    expectPaper(control, counted(124, 0, control));
    const transfer = of("transfer_multiplexer", { multiplexer_transistors: 7 });
    expectPaper(transfer, { ...counted(7, 0, transfer), delay: 2 * gate(transfer) });
  });
});

describe("routing", () => {
  test.each(["pass_path", "switch_path"])(
    "%s: one closed point drives a wire and all points on it",
    (name) => {
      const v = of(name, { fan_in: 11 });
      const pass = name === "pass_path";
      const r = pass ? v["unit_resistance_n"]! / v["gate_width"]! : v["on_resistance"]!;
      const point = pass ? v["drain_capacitance"]! * v["gate_width"]! : v["column_load"]!;
      const length = v["column_length"]! * (pass ? v["addition_growth"]! : 1);
      const load = length * v["column_wire_capacitance_per_length"]! + 11 * point;
      expectPaper(v, {
        series_resistance: r,
        point_load: point,
        load,
        delay: Math.LN2 * r * load,
        energy: (v["data_activity"]! / 2) * load * v["supply"]! ** 2,
      });
    },
  );

  test.each([1e-8, 2e-3])(
    "devices of thick oxide part a wire from its signals: %f A",
    (write_current) => {
      const v = of("wire_isolation", {
        write_current,
        isolation_transistors: 3,
        write_voltage: 2.1,
        drop_share: 0.07,
      });
      const drop = 0.07 * 2.1;
      const carries = (v["thick_unit_linear_resistance"]! * write_current) / drop;
      const width = Math.max(v["thick_gate_length"]!, carries);
      const area = 3 * width * v["thick_device_area_per_width"]!;
      expectPaper(v, { transistors: 3, device_width: width, area, energy: 0 });
    },
  );

  test("buffers are inverters, one of them with a device that restores the level", () => {
    for (const [name, count] of [
      ["signal_buffer", 4],
      ["restoring_buffer", 5],
    ] as const) {
      const v = of(name, { signal_buffer_transistors: 4, level_restorer_transistors: 1 });
      expectPaper(v, { ...counted(count, v["data_activity"]!, v), delay: 2 * gate(v) });
    }
  });
});

describe("weights", () => {
  const given = {
    weight_bits: 5,
    input_bits: 6,
    summed: 32,
    full_adder_transistors: 26,
    flip_flop_transistors: 22,
  };

  test("a gate of four devices multiplies a bit of the weight with a bit of the input", () => {
    const v = of("partial_product", given);
    expectPaper(v, { ...counted(20, 6 * v["data_activity"]!, v), delay: gate(v) });
  });

  test("a tree of adders, each a bit wider than those below it", () => {
    for (const summed of [2, 32]) {
      const v = of("adder_share", { ...given, summed });
      const levels = Math.log2(summed);
      let adders = 0;
      for (let level = 1; level <= levels; level++)
        adders += (summed / 2 ** level) * (5 + level - 1);
      const count = (adders / summed) * 26;
      // Two gates for each carry: of the width of a weight, and of two more for each level.
      expectPaper(v, {
        levels,
        adders: adders / summed,
        ...counted(count, 6 * v["data_activity"]!, v),
        delay: 2 * (5 + 2 * levels) * gate(v),
      });
    }
    expect(of("adder_share", { ...given, summed: 1 })["levels"]).toBe(1);
  });

  test("an accumulator is as wide as the largest sum of products", () => {
    for (const [summed, bits] of [
      [1, 12],
      [2, 12],
      [32, 16],
      [33, 17],
    ] as const) {
      const v = of("accumulator", { ...given, summed });
      expectPaper(v, {
        bits,
        ...counted(bits * (26 + 22), 6 * v["data_activity"]!, v),
        delay: 2 * bits * gate(v),
      });
    }
  });

  test("a converter turns one of its columns after another into numbers", () => {
    const v = of("column_converter", {
      input_bits: 6,
      columns_per_converter: 8,
      converter_transistors: 900,
    });
    expectPaper(v, {
      transistors: 900,
      area: 900 * v["transistor_area"]! * v["converter_area_share"]!,
      energy: 6 * 8 * v["converter_energy"]!,
      delay: 8 * v["converter_time"]!,
    });
  });

  test.each([0.3, 1.6])("half of the inputs drive a mean conductance at %f V", (read_voltage) => {
    const v = of("column_current", {
      weight_switches: 4,
      input_bits: 6,
      read_voltage,
      supply: 0.9,
    });
    const mean = (v["cell_on_current"]! + v["cell_off_current"]!) / 2;
    const power = 4 * 0.5 * mean * Math.max(0.9, read_voltage);
    expectPaper(v, { energy: power * 6 * v["conversion_time"]! });
  });
});
