import type { Scheme, SchemePair } from "../models/crossbar/contract.ts";
import type { LevelReading, Structure } from "../models/periphery/index.ts";
import type { CellModel } from "../models/registry.ts";
import type { TileLines } from "../schema/study.ts";
import type { ReliabilityParts } from "./reliability-parts.ts";

/** What decides which sheets a design is made of. Designs of the same structure share one compiled program. */
export interface MacroStructure {
  /** A name of the registry, or `crosspoint`. */
  readonly cell: string;
  /** Of a crosspoint: see `crosspointName`. */
  readonly crosspoint?: string;
  readonly periphery: Structure;
  readonly rowWire: WireSource;
  readonly columnWire: WireSource;
  readonly routeWire: WireSource;
  /** What of its reliability is estimated. */
  readonly reliability?: ReliabilityParts;
}

/** How a crosspoint is told from others, such as `threshold grounded one-half`. */
export function crosspointName(selector: string, { read, write }: SchemePair): string {
  return `${selector} ${read} ${write}`;
}

/** Schemes by how many levels the drivers of the lines need. */
const BY_LEVELS: readonly Scheme[] = ["floating", "grounded", "one-half", "one-third"];

/** The scheme that the drivers are built for: of the two, the one with more levels. */
export function heldLevels({ read, write }: SchemePair): Scheme {
  return BY_LEVELS.indexOf(read) > BY_LEVELS.indexOf(write) ? read : write;
}

/** `given`: width, spacing and so on come as parameters under the wire's prefix. */
export type WireSource = "local" | "intermediate" | "global" | "given";

/** What a study chooses of the periphery's structure. */
export interface PeripheryChoices {
  /** Columns among which one is accessed, those of all decks together. */
  readonly selectedColumns: number;
  readonly correction: Structure["correction"];
  readonly spares: boolean;
  /** Which lines are divided: tiles then share decoders, or amplifiers and write drivers. */
  readonly lines: TileLines;
  /** A whole die with its pads. */
  readonly die: boolean;
  readonly bias?: NonNullable<Structure["bias"]>;
  /** How cells of several bits are read. */
  readonly levels?: LevelReading;
}

/**
 * The periphery that a cell needs.
 *
 * @param model the kind of cell
 * @param choices what the study chooses
 * @param voltages nominal write voltage at the columns, highest level of the rows, and supplies [V]: they decide
 *   whether level shifters and a pump are needed
 */
export function peripheryStructure(
  model: CellModel,
  choices: PeripheryChoices,
  voltages: {
    readonly write: number;
    readonly row: number;
    readonly supply: number;
    readonly ioSupply: number;
  },
): Structure {
  const { structure } = model;
  const { write, row, supply, ioSupply } = voltages;
  const from = (voltage: number) =>
    voltage <= supply ? "core" : voltage <= ioSupply ? "input-output" : "pump";
  const { fieldWritten = false } = structure;
  const pulsed = structure.pulsed && !fieldWritten;
  const { memoryProcess = false, erasedByBlock } = structure;
  const ownSources = pulsed && structure.transistorInCell && !memoryProcess && !erasedByBlock;
  const reference = model.sensing === "current" && !structure.differential;
  return {
    sensing: model.sensing === "current" ? "current" : "voltage",
    writeSupply: from(write),
    rowSupply: from(Math.max(row, write)),
    pumpFrom: "input-output",
    ...(structure.biased && choices.bias !== undefined && { bias: choices.bias }),
    limitedWrite: pulsed,
    verify: pulsed,
    ...(fieldWritten && { fieldWritten }),
    ...(structure.rowSinks && { rowSinks: true }),
    ...(ownSources && { sourceLines: true }),
    ...(structure.erasedByBlock && { erasedByBlock: true }),
    ...(choices.die && { die: true }),
    ...(choices.lines === "divided" && { mainRows: true }),
    ...(choices.lines !== "whole" && { globalColumns: true }),
    ...(structure.memoryProcess && { memoryProcess: true }),
    multiplexed: choices.selectedColumns > 1,
    amplifierPerColumn: model.sensing === "charge",
    correction: choices.correction,
    spares: choices.spares,
    refresh: structure.refreshed,
    reference,
    ...(choices.levels !== undefined &&
      reference &&
      structure.pulsed &&
      !structure.erasedByBlock && {
        levels: choices.levels,
        ...(!structure.biased && { levelsInSeries: true }),
      }),
  };
}
