import { sumTree } from "../../formulas/build.ts";
import type { ExtraFormula } from "../../formulas/program.ts";
import type { Instance } from "../../formulas/sheet.ts";
import { effort, logicEnergy, partsFor } from "../../models/periphery/index.ts";
import { type CellModel, processInstances } from "../../models/registry.ts";
import { measuredSwitch } from "../../models/switch/measured.ts";
import { boundaryFormulas, type LedgerRow, MEMORY_COUNTS, memoryRows } from "../ledger.ts";
import { macroRecipe } from "../macro.ts";
import type { MacroStructure } from "../structure.ts";
import { FITTED_TILE } from "./fit.ts";
import { composed, type FunctionPart, type Side } from "./side.ts";

/** Everything that the program of one side is assembled from. */
export interface SideRecipe {
  readonly instances: readonly Instance[];
  readonly extra: readonly ExtraFormula[];
  readonly rows: readonly LedgerRow[];
}

/**
 * The sheets and sums of one side of a function.
 *
 * @param side what it is made of
 * @param memory structure and cell of its memory; undefined for a side without one
 */
export function sideRecipe(
  side: Side,
  memory: { readonly structure: MacroStructure; readonly model: CellModel } | undefined,
): SideRecipe {
  const base = memory === undefined ? NO_MEMORY : memoryRecipe(memory);
  const rows = [...base.rows, ...side.parts.map(rowOf)];
  return {
    instances: [
      ...base.instances,
      ...side.sheets,
      ...side.parts.map(({ sheet, prefix, bind }) => ({
        of: sheet,
        prefix,
        ...(bind === undefined ? {} : { bind }),
      })),
    ],
    extra: [
      ...base.extra,
      ...(memory === undefined
        ? []
        : [composed("capacity", "1", side.stored ?? "function_capacity", "bits in the memory")]),
      ...side.parts.flatMap(contributions),
      ...sums(side.parts, base),
      ...side.formulas,
      ...boundaryFormulas(rows, "function_area"),
    ],
    rows,
  };
}

interface Base extends SideRecipe {
  readonly area: string;
  readonly dataSwitches: string;
  readonly switches: string;
}

const NO_MEMORY: Base = {
  instances: [...processInstances, { of: effort }, { of: logicEnergy }, { of: measuredSwitch }],
  extra: [
    composed(
      "largest_element_area",
      "m^2",
      "pi / 4 * ((landing_pitch_ratio - 1) * metal_half_pitch)^2",
      "area of the largest round element at the pitch of the landings of a logic process",
    ),
  ],
  rows: [],
  area: "0 * transistor_area",
  dataSwitches: "0",
  switches: "0",
};

function memoryRecipe(memory: { structure: MacroStructure; model: CellModel }): Base {
  const { instances, extra } = macroRecipe(memory.structure, memory.model);
  return {
    instances,
    extra: [...extra, ...FITTED_TILE, ...MEMORY_COUNTS],
    rows: memoryRows(partsFor(memory.structure.periphery)),
    area: "macro_area",
    dataSwitches: "data_cells * cell_switches",
    switches: "switches",
  };
}

const rowOf = ({ name, prefix, boundary }: FunctionPart): LedgerRow => ({
  part: name,
  boundary,
  quantity: `all_${prefix}transistors`,
});

function contributions(part: FunctionPart): readonly ExtraFormula[] {
  const { name, prefix, count, active, energy = "energy", switches = "0" } = part;
  return [
    composed(`all_${prefix}instances`, "1", count, `${name}: how many in the function`),
    composed(
      `all_${prefix}transistors`,
      "1",
      `all_${prefix}instances * ${prefix}transistors`,
      `${name}: transistors of all`,
    ),
    composed(
      `all_${prefix}area`,
      "m^2",
      `all_${prefix}instances * ${prefix}area`,
      `${name}: area of all`,
    ),
    composed(
      `all_${prefix}switches`,
      "1",
      `all_${prefix}instances * ${switches}`,
      `${name}: switches of all`,
    ),
    composed(
      `all_${prefix}operation_energy`,
      "J",
      `(${active}) * ${prefix}${energy}`,
      `${name}: energy in one operation`,
    ),
  ];
}

function sums(parts: readonly FunctionPart[], base: Base): readonly ExtraFormula[] {
  const sum = (name: string, unit: string, first: string, what: string, meaning: string) =>
    composed(
      name,
      unit,
      sumTree([first, ...parts.map(({ prefix }) => `all_${prefix}${what}`)]),
      meaning,
    );
  return [
    composed("memory_area", "m^2", base.area, "area of the memory"),
    composed("memory_data_switches", "1", base.dataSwitches, "switches of cells that hold data"),
    composed("memory_switches", "1", base.switches, "switches of the memory"),
    sum("function_area", "m^2", "memory_area", "area", "area of the whole function"),
    sum(
      "operation_energy",
      "J",
      "operation_lines_energy",
      "operation_energy",
      "energy of one operation",
    ),
    sum("data_switches", "1", "memory_data_switches", "switches", "switches that hold data"),
    sum("function_switches", "1", "memory_switches", "switches", "switches of the function"),
  ];
}
