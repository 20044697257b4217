/** Every model by name: one line per model. What joins them into a macro is the estimate. */
import type { Instance } from "../formulas/sheet.ts";
import { arrayDiodeCell } from "./cells/array-diode.ts";
import { cellDefaults } from "./cells/defaults.ts";
import { dram, embeddedDram } from "./cells/dynamic.ts";
import { fieldWrittenCell } from "./cells/field-written.ts";
import { floatingGate } from "./cells/floating-gate.ts";
import { gain2t, gain3t } from "./cells/gain.ts";
import { refresh } from "./cells/refresh.ts";
import {
  complementaryCell,
  crosspointCell,
  resistivePairCell,
  resistiveTransistorCell,
} from "./cells/resistive.ts";
import { static6t, static8t, static10t, staticDevices } from "./cells/static.ts";
import { crossbarDefaults } from "./crossbar/closed/corrected.ts";
import { closedCrossbar } from "./crossbar/closed/forms.ts";
import type { SchemePair } from "./crossbar/contract.ts";
import type { ParameterDefault } from "./define.ts";
import { functionDefaults } from "./functions/index.ts";
import { processDefaults } from "./process/defaults.ts";
import { driveSheet } from "./process/drive.ts";
import { processSheet } from "./process/transistors.ts";
import { arrayDiode } from "./selector/array-diode.ts";
import { arrayTransistor } from "./selector/array-transistor.ts";
import { biasSheets, type SelectorKind } from "./selector/bias.ts";
import { junctionCurrents } from "./selector/current.ts";
import { selectorDefaults } from "./selector/defaults.ts";
import { fieldTransistor } from "./selector/field-transistor.ts";
import { accessTransistor } from "./selector/transistor.ts";
import { switchDefaults } from "./switch/defaults.ts";
import { junctionFilm, measuredSwitch } from "./switch/measured.ts";
import { wireDefaults } from "./wire/defaults.ts";
import { crossbarSection, sizeEffect } from "./wire/size-effect.ts";
import { wire } from "./wire/wire.ts";

/**
 * How a cell's state is sensed: a current against a reference, a column that its current moves, a
 * shared charge.
 */
export type Sensing = "current" | "voltage" | "charge";

/**
 * A kind of cell: what defines the cell contract, and what the estimate has to know of its
 * structure.
 */
export interface CellModel {
  readonly instances: readonly Instance[];
  readonly sensing: Sensing;
  readonly structure: {
    /** Each cell has a transistor, so that decks do not divide the area. */
    readonly transistorInCell: boolean;
    /** Columns come in pairs that are compared with each other. */
    readonly differential: boolean;
    /** Unselected rows and columns have to be held at voltages of their own. */
    readonly biased: boolean;
    readonly refreshed: boolean;
    readonly erasedByBlock: boolean;
    /** Writes are pulses that are verified and need a limited current. */
    readonly pulsed: boolean;
    /** The field of two wires writes the cell: no current through it to limit, no verification. */
    readonly fieldWritten?: boolean;
    /** The selected row is pulled down and carries the current of its cells. */
    readonly rowSinks?: boolean;
    /** Made in a memory process: large tiles, self-aligned circuits on the pitch of the lines. */
    readonly memoryProcess?: boolean;
  };
}

const plain = {
  transistorInCell: true,
  differential: false,
  biased: false,
  refreshed: false,
  erasedByBlock: false,
  pulsed: false,
};

function of(...models: readonly Instance["of"][]): Instance[] {
  return models.map((one) => ({ of: one }));
}

/** All-CMOS cells and resistive cells with a transistor, by the catalogue's names. */
export const cells: Readonly<Record<string, CellModel>> = {
  "sram-6t": {
    instances: of(staticDevices, static6t),
    sensing: "voltage",
    structure: { ...plain, differential: true },
  },
  "sram-8t": { instances: of(staticDevices, static8t), sensing: "voltage", structure: plain },
  "sram-10t": { instances: of(staticDevices, static10t), sensing: "voltage", structure: plain },
  "gain-2t": {
    instances: of(staticDevices, gain2t, refresh),
    sensing: "voltage",
    structure: { ...plain, refreshed: true },
  },
  "gain-3t": {
    instances: of(staticDevices, gain3t, refresh),
    sensing: "voltage",
    structure: { ...plain, refreshed: true },
  },
  "dram-1t1c": {
    instances: of(dram, refresh),
    sensing: "charge",
    structure: { ...plain, refreshed: true, memoryProcess: true },
  },
  "embedded-dram-1t1c": {
    instances: of(staticDevices, embeddedDram, refresh),
    sensing: "charge",
    structure: { ...plain, refreshed: true },
  },
  "nor-flash": {
    instances: of(floatingGate),
    sensing: "current",
    structure: { ...plain, erasedByBlock: true, pulsed: true, memoryProcess: true },
  },
  "split-gate-flash": {
    instances: of(floatingGate),
    sensing: "current",
    structure: { ...plain, erasedByBlock: true, pulsed: true },
  },
  "resistive-transistor": {
    instances: of(measuredSwitch, accessTransistor, resistiveTransistorCell),
    sensing: "current",
    structure: { ...plain, pulsed: true },
  },
  "resistive-array-transistor": {
    instances: of(measuredSwitch, arrayTransistor, resistiveTransistorCell),
    sensing: "current",
    structure: { ...plain, pulsed: true, memoryProcess: true },
  },
  "resistive-array-diode": {
    instances: of(measuredSwitch, arrayDiode, arrayDiodeCell),
    sensing: "current",
    structure: { ...plain, pulsed: true, memoryProcess: true, rowSinks: true },
  },
  "resistive-field-written": {
    instances: of(measuredSwitch, fieldTransistor, fieldWrittenCell),
    sensing: "current",
    structure: { ...plain, pulsed: true, fieldWritten: true },
  },
  "resistive-pair": {
    instances: of(measuredSwitch, accessTransistor, resistivePairCell),
    sensing: "current",
    structure: { ...plain, differential: true, pulsed: true },
  },
};

/**
 * A crossbar without a transistor in each cell: by kind of selector and bias schemes, with the
 * closed forms.
 */
export function crosspointCellModel(selector: SelectorKind, schemes: SchemePair): CellModel {
  const junction = junctionCurrents[selector];
  return {
    instances: [
      ...of(measuredSwitch, junctionFilm, biasSheets[selector]),
      { of: junction, prefix: "read_", bind: { junction_voltage: "array_read_voltage" } },
      { of: junction, prefix: "write_", bind: { junction_voltage: "array_write_voltage" } },
      ...closedCrossbar(schemes),
      { of: selector === "complementary" ? complementaryCell : crosspointCell },
    ],
    sensing: "current",
    structure: { ...plain, transistorInCell: false, biased: true, pulsed: true },
  };
}

/** The technology's sheets, needed by all. */
export const processInstances: readonly Instance[] = of(driveSheet, processSheet);

/**
 * A wire of a metal level of the technology: `row_wire_`, `column_wire_` or `route_wire_` of a
 * local … global level.
 */
export function wireInstance(prefix: string, level: "local" | "intermediate" | "global"): Instance {
  const bind: Record<string, string> = {};
  for (const name of ["width", "spacing", "thickness", "permittivity", "resistivity"]) {
    bind[name] = `${level}_wire_${name}`;
  }
  return { of: wire, prefix, bind };
}

/** A fine wire of half pitch `feature`, with the size effect. */
export function crossbarWireInstances(prefix: string): Instance[] {
  const own = (...names: string[]) =>
    Object.fromEntries(names.map((name) => [name, prefix + name]));
  const section = own("width", "thickness");
  return [
    { of: crossbarSection, prefix },
    { of: sizeEffect, prefix, bind: section },
    { of: wire, prefix, bind: { ...section, ...own("spacing", "permittivity", "resistivity") } },
  ];
}

/** Figures that no file has, with range and source, of the models listed here. */
export const modelDefaults: readonly ParameterDefault[] = [
  ...processDefaults,
  ...wireDefaults,
  ...switchDefaults,
  ...selectorDefaults,
  ...crossbarDefaults,
  ...cellDefaults,
  ...functionDefaults,
];
