import { cellAddition } from "../../models/functions/index.ts";
import type { FunctionPart } from "./side.ts";

/**
 * The devices that a published circuit has beside its static cells, in circuits that hold data
 * and in those that only fill the last tile.
 *
 * @param name what a ledger calls them
 * @param circuits circuits that hold data: a formula
 * @param cells the quantity of static cells in one circuit
 */
export function additions(name: string, circuits: string, cells: string): FunctionPart[] {
  const part = { sheet: cellAddition, bind: { memory_cells: cells }, active: "0" };
  return [
    { ...part, name, prefix: "addition_", boundary: "cell", count: circuits },
    {
      ...part,
      name: `${name} without data`,
      prefix: "idle_addition_",
      boundary: "crossbar",
      count: `cells / ${cells} - ${circuits}`,
    },
  ];
}
