// 4 Kib of 6T cells in one tile of 64 x 64, 32-bit words, two columns to an amplifier, 65 nm, 1 V, 300 K: worked out on
// paper with `macro-by-hand.ts`. Counts are exact. Where the paper takes another way than the sheets, the tolerance is
// that of the cruder of the two, and says why.
import { describe, expect, test } from "vitest";
import { quantitiesOf } from "../estimate/study.ts";
import {
  C_IN,
  chainTo,
  fastest,
  GUARD,
  LOGIC_DEVICE_AREA,
  ladderDelay,
  layout,
  P,
  PAIR,
  RHO,
  TAU,
  W_LOGIC,
  wireCapacitance,
  wireResistance,
} from "./macro-by-hand.ts";

const KEYS = {
  cell: "sram-6t",
  capacity: "4 Kib",
  tile: { rows: 64, columns: 64, column_share: 2 },
};
const TOP = { technology: "cmos-65", temperature: "300 K" };
const q = quantitiesOf(KEYS, TOP);

const COUNTING = 1e-12;
/** Expects a figure within a relative tolerance. */
const near = (name: string, paper: number, tolerance: number) =>
  expect(Math.abs(q(name) / paper - 1), `${name}: ${q(name)} for ${paper}`).toBeLessThan(tolerance);

test("the worksheet has the figures of the process", () => {
  for (const [name, value] of Object.entries(P)) expect(q(name), name).toBe(value);
});

describe("counting", () => {
  // 64 rows: 6 address bits in two groups of three, 8 wires each.
  const DECODER = {
    complements: 6 * 2,
    predecoders: 16 * (6 + 2), // a gate of three inputs and an inverter for each wire
    outputs: 64 * (4 + 2), // a gate of two inputs and an inverter for each row
    buffers: 16 * 2 * 2, // two more inverters on each wire: see the timing below, five stages are fastest
  };
  const PERIPHERY = {
    row_decoder: DECODER.complements + DECODER.predecoders + DECODER.outputs + DECODER.buffers,
    row_driver: 64 * 2 * 2, // the decoder's inverter and two more: three are needed for 90 times its input
    column_decoder: 2 + 2 * (2 + 2), // one bit: its complement, then two inverters for each of both wires
    column_select: 2 * 3 * 2,
    column_multiplexer: 32 * 2 * 2 * 2, // amplifiers, columns, wires of each, devices of a switch
    precharge: 64 * 3, // two pull-ups and an equaliser
    sense_amplifier: 32 * (11 + 8), // clocked latch with its input pair, output latch
    data_driver: 32 * 10,
    write_driver: 32 * 8,
    bank_control: 120 * 4 + 3 * 3 * 2, // gates, three enables of three inverters
    macro_control: 400 * 4,
    clock: 3 * 2, // 73 gates and 0.13 mm of wire are 50 fF: 148 times the smallest gate
    address_latch: (7 + 2) * 20, // 128 words, two bits of command
    data_latch: 2 * 32 * 20,
    output_driver: 32 * 3 * 2,
  };

  test("each part has the transistors that it is built from", () => {
    for (const [part, count] of Object.entries(PERIPHERY)) {
      expect(q(`all_${part}_transistors`), part).toBe(count);
    }
    expect(q("all_cells_transistors")).toBe(4096 * 6);
  });

  test("the macro has their sum", () => {
    // 7 address bits, 32 bits in, 32 out: one driver each, behind a chain whose number of inverters follows its size.
    const size = q("route_driver_size");
    const route = (7 + 64) * 2 * (1 + Math.max(1, Math.round(Math.log(size) / Math.log(RHO))));
    const all = Object.values(PERIPHERY).reduce((sum, n) => sum + n, 0);
    near("transistors", 4096 * 6 + all + route, COUNTING);
  });
});

// A cell of 0.57 um2, 2.2 times as wide as high.
const WIDTH = Math.sqrt(2.2 * 0.57e-12);
const HEIGHT = 0.57e-12 / WIDTH;
const ROW = (64 * 1.03 + 4) * WIDTH;
const COLUMN = (64 * 1.03 + 4) * HEIGHT;
describe("lines", () => {
  test("lengths and resistances are those of 64 cells, straps of 3 % and two cells at each end", () => {
    near("row_length", ROW, COUNTING);
    near("column_length", COLUMN, COUNTING);
    near("row_resistance", ROW * wireResistance("intermediate"), 1e-9);
    near("column_resistance", COLUMN * wireResistance("local"), 1e-9);
  });

  test("over one plane, a wire's capacitance is that of Laplace's equation within the 10 % of its formula", () => {
    const one = quantitiesOf(KEYS, { ...TOP, defaults: { overrides: { planes: "1" } } });
    for (const [wire, level] of [
      ["row", "intermediate"],
      ["column", "local"],
    ] as const) {
      const solved = wireCapacitance(level, 1);
      const error = one(`${wire}_wire_capacitance_per_length`) / solved - 1;
      expect(Math.abs(error), `${wire} ${error}`).toBeLessThan(0.1);
      // What a second plane adds is shielded by the neighbours: Laplace's equation has 6 to 8 % more with two planes.
      expect(wireCapacitance(level, 2) / solved).toBeLessThan(1.1);
      // The sheet adds half of the fringe for it, so that its usual plane and a half read up to a fifth too high.
      const usual = q(`${wire}_wire_capacitance_per_length`) / solved;
      expect(usual).toBeLessThan(1.25);
    }
  });

  test("a cell hangs two gates on its row, and half of a shared drain on each of its columns", () => {
    const row = ROW * q("row_wire_capacitance_per_length");
    near("row_capacitance", row + 64 * 2 * 0.12 * 1e-15, 1e-9);
    const column = COLUMN * q("column_wire_capacitance_per_length");
    near("column_capacitance", column + 64 * 0.5 * 0.12 * 0.8e-15, 1e-9);
  });
});

describe("a read, step by step", () => {
  const cRow = q("row_capacitance");
  const cColumn = q("column_capacitance");
  const wire = q("route_wire_capacitance_per_length");

  /** The fastest of the odd numbers of stages from an address inverter through a gate of three inputs to its wire. */
  const decode = () => {
    const gate = (inputs: number) => (inputs + 1 / P.p_to_n_current) / PAIR;
    // Eight rows hang a gate of two inputs on each wire.
    const load = COLUMN * wire + 8 * gate(2) * C_IN;
    const paths = [3, 5, 7].map((stages) => {
      const inverters = Array.from({ length: stages - 2 }, () => ({ effort: 1, branches: 1 }));
      const path = [{ effort: 1, branches: 4 }, { effort: gate(3), branches: 1 }, ...inverters];
      return { stages, delay: fastest(path, load) + stages + 2 };
    });
    return paths.reduce((best, one) => (one.delay < best.delay ? one : best));
  };

  test("five stages decode fastest, as a search over all sizes finds", () => {
    const best = decode();
    expect(best.stages).toBe(5);
    expect(q("row_decoder_predecode_stages")).toBe(5);
    // Behind it a gate of two inputs drives the smallest inverter: effort 1, parasitic 2. The wire adds 0.1 ps.
    near("decode_delay", TAU * (best.delay + 1 + 2), 0.005);
  });

  test("the row follows three inverters, and its wire lags a ladder's 50 %", () => {
    const driver = chainTo(cRow, true);
    expect(driver.inputs.length).toBe(3);
    near("row_driver_delay", driver.delay, 1e-9);
    const lag = { driver: 0, resistance: q("row_resistance"), capacitance: cRow, load: 0 };
    near("row_line_delay", ladderDelay({ ...lag, share: 0.5 }), 0.02);
  });

  test("the select line has its own chain and lags half of its gates", () => {
    const gates = 32 * q("column_multiplexer_select_capacitance");
    const chain = chainTo(ROW * wire + gates);
    const smallest = chainTo(ROW * wire).inputs.length;
    expect(smallest).toBeLessThanOrEqual(chain.inputs.length);
    const line = { driver: 0, resistance: q("row_resistance"), capacitance: ROW * wire + gates };
    const lag = ladderDelay({ ...line, load: 0, share: 0.5 });
    // The gates are spread along the line: a ladder has them so, the sheet counts half of them at the end.
    near("column_select_delay", chain.delay + lag, 0.01);
  });

  test("the column follows its switch as a ladder does", () => {
    const line = {
      driver: q("column_series_resistance"),
      resistance: q("column_resistance"),
      capacitance: cColumn,
      load: q("column_multiplexer_node_capacitance"),
    };
    near("column_line_delay", ladderDelay({ ...line, share: 0.5 }), 0.03);
    // Devices of 0.386 um: a write's 72 uA may lose a twentieth of the supply over them.
    const linear = (0.8 * (1 - 0.33)) / (2 * P.nmos_on_current);
    near("column_multiplexer_switch_width", (linear * 72e-6) / 0.05, 1e-9);
  });

  test("the cell's current is that of its two devices in series", () => {
    // Access 0.12 um, driver 0.18 um, both with 0.6 of the logic current. The inner node rises to v: the access device
    // loses that drive, the driver is on the parabola of a saturation at 0.8 of its overdrive.
    const drive = P.supply - P.threshold_voltage;
    const saturation = 0.8 * drive;
    const access = (v: number) => 0.6 * P.nmos_on_current * 0.12e-6 * (1 - v / drive);
    const pull = (v: number) =>
      0.6 * P.nmos_on_current * 0.18e-6 * (2 - v / saturation) * (v / saturation);
    let [low, high] = [0, saturation];
    for (let i = 0; i < 60; i++) {
      const v = (low + high) / 2;
      if (access(v) > pull(v)) low = v;
      else high = v;
    }
    // The sheet takes the driver's slope at zero, which flatters it by what the parabola bends.
    near("cell_on_current", access(low), 0.05);
    // 120 mV of its column, and a quarter of the time as a guard.
    near("sense_amplifier_signal_time", (1.25 * cColumn * 0.12) / access(low), 0.05);
  });

  test("the amplifier's pair beats six sigmas of half of the swing, and its latch is an exponential", () => {
    const sigma = 0.06 / 6;
    const length = 0.4 * P.contacted_gate_pitch;
    near("sense_amplifier_pair_width", (P.matching_coefficient / sigma) ** 2 / length, 1e-9);
    // Latch devices of 0.48 um, twice the average: 716 uS against 3.2 fF, from 60 mV to 1 V, stepped in time.
    const conductance = (P.nmos_on_current * 2 * W_LOGIC) / (P.supply - P.threshold_voltage);
    const node = 2 * 2 * W_LOGIC * (1e-9 + 1.6e-9) + 2 * C_IN;
    const dt = 1e-15;
    let [v, t] = [0.06, 0];
    for (; v < P.supply; t += dt) v += (conductance / node) * v * dt;
    near("sense_amplifier_regeneration_time", t, 0.001);
  });

  test("the sum of the steps is the latency", () => {
    const held = 2 * TAU * (RHO + 1); // two gates of a flip-flop; two behind the sense latch
    const out = chainTo(50e-15).delay;
    near("output_driver_delay", out, 1e-9);
    const sense = q("sense_amplifier_signal_time") + q("sense_amplifier_regeneration_time") + held;
    const row = q("decode_delay") + q("row_driver_delay") + q("row_line_delay");
    const column = q("column_decoder_delay") + q("column_select_delay");
    const switched = q("column_line_delay") + q("column_multiplexer_delay");
    const guarded = GUARD * (Math.max(row, column) + switched);
    // The address is held in a flip-flop, and so is the word on its way out.
    const latency = held + q("route_delay") + guarded + sense + q("route_delay") + held + out;
    // The overdrive of 0.67 V has the exponential's tail, 0.2 millionths of it.
    near("read_latency", latency, 1e-6);
  });

  test("the way across the macro is a chain and one driver with 65 um of wire", () => {
    const side = Math.sqrt(q("tile_array_area") + q("side_area_without_data_drivers"));
    const load = side * wire;
    const size = load / (P.drive_effort * C_IN);
    near("route_driver_size", size, 1e-9);
    const chain = Math.max(1, Math.round(Math.log(size) / Math.log(RHO))) * TAU * (RHO + 1);
    // The driver: effort eight, parasitic one; the wire's own lag is a tenth of a picosecond.
    near("route_delay", chain + TAU * (P.drive_effort + 1), 0.01);
  });
});

describe("energy, leakage and area", () => {
  const v2 = P.supply ** 2;

  test("a read charges one row, 64 columns by 120 mV, and the gates that moved", () => {
    near("row_read_energy", q("row_capacitance") * v2, COUNTING);
    near("column_read_energy", 64 * q("column_capacitance") * 0.12 * P.supply, COUNTING);
    // 64 precharges of three gates; switches of one of two columns for 32 amplifiers.
    near(
      "all_precharge_read_energy",
      64 * q("precharge_width") * P.gate_capacitance * v2,
      COUNTING,
    );
    const gates = 32 * 4 * q("column_multiplexer_switch_width") * P.gate_capacitance;
    near("all_column_multiplexer_read_energy", gates * v2, COUNTING);
  });

  test("a write moves a pair of columns whole and leaves the neighbour's half selected", () => {
    const whole = 32 * 2 * q("column_capacitance") * v2;
    const half = 32 * q("column_capacitance") * 0.12 * P.supply;
    near("column_write_energy", whole + half, COUNTING);
    // Half of the bits flip: both inner nodes, each two gates and two drains of 0.12 and 0.18 um.
    const node = (1e-9 + 0.8e-9) * (0.18e-6 + 2 * 0.12e-6);
    near("cell_write_energy", 32 * 0.5 * 2 * node * v2, 1e-9);
  });

  test("a cell leaks through one driver, one access and one load", () => {
    // A tenth of the 50 nA/um of fast logic; the p-type load carries 0.55 of it. The gate of the driver that is on and
    // the junction of the access device lose 5 nA/um, whatever the threshold.
    const channels = 0.1 * P.nmos_off_current * (0.18e-6 + 0.12e-6 + 0.12e-6 * 0.55);
    const gates = P.fixed_leakage_current * (0.18e-6 + 0.12e-6);
    near("all_cells_leakage", 4096 * (channels + gates) * P.supply, 1e-9);
    // Inverters leak through one of their two devices.
    const driver = chainTo(q("row_capacitance"), true);
    const width = driver.width - C_IN / P.gate_capacitance;
    // Three tenths of the widths are fast, the rest leaks a tenth of that.
    const leak = (0.3 + 0.7 * 0.1) * P.nmos_off_current + P.fixed_leakage_current;
    near("all_row_driver_leakage", (64 * width * leak * P.supply) / 2, 1e-9);
  });

  test("the area is cells, straps and what stands beside them, device by device", () => {
    near("all_cells_area", 4096 * 0.57e-12, COUNTING);
    near("all_edges_area", ROW * COLUMN - 4096 * 0.57e-12, 1e-9);
    const { pitch_layout_share: wiring } = P;
    const length = 0.4;
    const pair = q("sense_amplifier_pair_width") * (1 + length); // longer by its channel
    const latch = 2 * W_LOGIC;
    const amplifier = [pair, pair, ...Array(4).fill(latch), ...Array(13).fill(W_LOGIC)] as number[];
    near("all_sense_amplifier_area", 32 * layout(amplifier, wiring), 1e-9);
    const pullUp = q("precharge_device_width");
    near("all_precharge_area", 64 * layout([pullUp, pullUp, pullUp], wiring), 1e-9);
    const inverters = chainTo(q("row_capacitance"), true).inputs.slice(1);
    const devices = inverters.flatMap((c) => [
      c / P.gate_capacitance / PAIR,
      (c / P.gate_capacitance / PAIR) * (PAIR - 1),
    ]);
    near("all_row_driver_area", 64 * layout(devices), 1e-9);
    near("all_macro_control_area", 1600 * LOGIC_DEVICE_AREA, 1e-9);
    near("all_data_latch_area", 64 * P.flip_flop_area, COUNTING);
    // The decoder is logic at the library's density, but for the wider buffers of its 16 wires.
    near("all_row_decoder_area", 588 * LOGIC_DEVICE_AREA, 0.05);
  });
});
