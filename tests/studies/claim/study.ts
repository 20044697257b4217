import { Catalogue } from "../../../src/catalogue/index.ts";
import { FUNCTIONS } from "../../../src/estimate/functions/index.ts";
import { parseFormula } from "../../../src/formulas/parse.ts";
import { folderLoader } from "../../../src/io/catalogue.ts";
import { parseStudy } from "../../../src/io/study.ts";
import { type Setting, Sides } from "../../../src/studies/claim/sides.ts";

export const catalogue = new Catalogue(folderLoader());

/** A study of one switch with a transistor, and the claims that are given. */
export function studyOf(claims = "", more = "", technology = "cmos-65") {
  const text = `title: t
technology: ${technology}
samples: 256
defaults:
  capacity: 1 Mib
  word: 32 bit
  tile: {rows: 256, columns: 256, column_share: 8}
${more}
designs:
  static: {cell: sram-6t}
  hybrid:
    cell: {switch: oxide-bilayer, selector: {kind: transistor}}
  two-bits:
    cell: {switch: oxide-bilayer, selector: {kind: transistor}, bits: 2}
  eight-bits:
    cell: {switch: oxide-bilayer, selector: {kind: transistor}, bits: 8}
  crossbar:
    cell: {switch: oxide-filament, selector: {kind: threshold, from: threshold-chalcogenide}}
    bias: one-half
    tile: {rows: 64, columns: 256, column_share: 8}
${claims}`;
  return parseStudy({ text, file: "study.yaml" });
}

/** Both sides of a function, with the hybrid design of `studyOf` unless another is named. */
export function sidesOf(name: string, setting: Partial<Setting> = {}, study = studyOf()): Sides {
  const definition = FUNCTIONS.find((one) => one.name === name)!;
  return new Sides(definition, study, { subject: "hybrid", ...setting }, catalogue, parseFormula);
}
