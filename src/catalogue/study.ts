/** What a study needs of the catalogue: its own entries, and the wires of a level. */

import { nearestWord } from "../errors/nearest.ts";
import { refuse } from "../errors/problem.ts";
import type { Parameter } from "../quantities/parameter.ts";
import type { EntryUse } from "../schema/field.ts";
import type { UserCatalogue } from "../schema/study.ts";
import type { OwnEntry } from "./catalogue.ts";
import type { Parameters } from "./entry.ts";
import { LEVEL_TABLE, WIRE_LEVELS } from "./fields/wires.ts";
import type { Kind } from "./kinds.ts";

const SECTIONS = {
  technologies: "technology",
  switches: "switch",
  selectors: "selector",
  baselines: "baseline",
} as const satisfies Record<string, Kind>;

/** The entries of a study's `catalogue:` section. */
export function ownEntries(section: UserCatalogue = {}): readonly OwnEntry[] {
  return Object.entries(SECTIONS).flatMap(([key, kind]) =>
    Object.entries(section[key as keyof typeof SECTIONS] ?? {}).map(([name, use]) => ({
      ...use,
      kind,
      name,
    })),
  );
}

/**
 * The figures of the wires of one level, without the level's name: `width`, `spacing` and so on.
 * @param use the level by name, or `from: level` with overrides; the level `fallback` where nothing
 *   is said
 * @throws TenfoldError `unknown-word` for a level that doesn't exist
 */
export function wireFigures(
  use: EntryUse | undefined,
  fallback: (typeof WIRE_LEVELS)[number],
  technology: Parameters,
): Parameters {
  const level = use?.from ?? fallback;
  if (!(WIRE_LEVELS as readonly string[]).includes(level)) {
    const nearest = nearestWord(level, WIRE_LEVELS);
    refuse({
      code: "unknown-word",
      what: `there is no wire level "${level}"`,
      ...(use === undefined ? {} : { path: use.path }),
      got: level,
      expected: `one of ${WIRE_LEVELS.join(", ")}`,
      ...(nearest === undefined ? {} : { nearest }),
    });
  }
  const figures: Record<string, Parameter> = {};
  for (const field of Object.keys(LEVEL_TABLE)) {
    const figure = use?.values[field] ?? technology[`${level}_wire_${field}`];
    if (figure !== undefined) figures[field] = { ...figure, name: field };
  }
  return figures;
}
