/** What the catalogue holds: one row per kind of entry. */

import { BASELINE_FIELDS } from "./fields/baseline.ts";
import { CHIP_FIELDS } from "./fields/chip.ts";
import { CIRCUIT_FIELDS } from "./fields/circuit.ts";
import type { FieldTable } from "./fields/field.ts";
import { SELECTOR_FIELDS, SELECTOR_VARIANTS } from "./fields/selector.ts";
import { SWITCH_FIELDS } from "./fields/switch.ts";
import { TECHNOLOGY_FIELDS } from "./fields/technology.ts";
import { METAL_FIELDS } from "./fields/wires.ts";

export const KINDS = [
  "technology",
  "switch",
  "selector",
  "baseline",
  "circuit",
  "wire",
  "chip",
] as const;
export type Kind = (typeof KINDS)[number];

export interface KindDefinition {
  /** The folder under `shared/`. */
  readonly folder: string;
  /** The first line of a file of this kind. */
  readonly format: string;
  readonly plural: string;
  readonly fields: FieldTable;
  /** The words that the key `kind` of an entry may have; any word when absent. */
  readonly variants?: readonly string[];
  /** Measured figures stand without a range. */
  readonly measured?: true;
}

export const KIND: Readonly<Record<Kind, KindDefinition>> = {
  technology: {
    folder: "technology",
    format: "tenfold.technology/1",
    plural: "technologies",
    fields: TECHNOLOGY_FIELDS,
  },
  switch: {
    folder: "switches",
    format: "tenfold.switch/1",
    plural: "switches",
    fields: SWITCH_FIELDS,
  },
  selector: {
    folder: "selectors",
    format: "tenfold.selector/1",
    plural: "selectors",
    fields: SELECTOR_FIELDS,
    variants: SELECTOR_VARIANTS,
  },
  baseline: {
    folder: "baselines",
    format: "tenfold.baseline/1",
    plural: "baselines",
    fields: BASELINE_FIELDS,
  },
  circuit: {
    folder: "circuits",
    format: "tenfold.circuit/1",
    plural: "circuits",
    fields: CIRCUIT_FIELDS,
  },
  wire: { folder: "wires", format: "tenfold.wire/1", plural: "wires", fields: METAL_FIELDS },
  chip: {
    folder: "chips",
    format: "tenfold.chip/1",
    plural: "chips",
    fields: CHIP_FIELDS,
    measured: true,
  },
};
