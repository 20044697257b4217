import type { EntryTable, FigureTable } from "../../src/schema/field.ts";
import { readStudy } from "../../src/schema/read-study.ts";
import type { StudyTables } from "../../src/schema/tables.ts";

function table(units: Record<string, string>, variants?: readonly string[]): EntryTable {
  const fields: FigureTable = Object.fromEntries(
    Object.entries(units).map(([name, unit]) => [
      name,
      { unit, meaning: name.replaceAll("_", " ") },
    ]),
  );
  return variants === undefined ? { fields } : { fields, variants };
}

/** Small tables that stand for those of the catalogue. */
export const TABLES: StudyTables = {
  technology: table({
    supply: "V",
    threshold_voltage: "V",
    fo4_delay: "s",
    metal_half_pitch: "m",
    gate_capacitance: "F/m",
  }),
  switch: table({
    on_resistance: "ohm",
    off_resistance: "ohm",
    on_off_ratio: "1",
    read_voltage: "V",
    set_time: "s",
    activation_energy: "J",
  }),
  selector: table({ threshold_voltage: "V", hold_voltage: "V", off_current: "A" }, [
    "none",
    "transistor",
    "threshold",
  ]),
  baseline: table({ cell_transistors: "1" }),
  wire: table({ width: "m", spacing: "m", resistivity: "ohm m" }),
  overrides: { ...table({ supply: "V", threshold_voltage: "V", sense_sigmas: "1" }).fields },
};

export const STUDY = `# yaml-language-server: $schema=./study.schema.json
title: Working memory of the Tarn buoy
technology: cmos-65
temperature: 10 degC
baseline: static
defaults:
  capacity: 1 Mib
  word: 32 bit
designs:
  static:
    cell: sram-6t
  one-transistor:
    cell:
      switch: oxide-bilayer
      selector: {kind: transistor}
    tile: {rows: 512, columns: 512}
  bare-crossbar:
    cell:
      switch:
        from: oxide-bilayer
        on_resistance: {value: 100 kohm, low: 60 kohm, high: 160 kohm, source: laboratory notebook}
      selector: {kind: threshold, from: threshold-chalcogenide}
    bias: one-half
    tile: {rows: 256, columns: 256, decks: 2}
`;

export const read = (text: string) => readStudy(text, "study.yaml", { tables: TABLES });
