import { readFileSync } from "node:fs";
import { load } from "js-yaml";
import { assemble, parseFormula, valuesOf } from "../../src/formulas/index.ts";
import type { Instance, Procedure, Sheet } from "../../src/formulas/sheet.ts";
import { finLayoutRatios } from "../../src/models/process/defaults.ts";
import { modelDefaults } from "../../src/models/registry.ts";
import { readQuantity } from "../../src/quantities/quantity.ts";

/** Which of the three figures of a range. */
export type Which = "value" | "low" | "high";
export type Values = Readonly<Record<string, number>>;

/** All quantities of a design; units of what is given are those that its readers state. */
export function evaluate(instances: readonly Instance[], given: Values): Record<string, number> {
  const units: Record<string, string> = {};
  for (const { of, bind = {} } of instances) {
    for (const [local, { unit }] of Object.entries(of.inputs)) units[bind[local] ?? local] ??= unit;
  }
  const names = Object.keys(given).filter((name) => units[name] !== undefined);
  const list = names.map((name) => ({ name, unit: units[name]! }));
  const program = assemble(instances, list, parseFormula);
  return Object.fromEntries(valuesOf(program, new Map(Object.entries(given))));
}

/** One sheet or procedure with its inputs. */
export function evaluateOne(of: Sheet | Procedure, given: Values): Record<string, number> {
  return evaluate([{ of }], given);
}

interface Entry {
  readonly values: Readonly<
    Record<string, { value: string | number; low: string | number; high: string | number }>
  >;
}

const UNITS: readonly (readonly [RegExp, string])[] = [
  [/^(nmos|thick)_o.*_current$|^fixed_leakage_current$/, "A/m"],
  [/(gate|drain)_capacitance$/, "F/m"],
  [/^resistivity_times_mean_free_path$/, "ohm m^2"],
  [/^bulk_resistivity/, "ohm m"],
  [/^temperature_coefficient$/, "1/K"],
  [/(_pitch|_width|_spacing|_thickness|_length|^junction_side|mean_free_path)$/, "m"],
  [/^switching_current_density$/, "A/m^2"],
  [/^resistance_area_product$/, "ohm m^2"],
  [/_density$/, "1/m^2"],
  [/_area$/, "m^2"],
  [/_resistivity$/, "ohm m"],
  [/(supply|_voltage|_swing)$/, "V"],
  [/_current$|^current_limit$/, "A"],
  [/(_time|_delay)$/, "s"],
  [/^(on|off)_resistance$/, "ohm"],
  [/_temperature$/, "K"],
  [/^storage_capacitance$/, "F"],
  [/^threshold_temperature_slope$/, "V/K"],
  [/^matching_coefficient$/, "V m"],
  [/^activation_energy$/, "J"],
  [/(_permittivity|_current_ratio|^p_to_n_current|.)$/, "1"],
];

function unitOf(name: string): string {
  if (name === "p_to_n_current") return "1";
  return UNITS.find(([pattern]) => pattern.test(name))![1];
}

/** One value of a catalogue file in SI, `which` of its three. */
function valuesOfFile(path: string, which: Which = "value"): Record<string, number> {
  const file = new URL(`../../shared/${path}.yaml`, import.meta.url);
  const { values } = load(readFileSync(file, "utf8")) as Entry;
  return Object.fromEntries(
    Object.entries(values ?? {}).flatMap(([name, entry]) => {
      const got = entry[which];
      if (typeof got === "number") return [[name, got] as const];
      return [[name, readQuantity(got, unitOf(name))] as const];
    }),
  );
}

export const technologies = ["180", "130", "90", "65", "45", "32", "28", "22", "16", "7", "5"].map(
  (node) => `cmos-${node}`,
);

const plain = { temperature: 300, rows: 128, columns: 128, decks: 1, bits_per_cell: 1 };

/** Middle values of a technology, with all defaults of the models and a plain organisation. */
export function technology(name: string, which: Which = "value"): Record<string, number> {
  const defaults = Object.fromEntries(modelDefaults.map((entry) => [entry.name, entry[which]]));
  const own = valuesOfFile(`technology/${name}`, which);
  const fins = finLayoutRatios[name];
  return {
    ...plain,
    ...defaults,
    ...own,
    feature: own["metal_half_pitch"]!,
    nominal_supply: own["supply"]!,
    ...(fins ? { layout_width_ratio: fins[which] } : {}),
  };
}

/** Middle values of a switch, a baseline or a wire metal. */
export function entry(path: string, which: Which = "value"): Record<string, number> {
  const own = valuesOfFile(path, which);
  const area = own["element_area"];
  if (area !== undefined && own["resistance_area_product"] !== undefined) {
    own["on_resistance"] ??= own["resistance_area_product"] / area;
  }
  if (area !== undefined && own["switching_current_density"] !== undefined) {
    own["current_limit"] ??= own["switching_current_density"] * area;
  }
  if (own["on_off_ratio"] !== undefined) {
    own["off_resistance"] ??= own["on_resistance"]! * own["on_off_ratio"];
  }
  return own;
}

/** The same under the names that a selector's values have in a design. */
export function selectorEntry(name: string, which: Which = "value"): Record<string, number> {
  const own = valuesOfFile(`selectors/${name}`, which);
  return Object.fromEntries(Object.entries(own).map(([key, value]) => [`selector_${key}`, value]));
}

/** Figures that a kind of cell needs beside a switch's: of its selector, of its magnetic element. */
export function ownFigures(kind: string): Values {
  if (kind === "resistive-array-transistor") {
    return {
      selector_least_cell_squares: 6,
      selector_width_ratio: 2,
      selector_on_current: 400,
      selector_closed_current: 1e-15,
      selector_gate_voltage: 2.8,
    };
  }
  if (kind === "resistive-array-diode") {
    return {
      selector_least_cell_squares: 4,
      selector_strap_cells: 8,
      selector_on_resistance: 1e3,
      selector_saturation_current: 1e-12,
      selector_emission_voltage: 0.06,
      selector_closed_current: 1e-12,
      selector_current_gain: 0,
    };
  }
  if (kind === "resistive-field-written") {
    return { line_write_current: 6e-3, element_width: 350e-9, element_length: 700e-9 };
  }
  return {};
}
