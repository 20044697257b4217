import { LEVEL_TABLE } from "../catalogue/fields/wires.ts";
import {
  Catalogue,
  KIND,
  type Kind,
  type Loader,
  type OwnEntry,
  ownEntries,
} from "../catalogue/index.ts";
import { estimateDefaults } from "../estimate/defaults.ts";
import { FUNCTIONS } from "../estimate/functions/index.ts";
import { BOUNDARY_MEANINGS } from "../estimate/ledger.ts";
import { boundsOf } from "../models/define.ts";
import { functionDefaults } from "../models/functions/index.ts";
import { defaults as peripheryDefaults } from "../models/periphery/index.ts";
import { modelDefaults } from "../models/registry.ts";
import { claimsField } from "../schema/claims.ts";
import type { EntryTable, FigureTable } from "../schema/field.ts";
import { readStudy } from "../schema/read-study.ts";
import { STUDY_SECTIONS } from "../schema/sections.ts";
import type { Setting } from "../schema/settings.ts";
import type { Study } from "../schema/study.ts";
import type { StudySections, StudyTables } from "../schema/tables.ts";

/**
 * The figures that a study may state: those of the catalogue's kinds, and every parameter of a model.
 *
 * @param names of the entries of a kind
 */
export function definitionTables(names: (kind: Kind) => readonly string[]): StudyTables {
  const models = [...modelDefaults, ...peripheryDefaults, ...estimateDefaults];
  const overrides: FigureTable = {
    ...KIND.technology.fields,
    ...Object.fromEntries(
      models.map((one) => {
        const { name, unit, meaning } = one;
        return [
          name,
          { unit, meaning, shape: boundsOf(one).most === 1 ? "share" : "not negative" },
        ];
      }),
    ),
  };
  const tableOf = (kind: Kind): EntryTable => {
    const { fields, variants } = KIND[kind];
    const own = () => names(kind);
    return variants === undefined ? { fields, names: own } : { fields, variants, names: own };
  };
  return {
    technology: tableOf("technology"),
    switch: tableOf("switch"),
    selector: tableOf("selector"),
    baseline: tableOf("baseline"),
    wire: { fields: LEVEL_TABLE },
    overrides,
  };
}

/** The definitions of the sections of a study that have a reader of their own. */
export function definitionSections({ technology }: StudyTables): StudySections {
  return {
    ...STUDY_SECTIONS,
    claims: claimsField({
      functions: Object.fromEntries(FUNCTIONS.map(({ name, title }) => [name, title])),
      boundaries: BOUNDARY_MEANINGS,
      sizes: Object.fromEntries(
        functionDefaults.map(({ name, unit, meaning }) => [name, { unit, meaning }]),
      ),
      technology,
    }),
  };
}

/** How a text is read beside the text itself. */
export interface TextOptions {
  /** What places of mistakes name; default `study.yaml`. */
  readonly file?: string;
  /** Values in place of those of the text. */
  readonly set?: readonly Setting[];
  /** Entries of the files that the study names, which nothing here can read. */
  readonly entries?: readonly OwnEntry[];
}

/** A study with the catalogue that its names mean. */
export interface ReadText {
  readonly study: Study;
  readonly catalogue: Catalogue;
}

/**
 * A reader of studies that are texts: it needs no disk, so it runs in a browser.
 *
 * @param loader of the shipped catalogue
 * @returns a function that throws a TenfoldError with every mistake of a text
 */
export function studyReader(loader: Loader): (text: string, options?: TextOptions) => ReadText {
  const tables = definitionTables((kind) => loader.names(kind));
  const sections = definitionSections(tables);
  return (text, { file = "study.yaml", set = [], entries = [] } = {}) => {
    const study = readStudy(text, file, { tables, sections, set });
    const own = [...ownEntries(study.catalogue), ...entries];
    return { study, catalogue: new Catalogue(loader, own) };
  };
}
