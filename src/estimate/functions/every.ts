import type { CellModel } from "../../models/registry.ts";
import type { MacroStructure } from "../structure.ts";
import { FUNCTIONS } from "./index.ts";
import { type SideRecipe, sideRecipe } from "./recipe.ts";

/**
 * A recipe of each side of each function, over one and the same memory. The build parses their
 * formulas ahead; what depends on the memory's structure stands in the recipes of macros.
 */
export function* everySideRecipe(
  structure: MacroStructure,
  model: CellModel,
): Generator<{ readonly name: string; readonly recipe: SideRecipe }> {
  for (const { name, hybrid, baseline } of FUNCTIONS) {
    for (const [which, side] of Object.entries({ hybrid, baseline })) {
      const memory = side.memory === undefined ? undefined : { structure, model };
      yield { name: `${name} ${which}`, recipe: sideRecipe(side, memory) };
    }
  }
}
