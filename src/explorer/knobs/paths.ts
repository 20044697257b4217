import { STUDY_KEYS } from "../../schema/locate.ts";
import type { Path } from "../text/edit.ts";
import { type Candidate, isStated } from "./candidates.ts";

/** Kinds of entries whose figures stand in a cell. */
const OF_CELLS = ["switch", "selector", "baseline"];

/**
 * Where a value can be written so that all designs which share it share it still, the best way
 * first. A way may turn out to be none: who asks reads the study with it.
 *
 * @param all names of the study's designs
 */
export function waysTo(
  { parameter, designs }: Candidate,
  all: readonly string[],
): readonly (readonly Path[])[] {
  const { key, name } = parameter;
  if (isStated(parameter)) return [[pointer(key.slice(STUDY_KEYS.length))]];
  const segments = key.split("/");
  const [kind, field] = [segments[0]!, segments.at(-1)!];
  if (OF_CELLS.includes(kind)) {
    return [
      designs.map((design) => ["designs", design, "cell", kind, field]),
      [["defaults", "cell", kind, field]],
    ];
  }
  const word = kind === "technology" ? field : name;
  const apart = designs.map((design) => ["designs", design, "overrides", word]);
  const together = [["defaults", "overrides", word]];
  return designs.length > 1 || all.length === 1 ? [together, apart] : [apart, together];
}

function pointer(text: string): Path {
  return text
    .split("/")
    .slice(1)
    .map((segment) => segment.replaceAll("~1", "/").replaceAll("~0", "~"));
}
