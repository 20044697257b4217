// Access devices and selectors on paper: widths by the current that a write needs, cells by what has to fit, voltages by
// the elements in series.
import { describe, expect, test } from "vitest";
import type { Sheet } from "../../../src/formulas/sheet.ts";
import { arrayDiode } from "../../../src/models/selector/array-diode.ts";
import { arrayTransistor } from "../../../src/models/selector/array-transistor.ts";
import { biasSheets } from "../../../src/models/selector/bias.ts";
import { fieldTransistor } from "../../../src/models/selector/field-transistor.ts";
import { accessTransistor } from "../../../src/models/selector/transistor.ts";
import { oddValues, type Values } from "../odd.ts";
import { expectPaper } from "../periphery/worksheet/paper.ts";

/** Voltage that a device on its parabola loses at a share of its saturation current. */
const parabola = (saturation: number, share: number) => {
  let [low, high] = [0, saturation];
  for (let i = 0; i < 100; i++) {
    const v = (low + high) / 2;
    const current = (2 * v) / saturation - (v / saturation) ** 2;
    if (current < Math.min(1, share)) low = v;
    else high = v;
  }
  return (low + high) / 2;
};

describe("an access transistor of the logic process", () => {
  const base = {
    supply: 1.05,
    io_supply: 2.55,
    threshold_voltage: 0.33,
    core_overdrive: 1.2,
    minimum_width: 80e-9,
    contacted_gate_pitch: 210e-9,
    metal_half_pitch: 95e-9,
    feature: 95e-9,
    thick_gate_length: 0.31e-6,
    thick_contacted_pitch: 0.77e-6,
    thick_width_ratio: 1.3,
    thick_on_current: 510,
    on_current: 930,
    nmos_on_current: 1010,
    write_current_margin: 1.4,
    access_drive_share: 0.55,
    unipolar_drive_share: 0.9,
    worst_drive_share: 0.75,
    active_spacing_ratio: 1.4,
    landing_pitch_ratio: 3.1,
    fin_break_gates: 2,
    source_lines_per_cell: 0.5,
    write_polarities: 2,
    layout_width_ratio: 1,
    switch_write_voltage: 1.1,
    switch_write_current: 70e-6,
    drain_saturation_voltage: 0.5,
    lesser_write_share: 1,
  };
  const CASES: readonly Values[] = [
    {},
    { switch_write_current: 500e-6 },
    { switch_write_current: 1e-6 },
    { switch_write_current: 9e-3 },
    { write_polarities: 1 },
    { lesser_write_share: 0.8 },
    { lesser_write_share: 0.3 },
    { switch_write_voltage: 2.1 },
    { switch_write_voltage: 2.1, switch_write_current: 1e-6 },
    { switch_write_voltage: 2.1, layout_width_ratio: 0.6 },
    { layout_width_ratio: 0.6 },
    { layout_width_ratio: 0.6, switch_write_current: 500e-6 },
    { layout_width_ratio: 0.6, switch_write_current: 1e-6 },
    { feature: 0.4e-6, switch_write_current: 1e-6 },
    { contacted_gate_pitch: 40e-9, switch_write_current: 1e-6 },
    { on_current: 1100, switch_write_voltage: 0.4 },
    { active_spacing_ratio: 0.1, layout_width_ratio: 0.6 },
  ];
  test.each(CASES)("with %o: the smaller of cells of one gate and of two", (given) => {
    const v = oddValues(accessTransistor, { ...base, ...given });
    const thick = v["switch_write_voltage"]! > 1.2 * 1.05;
    const fins = !thick && v["layout_width_ratio"]! < 1;
    const pitch = thick ? 0.77e-6 : v["contacted_gate_pitch"]!;
    const least = thick ? 1.3 * 0.31e-6 : 80e-9;
    const ratio = thick ? 1 : v["layout_width_ratio"]!;
    const current = thick ? 510 : Math.max(v["on_current"]!, 1010);
    // The pulse of the lesser current lifts the device's source; the other one decides where it needs far more.
    const lifted = Math.min(0.55 / (v["lesser_write_share"] ?? 1), 0.9);
    const share = v["write_polarities"]! > 1 ? lifted : 0.9;
    const worst = 1.4 * v["switch_write_current"]!;
    const wanted = Math.max(least, worst / (share * 0.75 * current));
    /** Whole fins, where there are fins. */
    const drawn = (width: number) => {
      if (!fins) return Math.max(least, width);
      let count = 1;
      while (count * least < width * (1 - 1e-12)) count++;
      return count * least;
    };
    const spacing = Math.max(
      1.4 * 95e-9 * (v["active_spacing_ratio"]! / 1.4),
      fins ? least * ratio : 0,
    );
    const landing = 3.1 * 95e-9;
    const sources = v["write_polarities"]! > 1 ? 0.5 : 0;
    const lines = 2 * v["feature"]! * (1 + sources);
    const wide = (finger: number) => Math.max(finger * ratio + spacing, lines, landing);
    // A gate and its break, half a pitch or some dummy gates of fins; or two gates with a shared middle.
    const one = {
      finger: drawn(wanted),
      high: Math.max(pitch * (1 + (fins ? 2 / 2 : 1 / 2)), landing),
    };
    const two = { finger: drawn(wanted / 2), high: Math.max(2 * pitch, landing) };
    const doubled = wide(two.finger) * two.high < wide(one.finger) * one.high;
    const chosen = doubled ? two : one;
    const width = doubled ? 2 * two.finger : one.finger;
    const saturation = thick ? v["thick_drain_saturation_voltage"]! : 0.5;
    const load = v["switch_write_current"]! / (width * current);
    const gate = thick ? 2.55 : 1.05;
    const writes = thick
      ? 2.55
      : Math.max(1.05, Math.min(1.2 * 1.05, v["switch_write_voltage"]! + 0.33));
    expectPaper(v, {
      access_width: width,
      access_gates: doubled ? 2 : 1,
      access_cell_width: wide(chosen.finger),
      access_cell_height: chosen.high,
      access_gate_load: width * (thick ? v["thick_gate_capacitance"]! : v["gate_capacitance"]!),
      access_drain_load: width * v["drain_capacitance"]!,
      access_resistance:
        (thick ? v["thick_unit_linear_resistance"]! : v["unit_linear_resistance"]!) / width,
      access_off_current:
        width * (thick ? v["thick_off_current"]! * v["leakage_heat_ratio"]! : v["off_current"]!),
      access_gate_voltage: gate,
      access_write_gate_voltage: Math.max(gate, writes),
      access_on_current: thick ? 510 : v["on_current"]!,
      access_load_share: Math.min(1, load),
      largest_element_area: Math.PI * ((landing - 95e-9) / 2) ** 2,
    });
    const drop = parabola(saturation, load);
    expect(Math.abs(v["access_drop"]! / drop - 1)).toBeLessThan(1e-7);
  });
});

test.each([1e-6, 300e-6])("an array transistor of a memory process for %f A", (current) => {
  for (const thick_gate_length of [0.05e-6, 0.4e-6]) {
    const v = oddValues(arrayTransistor, {
      feature: 40e-9,
      selector_least_cell_squares: 6,
      selector_width_ratio: 2.2,
      selector_on_current: 410,
      selector_gate_voltage: 2.7,
      io_supply: 2.5,
      write_current_margin: 1.3,
      array_drive_share: 0.8,
      switch_write_current: current,
      thick_gate_length,
    });
    // A recessed channel is wider than it is drawn.
    const width = Math.max(2.2 * 40e-9, (1.3 * current) / 0.8 / 410);
    const layout = width / 2.2;
    const saturation = (v["thick_drain_saturation_voltage"]! / 2.5) * 2.7;
    expectPaper(v, {
      access_width: width,
      access_cell_height: 3 * 40e-9,
      access_cell_width: Math.max(80e-9, layout + 40e-9),
      access_drain_load: layout * v["drain_capacitance"]!,
      // A gate is two half pitches long at most.
      access_gate_load:
        width * v["thick_gate_capacitance"]! * Math.min(1, 80e-9 / thick_gate_length),
      access_gate_voltage: 2.7,
      access_write_gate_voltage: 2.7,
      access_resistance: saturation / 2 / (410 * width),
      access_off_current:
        (v["selector_closed_current"]! / v["nmos_off_current"]!) * v["off_current"]!,
      largest_element_area: Math.PI * 20e-9 ** 2,
    });
    const drop = parabola(saturation, current / (width * 410));
    expect(Math.abs(v["access_drop"]! / drop - 1)).toBeLessThan(1e-7);
  }
});

test("a junction in silicon: its own voltage and resistance, straps, a gain that leads current away", () => {
  const v = oddValues(arrayDiode, {
    feature: 40e-9,
    selector_least_cell_squares: 4.6,
    selector_strap_cells: 8,
    selector_current_gain: 3,
    junction_area_capacitance: 1.1e-2,
    selector_saturation_current: 2e-14,
    selector_emission_voltage: 0.031,
    selector_on_resistance: 700,
    on_resistance: 9e3,
    read_voltage: 0.4,
    switch_write_current: 240e-6,
    switch_write_voltage: 1.3,
  });
  const junction = (i: number) => 0.031 * Math.log(1 + i / 2e-14) + i * 700;
  const reading = junction(0.4 / 9e3);
  const load = v["junction_area_capacitance"]! * 40e-9 ** 2;
  expectPaper(v, {
    access_cell_height: 2.3 * 40e-9,
    access_cell_width: 80e-9 * (9 / 8),
    access_gate_load: load,
    access_drain_load: load,
    access_drop: junction(240e-6),
    read_junction_voltage: reading,
    access_gate_voltage: 0.4 + reading,
    access_write_gate_voltage: 1.3 + junction(240e-6),
    // The slope of the junction at the current of a cell that is on.
    access_resistance: 700 + 0.031 / (0.4 / 9e3),
    access_off_current:
      (v["selector_closed_current"]! / v["nmos_off_current"]!) * v["off_current"]!,
    row_sink_share: 1 / 4,
    largest_element_area: Math.PI * 20e-9 ** 2,
  });
});

test("a field-written element under two lines that must enclose it", () => {
  for (const [element_width, element_length, minimum_width] of [
    [0.1e-6, 0.2e-6, 0.9e-6],
    [0.5e-6, 0.9e-6, 0.1e-6],
  ] as const) {
    const v = oddValues(fieldTransistor, {
      feature: 0.4e-6,
      metal_half_pitch: 0.35e-6,
      line_enclosure_ratio: 0.3,
      active_spacing_ratio: 1.3,
      contacted_gate_pitch: 1.9e-6,
      element_width,
      element_length,
      minimum_width,
    });
    const enclosure = 0.105e-6;
    const bit = Math.max(0.4e-6, element_length + 2 * enclosure);
    const digit = Math.max(0.4e-6, element_width + 2 * enclosure);
    expectPaper(v, {
      access_width: minimum_width,
      access_cell_width: Math.max(bit + 0.4e-6, minimum_width + 1.3 * 0.35e-6),
      // The digit line and a landing of its own width, with a spacing each; a gate and a half.
      access_cell_height: Math.max(
        digit + 0.4e-6 + (0.4e-6 + 2 * enclosure) + 0.4e-6,
        1.5 * 1.9e-6,
      ),
      access_gate_load: minimum_width * v["gate_capacitance"]!,
      access_drain_load: minimum_width * v["drain_capacitance"]!,
      access_resistance: v["unit_linear_resistance"]! / minimum_width,
      access_off_current: v["off_current"]! * minimum_width,
      access_gate_voltage: v["supply"]!,
      largest_element_area: element_width * element_length,
    });
  }
});

describe("voltages over a junction and its selector", () => {
  const given = {
    read_voltage: 0.31,
    on_resistance: 8e3,
    off_resistance: 220e3,
    set_voltage: 1.3,
    reset_voltage: 1.6,
    switch_write_voltage: 1.6,
    switch_write_current: 70e-6,
    disturb_voltage: 0.9,
    disturb_on_current: 2.3e-6,
    disturb_off_current: 0.7e-6,
    selector_on_resistance: 900,
    selector_saturation_current: 3e-13,
    selector_emission_voltage: 0.04,
    selector_threshold_voltage: 1.4,
    selector_hold_voltage: 0.5,
    selector_overdrive: 0.1,
    selector_nonlinearity: 3000,
    selector_nonlinearity_voltage: 1.1,
    selector_off_current: 4e-11,
  };
  const reading = 0.31 / 8e3;
  const paper = (name: keyof typeof biasSheets, more: Values, figures: Values) =>
    expectPaper(oddValues(biasSheets[name] as Sheet, { ...given, ...more }), figures, name);

  /** Selector of a law of voltage over current, in series with the switch. */
  const inSeries = (law: (current: number) => number) => ({
    array_read_voltage: 0.31 + law(reading),
    array_write_voltage: 1.6 + law(70e-6),
    // What an unselected junction stands before its switch moves: with either state's current.
    selector_margin_disturb: Math.min(1.3 + law(0.7e-6), 1.6 + law(2.3e-6)) - 0.9,
    selector_delay: 0,
  });

  test("none, a diode, a tunnel selector, one that is exponential in both polarities", () => {
    paper(
      "none",
      {},
      inSeries(() => 0),
    );
    const diode = (i: number) => 0.04 * Math.log(1 + i / 3e-13) + i * 900;
    paper("diode", {}, inSeries(diode));
    // A sinh law whose current at half of its voltage is 3000 times less.
    const scale = 1.1 / (2 * Math.acosh(1500));
    const prefactor = 1.1 / 900 / Math.sinh(1.1 / scale);
    paper(
      "tunnel",
      {},
      inSeries((i) => scale * Math.asinh(i / prefactor)),
    );
    const both = 4e-11 / Math.sinh(1.1 / 2 / 0.04);
    paper(
      "mixed_conductor",
      {},
      inSeries((i) => 0.04 * Math.asinh(i / both) + i * 900),
    );
  });

  test("the smaller margin counts, of whichever state", () => {
    const more = { set_voltage: 2.9 };
    paper("none", more, { selector_margin_disturb: 1.6 - 0.9 });
    const diode = (i: number) => 0.04 * Math.log(1 + i / 3e-13) + i * 900;
    paper("diode", more, { selector_margin_disturb: 1.6 + diode(2.3e-6) - 0.9 });
  });

  test("a threshold selector snaps above its threshold and then holds", () => {
    const snap = 1.4 * 1.1;
    const holds = (v: number, i: number) => 0.5 + v + i * 900;
    const read = Math.max(snap, holds(0.31, reading));
    paper(
      "threshold",
      {},
      {
        array_read_voltage: read,
        array_write_voltage: Math.max(snap, holds(1.6, 70e-6)),
        selector_margin_half: 1.4 * 0.9 - 0.9,
        selector_margin_hold: read - 0.5,
        selector_margin_read: Math.min(1.3, 1.6) - (read - 0.5),
        selector_delay: oddValues(biasSheets.threshold)["selector_turn_on_time"]!,
      },
    );
    const low = { selector_threshold_voltage: 0.2, reset_voltage: 1.1 };
    paper("threshold", low, {
      array_read_voltage: holds(0.31, reading),
      selector_margin_read: 1.1 - (holds(0.31, reading) - 0.5),
    });
    paper("threshold", { selector_threshold_voltage: 4 }, { array_write_voltage: 4.4 });
  });

  test("two switches back to back: the read sets the other one", () => {
    const read = 1.3 * (1 + 8 / 220) * 1.1;
    paper(
      "complementary",
      {},
      {
        array_read_voltage: read,
        array_write_voltage: 3.2,
        selector_margin_half: 1.3 - 0.9,
        selector_margin_read: 3.2 - read,
        selector_delay: 0,
      },
    );
    paper("complementary", { reset_voltage: 0.5 }, { array_write_voltage: read });
  });
});
