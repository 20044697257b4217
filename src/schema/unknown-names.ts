/** Names of entries that no catalogue has, so that a file with other mistakes tells of these in the same run. */

import { nearestWord } from "../errors/nearest.ts";
import type { Problem } from "../errors/problem.ts";
import type { EntryTable, EntryUse } from "./field.ts";
import type { Study } from "./study.ts";
import type { StudyTables } from "./tables.ts";

const SECTIONS = {
  technology: "technologies",
  switch: "switches",
  selector: "selectors",
  baseline: "baselines",
} as const;
type Kind = keyof typeof SECTIONS;

/**
 * One problem for each name that neither the catalogue nor the study itself has, once where designs share it. Nothing
 * where the study names files with entries, which are not read yet.
 */
export function unknownNames(study: Study, tables: StudyTables): Problem[] {
  const { catalogue, designs } = study;
  if (catalogue?.files !== undefined) return [];
  const problems = new Map<string, Problem>();
  for (const { technology, cell } of Object.values(designs)) {
    const uses: Record<Kind, EntryUse | undefined> = {
      technology,
      switch: cell?.switch,
      selector: cell?.selector,
      baseline: cell?.baseline,
    };
    for (const kind of Object.keys(SECTIONS) as Kind[]) {
      const use = uses[kind];
      if (use?.from === undefined) continue;
      const own = Object.keys(catalogue?.[SECTIONS[kind]] ?? {});
      const problem = unknownName(use, kind, tables[kind], own);
      if (problem) problems.set(use.path, { ...problem, place: study.place(use.path) });
    }
  }
  return [...problems.values()];
}

function unknownName(
  { from, path }: EntryUse,
  kind: Kind,
  table: EntryTable,
  own: readonly string[],
): Problem | undefined {
  if (table.names === undefined) return undefined;
  const known = [...table.names(), ...own];
  if (known.includes(from!)) return undefined;
  const nearest = nearestWord(from!, known);
  return {
    code: "unknown-word",
    what: `there is no ${kind} "${from}" in the catalogue`,
    path,
    got: from!,
    ...(nearest === undefined ? {} : { nearest }),
    fix: `\`tenfold list ${kind}\` shows them, or give its values in place of a name`,
  };
}
