/** Rows of a sweep as columns of typed arrays, without an object for each row. */
import type { SweepColumn } from "./plan.ts";

export interface NumberColumn {
  readonly type: "whole" | "number";
  /** NaN where there is no value. */
  readonly values: Float64Array;
}

export interface TruthColumn {
  readonly type: "truth";
  readonly values: Uint8Array;
}

export interface TextColumn {
  readonly type: "text";
  /** Places among the words; -1 where there is no text. */
  readonly codes: Int32Array;
  readonly words: readonly string[];
}

export type TableColumn = NumberColumn | TruthColumn | TextColumn;

/** Some rows of a sweep: one column for each of `columns`, the first `count` values of each. */
export interface SweepTable {
  readonly columns: readonly SweepColumn[];
  readonly count: number;
  readonly data: readonly TableColumn[];
}

/** A value of a row; undefined where there is none. */
export type SweepValue = number | string | boolean | undefined;

/** One row by the names of its columns; what has no value is left out. */
export type SweepRow = Readonly<Record<string, number | string | boolean>>;

/** The value of one cell of a table. */
export function valueAt(column: TableColumn, row: number): SweepValue {
  switch (column.type) {
    case "truth":
      return column.values[row] === 1;
    case "text":
      return column.words[column.codes[row]!];
    default: {
      const value = column.values[row]!;
      return Number.isNaN(value) ? undefined : value;
    }
  }
}

/** The rows of a table as objects. */
export function* rowsOf({ columns, data, count }: SweepTable): Generator<SweepRow, void, void> {
  for (let row = 0; row < count; row++) {
    const made: Record<string, number | string | boolean> = {};
    for (const [k, { name }] of columns.entries()) {
      const value = valueAt(data[k]!, row);
      if (value !== undefined) made[name] = value;
    }
    yield made;
  }
}

/** Words that come again and again, as numbers. */
export class Words {
  readonly list: string[] = [];
  private readonly places = new Map<string, number>();

  code(word: string | undefined): number {
    if (word === undefined) return -1;
    let place = this.places.get(word);
    if (place === undefined) {
      place = this.list.push(word) - 1;
      this.places.set(word, place);
    }
    return place;
  }

  /** Reasons may hold figures, so that their number has no bound. */
  clear(): void {
    this.list.length = 0;
    this.places.clear();
  }
}
