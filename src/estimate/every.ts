import type { ExtraFormula } from "../formulas/program.ts";
import { SCHEME_PAIRS } from "../models/crossbar/contract.ts";
import type { Correction, LevelReading } from "../models/periphery/index.ts";
import { cells, crosspointCellModel } from "../models/registry.ts";
import { biasSheets, type SelectorKind } from "../models/selector/bias.ts";
import type { TileLines } from "../schema/study.ts";
import { RELIABILITIES } from "./every-reliability.ts";
import { everySideRecipe } from "./functions/every.ts";
import { type MacroRecipe, macroRecipe } from "./macro.ts";
import {
  crosspointName,
  heldLevels,
  type MacroStructure,
  peripheryStructure,
} from "./structure.ts";

const CORRECTIONS: readonly Correction[] = ["none", "single", "single-double", "multiple"];
/** Voltages that lead to each way of supplying a write: core supply, input-output supply, pump. */
const WRITES = [
  { write: 0.5, row: 0.5 },
  { write: 0.5, row: 1.5 },
  { write: 1.5, row: 1.5 },
  { write: 5, row: 5 },
];

/** A structure with each of these, where its cells have what it takes. */
export function* everyReliability(): Generator<{
  structure: MacroStructure;
  recipe: MacroRecipe;
}> {
  const schemes = SCHEME_PAIRS[0]!;
  for (const correction of CORRECTIONS) {
    for (const reliability of RELIABILITIES) {
      const pair = reliability.reads?.kind === "pair";
      const model = pair ? cells["resistive-pair"]! : crosspointCellModel("none", schemes);
      const choices = {
        selectedColumns: 8,
        correction,
        spares: true,
        lines: "whole" as const,
        die: false,
        ...(!pair && { bias: heldLevels(schemes) }),
      };
      const structure: MacroStructure = {
        cell: pair ? "resistive-pair" : "crosspoint",
        ...(!pair && { crosspoint: crosspointName("none", schemes) }),
        periphery: peripheryStructure(model, choices, {
          write: 1.5,
          row: 1.5,
          supply: 1,
          ioSupply: 2.5,
        }),
        rowWire: "local",
        columnWire: "local",
        routeWire: "intermediate",
        reliability,
      };
      yield { structure, recipe: macroRecipe(structure, model) };
    }
  }
}

/**
 * The recipe of every structure that a design can have. The build parses all their formulas ahead, tests check all
 * their dimensions.
 */
export function* everyRecipe(): Generator<{ structure: MacroStructure; recipe: MacroRecipe }> {
  const crosspoints = (Object.keys(biasSheets) as SelectorKind[]).flatMap((kind) =>
    SCHEME_PAIRS.map((schemes) => ({
      name: "crosspoint",
      kind,
      schemes,
      model: crosspointCellModel(kind, schemes),
    })),
  );
  const plain = Object.entries(cells).map(([name, model]) => ({
    name,
    kind: undefined,
    schemes: undefined,
    model,
  }));
  for (const { name, kind, schemes, model } of [...plain, ...crosspoints]) {
    for (const correction of CORRECTIONS) {
      for (const write of WRITES) {
        for (const spares of [false, true]) {
          const all = !spares && first(schemes);
          const several = all && correction === "none" && write === WRITES[0];
          const levels = several && model.structure.pulsed ? SEVERAL_BITS : [];
          const once = correction === "none" && write === WRITES[0] && first(schemes);
          const dies = spares && once ? SPARED_DIES : [];
          for (const [selectedColumns, lines, die, reading] of [
            ...arrangements(all),
            ...levels,
            ...dies,
          ]) {
            const choices = {
              selectedColumns,
              correction,
              spares,
              lines,
              die,
              ...(reading !== undefined && { levels: reading }),
              ...(schemes !== undefined && { bias: heldLevels(schemes) }),
            };
            const structure: MacroStructure = {
              cell: name,
              ...(kind !== undefined && { crosspoint: crosspointName(kind, schemes) }),
              periphery: peripheryStructure(model, choices, { ...write, supply: 1, ioSupply: 2.5 }),
              rowWire: "local",
              columnWire: "local",
              routeWire: "intermediate",
            };
            yield {
              structure,
              // Made when it is looked at: a test may pass structures over.
              get recipe() {
                return macroRecipe(structure, model);
              },
            };
          }
        }
      }
    }
  }
}

type Arrangement = readonly [
  selectedColumns: number,
  lines: TileLines,
  die: boolean,
  levels?: LevelReading,
];

/** Ways to read several bits, which the code and the supply of writes do not ask for. */
const SEVERAL_BITS: readonly Arrangement[] = (["successive", "parallel"] as const).flatMap(
  (levels) => (["whole", "columns"] as const).map((lines) => [8, lines, false, levels] as const),
);

/** Dies have spare lines unless a study has none, and share what steers to them. */
const SPARED_DIES: readonly Arrangement[] = [[8, "divided", true]];

/**
 * Columns among which one is accessed, whether lines are divided, whether it is a whole die: all together where `all`
 * is asked for, since no formula depends on these and on what a crossbar's schemes or spares change.
 */
function arrangements(all: boolean): readonly Arrangement[] {
  const divided: readonly TileLines[] = all ? ["whole", "columns", "divided"] : ["whole"];
  const dies = all ? [false, true] : [false];
  return [1, 8].flatMap((columns) =>
    divided.flatMap((lines) => dies.map((die) => [columns, lines, die] as const)),
  );
}

/** Cells without schemes, and the first of all pairs. */
function first(schemes: (typeof SCHEME_PAIRS)[number] | undefined): boolean {
  return schemes === undefined || schemes === SCHEME_PAIRS[0];
}

/** The texts of all formulas that stand in no sheet. */
export function everyExtraText(): ReadonlySet<string> {
  const texts = new Set<string>();
  const add = ({ formula }: ExtraFormula) => {
    if (typeof formula === "string") texts.add(formula);
  };
  for (const { recipe } of everyRecipe()) recipe.extra.forEach(add);
  for (const { recipe } of everyReliability()) recipe.extra.forEach(add);
  for (const { structure } of everyRecipe()) {
    const model = cells[structure.cell]!;
    for (const { recipe } of everySideRecipe(structure, model)) recipe.extra.forEach(add);
    break;
  }
  return texts;
}
