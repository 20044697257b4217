// 4 Kib of one transistor and one switch in a tile of 64 x 64, 32-bit words, two columns to an amplifier, 65 nm, 1 V,
// 300 K: worked out on paper like the static macro beside. The switch: 6 and 200 kohm read at 0.2 V, set at 0.9 V in
// 20 ns, reset at 1.2 V in 30 ns, 100 uA, one and a half pulses a write (middle figures of its class, from memory).
import { expect, test } from "vitest";
import { OXIDE_TRANSISTOR, quantitiesOf } from "../estimate/study.ts";
import {
  C_IN,
  chainTo,
  GUARD,
  ladderDelay,
  layout,
  P,
  PAIR,
  RHO,
  TAU,
  wireResistance,
} from "./macro-by-hand.ts";

const q = quantitiesOf(
  { cell: OXIDE_TRANSISTOR, capacity: "4 Kib", tile: { rows: 64, columns: 64, column_share: 2 } },
  { technology: "cmos-65", temperature: "300 K" },
);

const COUNTING = 1e-12;
const near = (name: string, paper: number, tolerance: number) =>
  expect(Math.abs(q(name) / paper - 1), `${name}: ${q(name)} for ${paper}`).toBeLessThan(tolerance);

const SWITCH = { on: 6e3, off: 200e3, read: 0.2, limit: 100e-6, reset: 1.2, pulses: 1.5 };
const THICK = {
  length: 0.28e-6,
  pitch: 0.423e-6,
  gate: 1.7e-9,
  on: 550,
  threshold: 0.55,
  supply: 2.5,
};
/** Drain current of a device of 1 um at full gate drive, on the parabola up to 0.8 of its overdrive. */
const current = (v: number) => {
  const saturation = 0.8 * (P.supply - P.threshold_voltage);
  const x = Math.min(1, v / saturation);
  return P.nmos_on_current * 1e-6 * (2 - x) * x;
};
/** Voltage at which a rising function of it passes a value. */
function where(rising: (v: number) => number, value: number, high: number): number {
  let [low, top] = [0, high];
  for (let i = 0; i < 80; i++) {
    const v = (low + top) / 2;
    if (rising(v) < value) low = v;
    else top = v;
  }
  return low;
}

test("the switch and the process are those of the worksheet", () => {
  for (const [name, value] of Object.entries(P)) {
    if (name !== "sram_6t_cell_area") expect(q(name), name).toBe(value);
  }
  const thick = ["gate_length", "contacted_pitch", "gate_capacitance", "on_current"];
  const { length, pitch, gate, on } = THICK;
  expect(thick.map((name) => q(`thick_${name}`))).toEqual([length, pitch, gate, on]);
  expect([q("on_resistance"), q("off_resistance"), q("read_voltage")]).toEqual([6e3, 200e3, 0.2]);
  expect([q("current_limit"), q("reset_voltage"), q("verify_pulses")]).toEqual([1e-4, 1.2, 1.5]);
});

test("every part has the transistors that it is built from", () => {
  const paper = {
    cells: 4096,
    row_decoder: 12 + 16 * 8 + 64 * 6 + 16 * 2 * 2,
    row_driver: 64 * (6 + 2 * 2), // a level shifter and two thick-oxide inverters
    column_decoder: 2 + 2 * 4,
    column_select: 2 * (6 + 3 * 2),
    column_multiplexer: 32 * 2 * 2,
    sense_amplifier: 32 * (12 + 8),
    reference: 2 * (12 + 4 + 2 * 16), // one for 16 amplifiers: generator, four cells, two mirrors each
    data_driver: 32 * 10,
    write_driver: 32 * 20,
    source_line: 64 * 3 + 2 * (6 + 3 * 2), // a pair and a holder each, two select lines like the columns'
    bank_control: 120 * 4 + 3 * 3 * 2,
    macro_control: 400 * 4,
    clock: 3 * 2,
    verify_logic: 1500 * 4 + 32 * 6 * 4,
    write_regulator: 40,
    address_latch: 9 * 20,
    data_latch: 64 * 20,
    output_driver: 32 * 3 * 2,
  };
  for (const [part, count] of Object.entries(paper)) {
    expect(q(`all_${part}_transistors`), part).toBe(count);
  }
  const size = q("route_driver_size");
  const route = (7 + 64) * 2 * (1 + Math.max(1, Math.round(Math.log(size) / Math.log(RHO))));
  const all = Object.values(paper).reduce((sum, n) => sum + n, 0);
  near("transistors", all + route, COUNTING);
  expect(q("switches")).toBe(4096);
});

// 1.3 x 100 uA of the worst junction at half of three quarters of the 1000 uA/um: a device of 0.347 um.
const DEVICE = (1.3 * SWITCH.limit) / (0.5 * 0.75 * P.nmos_on_current);

test("the cell is as wide as its transistor and a gap, and one and a half gate pitches high", () => {
  near("access_width", DEVICE, 1e-9);
  // With 0.105 um beside it wider than two wires and two gaps; two gates would be 0.44 um by those.
  const wide = DEVICE + P.metal_half_pitch;
  expect(wide).toBeGreaterThan(4 * P.metal_half_pitch);
  expect(wide * 1.5).toBeLessThan(4 * P.metal_half_pitch * 2);
  near("cell_area", wide * 1.5 * P.contacted_gate_pitch, 1e-9);
  near("all_cells_area", 4096 * wide * 0.33e-6, 1e-9);
});

test("a read divides 0.2 V between switch and transistor", () => {
  const across = (resistance: number) =>
    where((v) => 1e6 * DEVICE * current(v) - (SWITCH.read - v) / resistance, 0, SWITCH.read);
  const on = (SWITCH.read - across(SWITCH.on)) / SWITCH.on;
  const off = (SWITCH.read - across(SWITCH.off)) / SWITCH.off;
  // The transistor has 36 mV: the parabola bends by 3 % there, of the fifth of the resistance that it is.
  near("cell_on_current", on, 0.01);
  near("cell_off_current", off, 0.001);
  near("signal_current", on - off, 0.01);
  // Closed neighbours: 50 nA/um on 0.347 um, 63 of them.
  near("column_leak_current", 63 * 50e-9 * 1e6 * DEVICE, 1e-9);
});

test("a write needs the reset voltage, what its transistor drops at 100 uA, and what the column drops", () => {
  const drop = where((v) => 1e6 * DEVICE * current(v), SWITCH.limit, 0.536);
  near("access_drop", drop, 1e-9);
  const column = (64 * 1.03 + 4) * 0.33e-6 * wireResistance("local");
  near("write_voltage", SWITCH.reset + drop + SWITCH.limit * column, 1e-9);
  // Mean of set and reset pulses, each with its whole current; one and a half of them, 32 cells.
  const energy = (q("write_voltage") * SWITCH.limit * (20e-9 + 30e-9) * SWITCH.pulses) / 2;
  near("cell_write_energy", 32 * energy, 1e-9);
  // The regulator takes 5 % more current from 2.5 V for as long as the longer pulses are, at most.
  const drawn = 2.5 * 1.05 * 32 * SWITCH.limit * 30e-9 * SWITCH.pulses;
  const delivered = q("write_voltage") * 32 * SWITCH.limit * 30e-9 * SWITCH.pulses;
  near("write_regulator_write_energy", drawn - delivered, 1e-9);
});

/** A mirror has a third of the overdrive of 0.67 V. */
const OVERDRIVE = 0.33 * (P.supply - P.threshold_voltage);
const mean = () => (q("cell_on_current") + q("cell_off_current")) / 2 + q("column_leak_current");

/**
 * Half of the difference between cells two deviations out on both sides. Deviations of ln R: from device to device 0.15
 * and 0.5, from cycle to cycle 0.15.
 */
const tail = () => {
  const on = q("cell_on_current") * Math.exp(-2 * Math.hypot(0.15, 0.15));
  const off = q("cell_off_current") * Math.exp(2 * Math.hypot(0.5, 0.15));
  const lost = q("cell_on_current") - on + (off - q("cell_off_current"));
  return (q("signal_current") - lost) / 2;
};

test("the column settles through clamp and switch until a tenth of the signal is missing, as a ladder does", () => {
  const clamp = OVERDRIVE / (2 * mean()); // a square-law device
  const linear = (0.8 * (THICK.supply - THICK.threshold)) / (2 * THICK.on);
  const open = linear / q("column_multiplexer_switch_width");
  near("column_series_resistance", clamp + open, 1e-6);
  const line = {
    driver: clamp + open,
    resistance: q("column_resistance"),
    capacitance: q("column_capacitance"),
    load: q("column_multiplexer_node_capacitance"),
  };
  const missing = (0.1 * tail()) / mean();
  near("column_line_delay", ladderDelay({ ...line, share: 1 - missing }), 0.01);
});

test("the amplifier gives half of a tail's half signal to the offset and charges its latch with the rest", () => {
  const half = tail();
  // A mirror's mismatch is 2 dV / 0.22 V of its current: dV from half of that at six sigmas.
  const offset = (half / 2 / mean()) * (OVERDRIVE / 2);
  const length = 0.4 * P.contacted_gate_pitch;
  const width = (P.matching_coefficient / (offset / 6)) ** 2 / length;
  near("sense_amplifier_pair_width", width, 1e-6);
  const latch = Math.max(0.48e-6, width / 2);
  // The latch lets go at twice its own offset of six sigmas: its capacitance, the pair's gates and drains.
  const step = (2 * 6 * P.matching_coefficient) / Math.sqrt(latch * length);
  const node =
    2 * latch * (1e-9 + 1.6e-9) + 2 * C_IN + width * (0.4 * 2 * 1e-9 + 2 * P.drain_capacitance);
  near("sense_amplifier_signal_time", (1.25 * node * step) / (half / 2), 1e-6);
  // Sixteen mirrors behind the current of four cells.
  const gates = 16 * width * 0.4 * 2 * P.gate_capacitance;
  const settled = Math.log(mean() / (0.1 * half)) * gates * (OVERDRIVE / (2 * mean()) / 4);
  near("sense_amplifier_reference_delay", settled, 1e-6);
});

test("a thick-oxide chain behind a level shifter drives the row, and the steps sum to the latencies", () => {
  const unit = Math.log(2) * (2.5 / (2 * Math.log(2) * 0.55 * THICK.on)) * THICK.gate * PAIR;
  const first = THICK.gate * THICK.length * PAIR;
  // 18.5 fF are 13 times the smallest input: that one drives 1.6 times itself, the next eight times.
  const middle = q("row_capacitance") / 8;
  const chain = unit * (middle / first + 1 + 8 + 1);
  near("row_driver_delay", 15 * unit + chain, 1e-9);
  const held = 2 * TAU * (RHO + 1);
  const row = q("decode_delay") + q("row_driver_delay") + q("row_line_delay");
  const path = Math.max(row, q("column_decoder_delay") + q("column_select_delay"));
  const selected = held + q("route_delay") + path;
  const column = Math.max(
    q("column_line_delay") + q("column_multiplexer_delay"),
    q("sense_amplifier_reference_delay"),
  );
  const sensed = q("sense_amplifier_delay");
  const out = q("route_delay") + held + chainTo(50e-15).delay;
  const before = held + q("route_delay");
  near("read_latency", before + GUARD * (path + column) + sensed + out, 1e-6);
  // All 32 cells at once: 3.2 mA of the 4 mA that the macro may draw. Pulses, and a verify read after each.
  const pulses = SWITCH.pulses * (30e-9 + column + sensed);
  // The wire lags its driver by 1.03 RC until nine tenths (the exact line: 1.031).
  const drive = q("write_driver_delay") + 1.03 * q("column_resistance") * q("column_capacitance");
  near("write_latency", selected + drive + pulses, 1e-8);
});

test("write drivers are the largest part: thick devices that carry 100 uA at a twentieth of the write voltage", () => {
  const linear = (0.8 * (THICK.supply - THICK.threshold)) / (2 * THICK.on);
  const width = (linear * SWITCH.limit) / (0.05 * q("write_voltage"));
  near("write_driver_drive_width", width, 1e-9);
  // Two half bridges and a mirror in both polarities, 14 small ones of the level shifters and the enable.
  const bridge = [width, width, width / 0.55, width / 0.55, width, width];
  const small = Array(14).fill(THICK.length) as number[];
  // Thick devices stand 0.423 um apart along the current, and need as much isolation beside as others.
  const scale = THICK.pitch / P.contacted_gate_pitch;
  near("all_write_driver_area", 32 * layout([...bridge, ...small], 2.5) * scale, 1e-9);
});
