import type { Parameter } from "../quantities/parameter.ts";
import type { Design } from "../schema/study.ts";
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
  readonly parameters: readonly Parameter[];
  /** Sentences: what `auto` or a missing key became. */
  readonly chosen: readonly string[];
}

const DEFAULT_LINES = 256;
const MOST_SHARED = 32;

/**
 * Rows, columns and sharing: what the study says, else a square tile of 256 lines whose amplifiers give one word.
 */
export function organise(design: Design, cell: ResolvedCell, known: ParameterSet): Organised {
  const { tile = {} } = design;
  const told: string[] = [];
  const number = (value: number | "auto" | undefined, fallback: number, what: string): number => {
    if (typeof value === "number") return value;
    told.push(`${what}: ${fallback}, by default`);
    return fallback;
  };
  const bits = design.cell?.bits ?? 1;
  const rows = number(tile.rows, DEFAULT_LINES, "rows of a tile");
  const columns = number(tile.columns, DEFAULT_LINES, "columns of a tile");
  const fallback = shareFor(columns * bits, design.word ?? 1);
  const columnShare = number(tile.column_share, fallback, "columns that share a sense amplifier");
  const banks = number(design.banks, 1, "banks");
  const spareRows = design.spare_rows ?? 0;
  const spareColumns = design.spare_columns ?? 0;
  const decks = tile.decks ?? 1;
  const atOnce = design.write?.bits_at_once;
  const source = "this study";
  return {
    rows,
    columns,
    decks,
    columnShare,
    banks,
    spares: spareRows + spareColumns > 0,
    chosen: told,
    parameters: [
      chosen("capacity", design.capacity ?? 0, "1", source),
      chosen("word", design.word ?? 0, "1", source),
      chosen("banks", banks),
      chosen("rows", rows),
      chosen("columns", columns),
      chosen("decks", decks),
      chosen("column_share", columnShare),
      chosen("amplifier_share", cell.model.sensing === "charge" ? 1 : columnShare),
      chosen("bits_at_once", typeof atOnce === "number" ? atOnce : columns * bits),
      chosen("bits_per_cell", bits),
      chosen("cells_per_bit", 1),
      chosen("spare_rows", spareRows),
      chosen("spare_columns", spareColumns),
      known.get("feature") ?? sameHalfPitch(known),
    ].filter((one) => one !== undefined),
  };
}

/** The largest power of two at which one tile still gives a word. */
function shareFor(bitsOfRow: number, word: number): number {
  let share = 1;
  while (share * 2 <= MOST_SHARED && bitsOfRow / (share * 2) >= word) share *= 2;
  return share;
}

function sameHalfPitch(known: ParameterSet): Parameter | undefined {
  const pitch = known.get("metal_half_pitch");
  return pitch && { ...pitch, name: "feature" };
}
