/** What decides which parts a memory has. */
import type { Sheet } from "../../formulas/sheet.ts";
import type { Correction } from "./macro/code.ts";
import type { BiasScheme } from "./tile/bias.ts";

export interface Structure {
  /**
   * How a column is read: by the swing the cell makes, or by its current while the column is held.
   */
  readonly sensing: "voltage" | "current";
  /** Where a write voltage comes from: the core supply, the input-output supply, or a pump. */
  readonly writeSupply: "core" | "input-output" | "pump";
  /**
   * The same for the rows, whose gates may need more than the columns; `writeSupply` unless said.
   * Raised rows of columns at the core supply carry no write current, only their own charge.
   */
  readonly rowSupply?: "core" | "input-output" | "pump";
  /** The supply that feeds the pump; `core` unless said. */
  readonly pumpFrom?: "core" | "input-output";
  /**
   * Set where cells have no transistor of their own: every row and column is then held at a level.
   */
  readonly bias?: BiasScheme;
  /** A write has a current of its own that must be limited (resistance switches). */
  readonly limitedWrite: boolean;
  /** A whole die: pads, interface, test, supplies and edges come with the macro. */
  readonly die?: boolean;
  /** A row of tiles shares a decoder and main row lines. */
  readonly mainRows?: boolean;
  /** A column of tiles shares amplifiers and write drivers, at the end of global columns. */
  readonly globalColumns?: boolean;
  /** Circuits on the pitch of the lines are drawn by the rules of a memory process. */
  readonly memoryProcess?: boolean;
  /** The selected row is pulled down and carries the current of its cells. */
  readonly rowSinks?: boolean;
  /** Columns have source lines of their own, which a write of two polarities drives. */
  readonly sourceLines?: boolean;
  /** Blocks are erased at a voltage of their own. */
  readonly erasedByBlock?: boolean;
  /** A row has a digit line too, whose current's field writes with that of a column. */
  readonly fieldWritten?: boolean;
  /** Writes are verified and repeated. */
  readonly verify: boolean;
  /** Several columns share an amplifier, or columns of several decks do. */
  readonly multiplexed: boolean;
  /**
   * A cell that gives its charge away needs an amplifier at each column, which restores it: the
   * multiplexer then stands behind the amplifiers.
   */
  readonly amplifierPerColumn?: boolean;
  readonly correction: Correction;
  readonly spares: boolean;
  readonly refresh: boolean;
  /** False for a cell with a pair of columns, which is its own reference. */
  readonly reference: boolean;
  /** How a cell of several bits is read; absent where cells have two states. */
  readonly levels?: LevelReading;
  /** A resistance lies in series with the switch: the currents of its levels follow from it. */
  readonly levelsInSeries?: boolean;
}

/**
 * How the levels of a cell of b bits are told apart: by one amplifier in b decisions, each against
 * the reference that the ones before leave, or by an amplifier for each of 2^b - 1 references.
 */
export type LevelReading = "successive" | "parallel";

/** Whether a pulse can end as soon as its own cell has switched. */
export function terminates({ limitedWrite, erasedByBlock = false }: Structure): boolean {
  return limitedWrite && !erasedByBlock;
}

export type Level = "tile" | "bank" | "macro";

/** One kind of part in a design. */
export interface PartUse {
  /** What a ledger calls it, such as `row decoder`. */
  readonly name: string;
  /** Ends with an underscore, such as `row_decoder_`. */
  readonly prefix: string;
  readonly sheet: Sheet;
  readonly bind?: Readonly<Record<string, string>>;
  /** The block that holds `count` instances. */
  readonly level: Level;
  /** Instances in one tile, bank or macro: a formula. */
  readonly count: string;
  /** Of a bank's part: it stands along the tiles, which share it. */
  readonly alongTiles?: boolean;
  /**
   * Instances that take part in one read, in one active tile, in the active bank, or in the
   * macro: a formula.
   */
  readonly activeRead: string;
  /** The same for one write of a word (one pass of all its groups). */
  readonly activeWrite: string;
  readonly onReadPath: boolean;
  readonly onWritePath: boolean;
}
