/** Lays a design over the study's defaults. */

import type { EntryUse } from "./field.ts";
import type { Cell, Design, StudyFile } from "./study.ts";

/** Parts that are merged key by key; all others are replaced as a whole. */
const MERGED = ["tile", "wires", "sense", "write", "reliability", "overrides"] as const;

/** The design with what `defaults` and the top of the file add to it. */
export function mergedDesign(own: Design, file: StudyFile): Design {
  const defaults = file.defaults ?? {};
  const top = {
    ...(file.technology === undefined ? {} : { technology: file.technology }),
    ...(file.temperature === undefined ? {} : { temperature: file.temperature }),
  };
  const parts: Record<string, unknown> = {};
  for (const key of MERGED) {
    if (own[key] !== undefined || defaults[key] !== undefined) {
      parts[key] = { ...mapping(defaults[key]), ...mapping(own[key]) };
    }
  }
  const cell = mergedCell(defaults.cell, own.cell);
  return { ...top, ...defaults, ...own, ...parts, ...(cell === undefined ? {} : { cell }) };
}

/** The word form of a tile leaves both its sizes to the tool. */
function mapping(read: object | "auto" | undefined): object | undefined {
  return read === "auto" ? { rows: "auto", columns: "auto" } : read;
}

/** The text form of a cell names an all-CMOS one. */
export function cellOf(read: Cell | EntryUse | undefined): Cell | undefined {
  return read !== undefined && "values" in read ? { baseline: read } : (read as Cell | undefined);
}

function mergedCell(defaults: Cell | undefined, own: Cell | undefined): Cell | undefined {
  const beneath = cellOf(defaults);
  const above = cellOf(own);
  if (above === undefined || beneath === undefined) return above ?? beneath;
  return above.baseline === undefined && beneath.baseline === undefined
    ? { ...beneath, ...above }
    : above;
}
