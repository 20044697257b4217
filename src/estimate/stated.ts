import { KIND, KINDS } from "../catalogue/index.ts";
import type { Problem } from "../errors/problem.ts";
import type { Parameter } from "../quantities/parameter.ts";
import { STUDY_KEYS } from "../schema/locate.ts";
import type { Study } from "../schema/study.ts";

/** A place in the study, as problems have it. */
export type StatedPlace = Pick<Problem, "path" | "place">;

/** Keys of a design that become parameters of other names or without a place of their own. */
const OF_DESIGN: Readonly<Record<string, string>> = {
  capacity: "capacity",
  function_capacity: "capacity",
  word: "word",
  banks: "banks",
  rows: "tile/rows",
  largest_rows: "tile/rows",
  columns: "tile/columns",
  largest_columns: "tile/columns",
  decks: "tile/decks",
  column_share: "tile/column_share",
  largest_column_share: "tile/column_share",
  bits_per_cell: "cell/bits",
  bits_at_once: "write/bits_at_once",
  spare_rows: "spare_rows",
  spare_columns: "spare_columns",
  die_pads: "die/pads",
  corrected_bits: "error_correction/corrects",
};

/**
 * Where a study states a parameter of one of its designs: in the design, in `defaults`, at its top,
 * or in its own part of the catalogue.
 *
 * @param name of the design
 * @returns undefined for what catalogue, defaults and models give
 */
export function statedIn(
  study: Study,
  name: string,
): (parameter: Parameter) => StatedPlace | undefined {
  const at = (path: string): StatedPlace => ({ path, place: study.place(path) });
  return (parameter) => {
    const { key } = parameter;
    if (key.startsWith(STUDY_KEYS)) return at(key.slice(STUDY_KEYS.length));
    const own = ownEntry(study, key);
    if (own !== undefined) return at(own);
    const chosen = key.startsWith("choice/") ? OF_DESIGN[parameter.name] : undefined;
    const design = study.designs[name];
    return chosen !== undefined && design !== undefined && says(design, chosen.split("/"))
      ? at(`/designs/${name}/${chosen}`)
      : undefined;
  };
}

/** The pointer of a figure of an entry that the study adds to the catalogue. */
function ownEntry({ catalogue }: Study, key: string): string | undefined {
  const [kind, entry, field] = key.split("/");
  const known = KINDS.find((one) => one === kind);
  if (catalogue === undefined || known === undefined || entry === undefined) return undefined;
  const section = KIND[known].plural;
  const entries = (catalogue as Readonly<Record<string, unknown>>)[section];
  return says(entries, [entry, "values"]) ? `/catalogue/${section}/${entry}/${field}` : undefined;
}

function says(holder: unknown, [key, ...rest]: readonly string[]): boolean {
  if (key === undefined) return true;
  if (typeof holder !== "object" || holder === null || !Object.hasOwn(holder, key)) return false;
  const value = (holder as Readonly<Record<string, unknown>>)[key];
  return value !== undefined && value !== "auto" && says(value, rest);
}
