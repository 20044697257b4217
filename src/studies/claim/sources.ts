import { type Catalogue, type Reference, sourcesOf } from "../../catalogue/index.ts";
import type { Sides } from "./sides.ts";

/** The references of every value and formula that both sides of some claims rest on. */
export function claimSources(all: readonly Sides[], catalogue: Catalogue): readonly Reference[] {
  const sides = all.flatMap(({ hybrid, baseline }) => [hybrid, baseline]);
  const formulas = sides.flatMap(({ program }) =>
    [...program.quantities.values()].flatMap(({ name, source, by }) =>
      by === "given" || source === undefined ? [] : [{ name, source }],
    ),
  );
  return sourcesOf(
    sides.flatMap((side) => side.parameters()),
    catalogue.sources(),
    formulas,
  );
}
