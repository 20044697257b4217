import { log2, pow } from "../numerics/special/elementary.ts";
import type { Parameter } from "../quantities/parameter.ts";
import type { Design, TileLines } from "../schema/study.ts";
import type { ResolvedCell } from "./cell.ts";
import { chosen, type ParameterSet } from "./parameters.ts";

/** The numbers of an organisation, with what was chosen for the user and why. */
export interface Organised {
  readonly rows: number;
  readonly columns: number;
  readonly decks: number;
  readonly columnShare: number;
  readonly banks: number;
  readonly spares: boolean;
  /** Which lines tiles share, and so which of decoders, amplifiers and write drivers. */
  readonly lines: TileLines;
  /** A whole die, with pads. */
  readonly die: boolean;
  readonly parameters: readonly Parameter[];
  /** How the largest tile was found, where the study asks for it. */
  readonly largest?: string;
  /** Sentences: what `auto` or a missing key became. */
  readonly chosen: readonly string[];
}

/** The same as numbers alone, by the names that sheets read. */
export interface LaidOut extends Omit<Organised, "parameters"> {
  readonly numbers: Readonly<Record<string, number>>;
}

const MOST_LINES = 256;
/**
 * Memory processes have lines of low load and circuits on their pitch; floating gates have row drivers for the voltages
 * of a write, which large arrays share.
 */
const MOST_LINES_OF_MEMORY = 512;
const MOST_SHARED = 32;
/** Lines of a tile of a die for which it has one to spare: 1 to 4 % is what commodity memories have. */
const LINES_PER_SPARE = 64;

/**
 * Rows, columns and sharing: what the study says, else a tile that is as square as the capacity of a bank allows, of at
 * most 256 lines each way (512 in a memory process or of floating gates) but a row as wide as the word, whose
 * amplifiers give one word.
 */
export function layOut(design: Design, cell: ResolvedCell): LaidOut {
  const { tile = {} } = design;
  const told: string[] = [];
  const number = (
    value: number | "auto" | undefined,
    fallback: number,
    what: string,
    why: string,
  ): number => {
    if (typeof value === "number") return value;
    told.push(`${what}: ${fallback}, by default: ${why}`);
    return fallback;
  };
  const bits = design.cell?.bits ?? 1;
  const { memoryProcess = false, erasedByBlock } = cell.model.structure;
  const most = memoryProcess || erasedByBlock ? MOST_LINES_OF_MEMORY : MOST_LINES;
  const { capacity = 0, word = 1 } = design;
  const decks = tile.decks ?? 1;
  const banks = number(design.banks, 1, "banks", "one access at a time");
  const cells = capacity / (banks * bits * decks);
  const given = (value: number | "auto" | undefined) =>
    typeof value === "number" ? value : undefined;
  const coded = Math.ceil(codedBits(word, design.error_correction) / bits);
  const columns = number(
    tile.columns,
    columnsFor(cells, Math.ceil(word / bits), coded, given(tile.rows), most),
    "columns of a tile",
    "as many as rows, and a row at least as wide as the word with its check bits",
  );
  const rows = number(
    tile.rows,
    Math.min(most, powerAtLeast(cells / columns)),
    "rows of a tile",
    `what a bank needs with these columns, and no more than ${most}`,
  );
  const columnShare = number(
    tile.column_share,
    shareFor(columns, coded),
    "columns that share a sense amplifier",
    "the most at which one tile gives a word with its check bits",
  );
  const spare = (value: number | undefined, lines: number, what: string): number =>
    design.die === undefined
      ? (value ?? 0)
      : number(
          value,
          Math.ceil(lines / LINES_PER_SPARE),
          `spare ${what} of a tile`,
          `a die has one for every ${LINES_PER_SPARE}`,
        );
  const spareRows = spare(design.spare_rows, rows, "rows");
  const spareColumns = spare(design.spare_columns, columns, "columns");
  const atOnce = design.write?.bits_at_once;
  return {
    rows,
    columns,
    decks,
    columnShare,
    banks,
    spares: spareRows + spareColumns > 0,
    lines: tile.lines ?? (memoryProcess ? "divided" : "whole"),
    die: design.die !== undefined,
    chosen: told,
    numbers: {
      capacity,
      word,
      banks,
      rows,
      columns,
      decks,
      column_share: columnShare,
      amplifier_share: cell.model.sensing === "charge" ? 1 : columnShare,
      bits_at_once: typeof atOnce === "number" ? atOnce : columns * bits,
      bits_per_cell: bits,
      cells_per_bit: 1,
      spare_rows: spareRows,
      spare_columns: spareColumns,
      ...(design.die && { die_pads: given(design.die.pads) ?? 0 }),
    },
  };
}

/** The same as parameters. */
export function organise(design: Design, cell: ResolvedCell, known: ParameterSet): Organised {
  const { numbers, ...laid } = layOut(design, cell);
  const stated = ["capacity", "word"];
  return {
    ...laid,
    parameters: [
      ...Object.entries(numbers).map(([name, value]) =>
        stated.includes(name) ? chosen(name, value, "1", "this study") : chosen(name, value),
      ),
      known.get("feature") ?? sameHalfPitch(known),
    ].filter((one) => one !== undefined),
  };
}

/** The least power of two that is no less; at least 1. */
function powerAtLeast(value: number): number {
  return pow(2, Math.max(0, Math.ceil(log2(Math.max(1, value)) - 1e-9)));
}

/** By how much a row of whole coded words may exceed the most lines. */
const CODED_ROOM = 1.25;

/**
 * A power of two, or with check bits as many coded words as come near to it, so that no amplifier
 * stands idle.
 */
function columnsFor(
  cells: number,
  word: number,
  coded: number,
  rows: number | undefined,
  most: number,
): number {
  const wanted = powerAtLeast(rows === undefined ? Math.sqrt(cells) : cells / rows);
  const plain = Math.max(Math.min(most, wanted), powerAtLeast(word));
  if (coded === word) return plain;
  const words = (CODED_ROOM * plain) / coded;
  return coded * pow(2, Math.max(0, Math.floor(log2(Math.max(1, words)) + 1e-9)));
}

/** Bits of a word with the check bits of its code: see the sheets of the codes. */
function codedBits(word: number, code: Design["error_correction"] = "none"): number {
  if (code === "none") return word;
  const corrects = typeof code === "object" ? code.corrects : 1;
  let field = 1;
  while (pow(2, field) < word + field * corrects + 1) field++;
  return word + field * corrects + (code === "single-double" ? 1 : 0);
}

/** The largest power of two that divides the columns and at which one tile still gives a word. */
function shareFor(columns: number, cellsOfWord: number): number {
  let share = 1;
  const fits = (next: number) => columns % next === 0 && columns / next >= cellsOfWord;
  while (share * 2 <= MOST_SHARED && fits(share * 2)) share *= 2;
  return share;
}

function sameHalfPitch(known: ParameterSet): Parameter | undefined {
  const pitch = known.get("metal_half_pitch");
  return pitch && { ...pitch, name: "feature" };
}
