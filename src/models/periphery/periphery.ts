/** Which parts a memory has: the list that an estimate instantiates and adds up. */
import type { Instance } from "../../formulas/sheet.ts";
import { effort } from "./effort.ts";
import { lines } from "./lines.ts";
import { multipleCode, singleCode, singleDoubleCode } from "./macro/code.ts";
import { logicEnergy } from "./macro/logic.ts";
import { columnParts } from "./parts/columns.ts";
import { macroParts } from "./parts/macro.ts";
import { rowParts } from "./parts/rows.ts";
import type { PartUse, Structure } from "./structure.ts";
import { lineCurrents } from "./tile/bias.ts";
import { dividedLines } from "./tile/divided.ts";
import { levelPairs, levelPairsInSeries } from "./tile/levels.ts";

/**
 * All parts of the periphery of a memory with this structure, from the rows to the edge of the
 * macro.
 * Instantiate each sheet with its prefix and binding, next to `sharedSheets(structure)`.
 */
export function partsFor(structure: Structure): PartUse[] {
  const onPitch = [...rowParts(structure), ...columnParts(structure)];
  return [
    ...(structure.memoryProcess ? onPitch.map(inMemoryProcess) : onPitch),
    ...macroParts(structure),
  ];
}

/** The layout rules of a memory process for what stands at the pitch of the lines. */
function inMemoryProcess(use: PartUse): PartUse {
  const rules = {
    isolation_pitches: "array_isolation_pitches",
    pitch_layout_share: "array_layout_share",
  };
  const read = Object.entries(rules).filter(([name]) => name in use.sheet.inputs);
  return { ...use, bind: { ...Object.fromEntries(read), ...use.bind } };
}

/**
 * Sheets that all parts read, to be instantiated once: stage effort, energy of logic, lines,
 * the currents of a crossbar's lines, the levels of cells of several bits, the size of the code.
 * With a code, bind the organisation's `check_bits` to `code_check_bits`.
 */
export function sharedSheets(structure: Structure): Instance[] {
  const codes = {
    none: [],
    single: [singleCode],
    "single-double": [singleDoubleCode],
    multiple: [multipleCode],
  };
  const currents = structure.bias === undefined ? [] : [lineCurrents];
  const divided = structure.mainRows || structure.globalColumns ? [dividedLines] : [];
  const pairs = structure.levelsInSeries ? levelPairsInSeries : levelPairs;
  const levels = structure.levels === undefined ? [] : [pairs];
  const all = [
    effort,
    logicEnergy,
    lines,
    ...divided,
    ...currents,
    ...levels,
    ...codes[structure.correction],
  ];
  return all.map((of) => ({ of }));
}
