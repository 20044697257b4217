/** What a study's definition takes from the layers above. */

import type { AnyField, EntryTable, FigureTable } from "./field.ts";

/** The figures that entries may have: the catalogue knows them. */
export interface StudyTables {
  readonly technology: EntryTable;
  readonly switch: EntryTable;
  readonly selector: EntryTable;
  readonly baseline: EntryTable;
  /** Wires of one level: `width`, `spacing` and so on, without the level's name. */
  readonly wire: EntryTable;
  /** What `overrides:` may set. */
  readonly overrides: FigureTable;
}

/** Definitions of the sections that other modules read. */
export interface StudySections {
  readonly claims?: AnyField;
  readonly sweep?: AnyField;
  readonly organise?: AnyField;
  readonly uncertainty?: AnyField;
  readonly standby?: AnyField;
}
