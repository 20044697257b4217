import { isSilicon } from "./material.ts";

/** Lines of a crossbar whose network is solved in milliseconds. */
const FEW_LINES = 32;
/** Junctions above which a network is refused at once; those below take up to minutes, which is no hang. */
const MOST_JUNCTIONS = 2 ** 22;

interface Design {
  readonly cell?: { readonly selector?: unknown };
  readonly tile?: Record<string, unknown>;
}

/** Makes crossbars small whose networks would take long to solve; what is refused for its size stays as large. */
export function shrinkCrossbars(study: Record<string, unknown>): void {
  const shared = designOf(study.defaults);
  for (const one of [study.defaults, ...Object.values(Object(study.designs))]) {
    const design = designOf(one);
    const { selector } = Object(design.cell ?? shared.cell);
    const tile = Object(design.tile ?? shared.tile) as Record<string, unknown>;
    if (selector === undefined || isSilicon(selector)) continue;
    const [rows, columns] = [tile.rows, tile.columns].map(Number);
    if (rows! * columns! > MOST_JUNCTIONS) continue;
    for (const key of ["rows", "columns"]) {
      if (typeof tile[key] === "number") tile[key] = Math.min(tile[key], FEW_LINES);
    }
  }
}

function designOf(value: unknown): Design {
  return Object(value) as Design;
}
