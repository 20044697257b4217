/**
 * Fields that say the same thing in two ways: which displaces which, and the sheet that computes
 * the other.
 */

import { type InputDefinition, type Procedure, type Sheet, sheet } from "../formulas/sheet.ts";
import type { FieldTable } from "./fields/field.ts";
import { GEOMETRY_REPLACES, GEOMETRY_SPREADS, SPREAD_GIVES } from "./fields/geometry.ts";
import { SELECTOR_FIELDS } from "./fields/selector.ts";
import { SWITCH_FIELDS } from "./fields/switch.ts";
import type { Kind } from "./kinds.ts";
import { MAGNETIC_ALTERNATIVES, MAGNETIC_DISPLACES, MAGNETIC_EXCLUDES } from "./magnetic.ts";

/** One way to compute a field from others. */
export interface Alternative {
  readonly kind: Kind;
  readonly gives: string;
  readonly needs: readonly string[];
  readonly variants?: readonly string[];
  readonly sheet: Sheet;
  /** What its sheet reads that is no field. */
  readonly also?: readonly (Sheet | Procedure)[];
}

/**
 * What an alternative reads beside fields: the largest element that the cell has room for, which
 * its selector's sheet computes.
 */
const ROOM: Readonly<Record<string, InputDefinition>> = {
  largest_element_area: { unit: "m^2", meaning: "area of the largest element that a cell holds" },
};

interface Formula {
  readonly formula: string;
  readonly source: string;
  readonly note?: string;
  readonly reads?: Readonly<Record<string, InputDefinition>>;
}

function alternative(
  kind: Kind,
  fields: FieldTable,
  gives: string,
  needs: readonly string[],
  formula: Formula,
  variants?: readonly string[],
): Alternative {
  const define = (name: string) => {
    const { unit, meaning, symbol } = fields[name]!;
    return { unit, meaning, ...(symbol === undefined ? {} : { symbol }) };
  };
  const { formula: text, source, note, reads = {} } = formula;
  return {
    kind,
    gives,
    needs,
    ...(variants === undefined ? {} : { variants }),
    sheet: sheet({
      name: `${kind}_${gives}_from_${needs.at(-1)}`,
      title: `${fields[gives]!.meaning}, from other figures`,
      about: "Two ways to state the same property of a device; the one that was given is kept.",
      inputs: { ...Object.fromEntries(needs.map((name) => [name, define(name)])), ...reads },
      formulas: {
        [gives]: {
          ...define(gives),
          formula: text,
          source,
          ...(note === undefined ? {} : { note }),
        },
      },
    }),
  };
}

const DEFINITION = { source: "this project", note: "by definition" };

/**
 * In the order in which they are tried. What no model reads, such as a ratio beside both
 * resistances, is not computed.
 */
export const ALTERNATIVES: readonly Alternative[] = [
  alternative("switch", SWITCH_FIELDS, "element_area", ["element_width", "element_length"], {
    formula: "element_width * element_length",
    source: "common practice",
    note: "as drawn",
  }),
  alternative(
    "switch",
    SWITCH_FIELDS,
    "on_resistance",
    ["element_area", "resistance_area_product"],
    {
      formula: "resistance_area_product / min(element_area, largest_element_area)",
      source: "common practice",
      note: "current crosses a film, or a heater of one height, evenly over its area",
      reads: ROOM,
    },
  ),
  alternative(
    "switch",
    SWITCH_FIELDS,
    "current_limit",
    ["element_area", "switching_current_density"],
    {
      formula: "switching_current_density * min(element_area, largest_element_area)",
      source: "common practice",
      note: "spin torque acts, and heat is made, per area",
      reads: ROOM,
    },
  ),
  alternative("switch", SWITCH_FIELDS, "off_resistance", ["on_resistance", "on_off_ratio"], {
    formula: "on_resistance * on_off_ratio",
    ...DEFINITION,
  }),
  alternative("switch", SWITCH_FIELDS, "on_resistance", ["off_resistance", "on_off_ratio"], {
    formula: "off_resistance / on_off_ratio",
    ...DEFINITION,
  }),
  alternative("switch", SWITCH_FIELDS, "scale_voltage", ["read_voltage", "nonlinearity"], {
    formula: "read_voltage / (2 * acosh(max(nonlinearity / 2, 1.000001)))",
    source: "this project",
    note: "I0 sinh(V/V0) gives K = 2 cosh(V/(2 V0)); a K of 2 is ohmic and is kept at 2 + 2e-6",
  }),
  ...MAGNETIC_ALTERNATIVES,
  alternative(
    "selector",
    SELECTOR_FIELDS,
    "emission_voltage",
    ["scale_voltage"],
    {
      formula: "scale_voltage",
      source: "this project",
      note: "a sinh grows by a factor e in one scale voltage once its argument is large",
    },
    ["nonlinear"],
  ),
];

/**
 * A field that is given displaces these of the layers below it, since it says the same thing anew.
 */
export const DISPLACES: Readonly<Partial<Record<Kind, Readonly<Record<string, string[]>>>>> = {
  switch: {
    element_width: ["element_area"],
    element_length: ["element_area"],
    on_resistance: ["resistance_area_product"],
    resistance_area_product: ["on_resistance"],
    current_limit: ["switching_current_density", "damping"],
    switching_current_density: ["current_limit", "damping"],
    ...MAGNETIC_DISPLACES,
    retention_time: ["stability"],
    on_off_ratio: ["off_resistance"],
    off_resistance: ["on_off_ratio"],
    scale_voltage: ["nonlinearity"],
    nonlinearity: ["scale_voltage"],
    device_spread: ["device_spread_on", "device_spread_off"],
    most_gap: [...GEOMETRY_REPLACES, "resistance_area_product"],
    ...Object.fromEntries(
      GEOMETRY_SPREADS.map((name) => [name, ["device_spread", ...SPREAD_GIVES]]),
    ),
  },
  selector: {
    scale_voltage: ["nonlinearity", "emission_voltage"],
    nonlinearity: ["scale_voltage", "emission_voltage"],
    emission_voltage: ["scale_voltage", "nonlinearity"],
  },
};

/** Fields that can't stand together in one place, with what to leave out. */
export const EXCLUDES: Readonly<Partial<Record<Kind, readonly (readonly string[])[]>>> = {
  switch: [
    ["on_resistance", "off_resistance", "on_off_ratio"],
    ["element_area", "element_width", "element_length"],
    ["on_resistance", "resistance_area_product"],
    ["off_resistance", "on_off_ratio", "resistance_area_product"],
    ["current_limit", "switching_current_density"],
    ...MAGNETIC_EXCLUDES,
    ["scale_voltage", "nonlinearity"],
    ...GEOMETRY_REPLACES.map((name) => ["most_gap", name]),
    ...GEOMETRY_SPREADS.flatMap((spread) =>
      ["device_spread", ...SPREAD_GIVES].map((name) => [spread, name]),
    ),
    ["device_spread", "device_spread_on"],
    ["device_spread", "device_spread_off"],
  ],
  selector: [
    ["scale_voltage", "nonlinearity"],
    ["scale_voltage", "emission_voltage"],
    ["nonlinearity", "emission_voltage"],
  ],
};
