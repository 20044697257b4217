import { expect, test } from "vitest";
import type { Instance } from "../../../src/formulas/sheet.ts";
import { CELL_OUTPUTS } from "../../../src/models/cells/contract.ts";
import { CROSSBAR_OUTPUTS, SCHEMES } from "../../../src/models/crossbar/contract.ts";
import {
  type CellModel,
  cells,
  crosspointCellModel,
  processInstances,
  wireInstance,
} from "../../../src/models/registry.ts";
import { biasSheets, type SelectorKind } from "../../../src/models/selector/bias.ts";
import {
  entry,
  evaluate,
  ownFigures,
  selectorEntry,
  technologies,
  technology,
  type Values,
} from "../evaluate.ts";

const SELECTOR_FILES: Readonly<Record<SelectorKind, string>> = {
  none: "none",
  diode: "diode-silicon",
  threshold: "threshold-chalcogenide",
  tunnel: "nonlinear-tunnel",
  mixed_conductor: "mixed-conductor",
  complementary: "complementary-pair",
};

function at(model: CellModel, name: string, own: Values): Record<string, number> {
  const instances: Instance[] = [
    ...processInstances,
    wireInstance("row_wire_", "local"),
    wireInstance("column_wire_", "local"),
    ...model.instances,
  ];
  return evaluate(instances, {
    ...technology(name),
    row_capacitance: 1e-13,
    column_capacitance: 1e-13,
    column_resistance: 0,
    ...own,
  });
}

function plain(kind: string, name = "cmos-65", over: Values = {}): Record<string, number> {
  const path = kind.startsWith("resistive") ? "switches/oxide-bilayer" : `baselines/${kind}`;
  const own = { ...entry(path), ...ownFigures(kind), ...over };
  // What no sheet reads, such as the erase time of a block, is a parameter of the design itself.
  return { ...own, ...at(cells[kind]!, name, own) };
}

function crosspoint(selector: SelectorKind, scheme: (typeof SCHEMES)[number], over: Values = {}) {
  return at(crosspointCellModel(selector, { read: scheme, write: scheme }), "cmos-65", {
    ...entry("switches/oxide-bilayer"),
    ...selectorEntry(SELECTOR_FILES[selector]),
    ...over,
  });
}

/** What must hold of any cell. */
function expectSound(got: Values, model: CellModel): void {
  const defined = model.instances.flatMap(({ of, prefix = "" }) =>
    Object.entries(of.kind === "sheet" ? of.formulas : of.outputs).map(
      ([name, { unit }]) => [prefix + name, unit] as const,
    ),
  );
  const units = new Map(defined);
  for (const [name, [unit]] of Object.entries(CELL_OUTPUTS)) {
    expect(Number.isFinite(got[name]), name).toBe(true);
    if (name !== "signal_current") expect(got[name], name).toBeGreaterThanOrEqual(0);
    if (units.has(name)) expect(units.get(name), name).toBe(unit);
  }
  for (const name of ["cell_area", "cell_width", "cell_height", "row_load", "write_time"]) {
    expect(got[name], name).toBeGreaterThan(0);
  }
  expect(got["cell_on_current"]!).toBeGreaterThan(got["cell_off_current"]!);
}

test.each(Object.keys(cells))(
  "%s defines the cell contract with sound values at every node",
  (kind) => {
    for (const name of technologies) expectSound(plain(kind, name), cells[kind]!);
  },
);

const pairs = (Object.keys(biasSheets) as SelectorKind[]).flatMap((selector) =>
  SCHEMES.map((scheme) => [selector, scheme] as const),
);
test.each(pairs)(
  "a crosspoint with selector %s under %s defines both contracts",
  (selector, scheme) => {
    const got = crosspoint(selector, scheme);
    expectSound(got, crosspointCellModel(selector, { read: scheme, write: scheme }));
    for (const name of Object.keys(CROSSBAR_OUTPUTS)) expect(got[name], name).toBeDefined();
  },
);

test("outline times outline is the area of every cell, but decks divide only crosspoints", () => {
  for (const kind of Object.keys(cells)) {
    const got = plain(kind, "cmos-65", { decks: 2 });
    expect((got["cell_width"]! * got["cell_height"]!) / got["cell_area"]!, kind).toBeCloseTo(1, 12);
  }
  const got = crosspoint("threshold", "one-half", { decks: 2 });
  expect((got["cell_width"]! * got["cell_height"]!) / got["cell_area"]!).toBeCloseTo(2, 12);
});

test("half the half pitch makes a crosspoint a quarter as large, and film and load with it", () => {
  const [coarse, fine] = [100e-9, 50e-9].map((feature) =>
    crosspoint("none", "one-third", { feature }),
  );
  for (const name of ["cell_area", "row_load", "column_load"]) {
    expect(coarse![name]! / fine![name]!, name).toBeCloseTo(4, 10);
  }
});

test("more write current never makes a transistor cell smaller or more resistive", () => {
  let last = plain("resistive-transistor", "cmos-65", { current_limit: 1e-6 });
  for (const current_limit of [1e-5, 5e-5, 1e-4, 2e-4, 5e-4, 1e-3]) {
    const got = plain("resistive-transistor", "cmos-65", { current_limit });
    expect(got["cell_area"]!).toBeGreaterThanOrEqual(last["cell_area"]!);
    expect(got["access_resistance"]!).toBeLessThanOrEqual(last["access_resistance"]!);
    expect(got["access_width"]!).toBeGreaterThanOrEqual(last["access_width"]!);
    last = got;
  }
});

test("a transistor cell is never less than its lines: two half pitches by four at 65 nm", () => {
  const got = plain("resistive-transistor", "cmos-65", { current_limit: 1e-7 });
  expect(got["cell_width"]! / (4 * 105e-9)).toBeCloseTo(1, 12);
  expect(got["cell_height"]! / (1.5 * 220e-9)).toBeCloseTo(1, 12);
});

test("a write above what a core device stands takes a thick-oxide transistor", () => {
  expect(plain("resistive-transistor", "cmos-65", { reset_voltage: 1.5 })["access_thick"]).toBe(0);
  const thick = plain("resistive-transistor", "cmos-65", { reset_voltage: 1.51 });
  expect(thick["access_thick"]).toBe(1);
  expect(thick["row_swing"]).toBe(2.5);
  // Its gate pitch alone is nearly twice the core's, and its drive per width half.
  const core = plain("resistive-transistor");
  const { thick_contacted_pitch: pitch, contacted_gate_pitch: corePitch } = technology("cmos-65");
  const area = (got: typeof core) => got["cell_area"]!;
  expect(area(thick) / area(core)).toBeGreaterThan(pitch! / corePitch!);
});

test("more resistance in the cell never gives more current, signal or a faster write", () => {
  for (const kind of ["resistive-transistor", "resistive-array-transistor"]) {
    let last = plain(kind);
    for (const on_resistance of [8e3, 15e3, 5e4]) {
      const got = plain(kind, "cmos-65", { on_resistance });
      expect(got["cell_on_current"]!).toBeLessThan(last["cell_on_current"]!);
      expect(got["signal_current"]!).toBeLessThan(last["signal_current"]!);
      expect(got["write_time"]!).toBeGreaterThanOrEqual(last["write_time"]!);
      last = got;
    }
  }
});

test("leakage and refresh rise with temperature, non-volatile cells need neither", () => {
  for (const kind of Object.keys(cells)) {
    const [cold, hot] = [300, 358].map((temperature) => plain(kind, "cmos-65", { temperature }));
    const idle = (got: Values) => got["cell_standby_power"]! + got["refresh_power"]!;
    if (cells[kind]!.structure.pulsed) expect(idle(hot!), kind).toBe(0);
    else expect(idle(hot!), kind).toBeGreaterThan(idle(cold!) * 3);
  }
});

test("a cell over a junction in silicon by hand: its diode, its row's current, its straps", () => {
  const got = plain("resistive-array-diode", "cmos-65", { feature: 90e-9, column_resistance: 0 });
  // 4 squares of 90 nm, and an eighth of a column for each strap of 8 cells.
  expect(got["cell_area"]! / (4 * 90e-9 ** 2 * 1.125)).toBeCloseTo(1, 12);
  // 100 uA: 60 mV x ln(1e8 + 1) and 1 kohm in series.
  expect(got["access_drop"]!).toBeCloseTo(0.06 * Math.log(1e8 + 1) + 0.1, 12);
  expect(got["write_voltage"]!).toBeCloseTo(1.2 + 0.06 * Math.log(1e8 + 1) + 0.1, 12);
  expect(got["row_sink_current"]!).toBeCloseTo(100e-6, 15);
  const bipolar = plain("resistive-array-diode", "cmos-65", { selector_current_gain: 3 });
  expect(bipolar["row_sink_current"]!).toBeCloseTo(25e-6, 15);
});

test("one polarity of writes leaves the source at ground: less width, no source line per column", () => {
  const [two, one] = [2, 1].map((write_polarities) =>
    plain("resistive-transistor", "cmos-65", { write_polarities }),
  );
  // 0.85 of the saturation current instead of half of it.
  expect(two!["access_wanted_width"]! / one!["access_wanted_width"]!).toBeCloseTo(0.85 / 0.5, 12);
  expect(one!["line_room"]! / two!["line_room"]!).toBeCloseTo(1 / 2, 12);
});

test("a one-transistor resistive cell at 65 nm by hand", () => {
  const got = plain("resistive-transistor");
  // reset: min(1.2 V / 6 kohm, 100 uA) = 100 uA; 130 uA of the worst junction at 0.5 x 0.75 of 1000 A/m
  const width = 130e-6 / 375;
  expect(got["access_width"]! / width).toBeCloseTo(1, 12);
  // one gate: 1.5 x 220 nm by max(347 + 105, 420) nm; two gates: 440 nm by max(173 + 105, 420) nm
  expect(got["cell_area"]! / (330e-9 * (width + 105e-9))).toBeCloseTo(1, 12);
  // V_D0 = 0.8 x 0.67 V = 0.536 V; a share x of the current takes 0.536 (1 - sqrt(1 - x)) V
  const drop = 0.536 * (1 - Math.sqrt(1 - 100e-6 / (1000 * width)));
  expect(got["write_voltage"]!).toBeCloseTo(1.2 + drop, 12);
  // 0.2 V / (6 kohm + 0.536 V / (2 x 1000 A/m x 0.347 um))
  expect(got["cell_on_current"]!).toBeCloseTo(0.2 / (6000 + 0.536 / (2000 * width)), 12);
  // 1.5 pulses of 30 ns
  expect(got["write_time"]!).toBeCloseTo(45e-9, 15);
  // 1.357 V x (100 uA x 20 ns + 100 uA x 30 ns) / 2 x 1.5
  expect(got["write_cell_energy"]! / (got["write_voltage"]! * 3.75e-12)).toBeCloseTo(1, 12);
});

test("the far cell's write voltage has the column's drop on top, less with wider wires", () => {
  const [ideal, real] = [0, 1e3].map((column_resistance) =>
    plain("resistive-transistor", "cmos-65", { column_resistance }),
  );
  // 100 uA through 1 kohm
  expect(real!["write_voltage"]! - ideal!["write_voltage"]!).toBeCloseTo(0.1, 12);
});

test("a charge-sharing signal is the share of the cell's charge on the column", () => {
  const got = plain("dram-1t1c", "cmos-65", { column_capacitance: 80e-15 });
  // 20 fF at half of 1 V from the column's rest, with 80 fF: 0.5 V x 20 / 100
  expect(got["signal_voltage"]!).toBeCloseTo(0.1, 12);
  expect(got["read_is_destructive"]).toBe(1);
});

test("a threshold selector has no margin left when half of a write would snap it", () => {
  expect(crosspoint("threshold", "one-half")["selector_margin_half"]!).toBeGreaterThan(0);
  const weak = { selector_threshold_voltage: 1.2 };
  expect(crosspoint("threshold", "one-half", weak)["selector_margin_half"]!).toBeLessThan(0);
  expect(crosspoint("threshold", "one-third", weak)["selector_margin_half"]!).toBeGreaterThan(0);
  expect(crosspoint("threshold", "grounded")["selector_margin_half"]!).toBeLessThan(0);
});
