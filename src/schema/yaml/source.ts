/** A text with the places of its characters. */

import type { Place } from "../../errors/problem.ts";

/** No line of a study is longer; the excerpt of an error needs no more. */
const LONGEST_LINE = 10_000;

/** Characters of a text, from `start` to before `end`. */
export interface Span {
  readonly start: number;
  readonly end: number;
  /** Where it isn't the file that is read: a setting of the command line. */
  readonly source?: Source;
}

export class Source {
  readonly file: string;
  readonly text: string;
  private lineStarts: number[] | undefined;

  constructor(file: string, text: string) {
    this.file = file;
    this.text = text;
  }

  /** The place of the characters from `start` to before `end`; the mark ends with the line. */
  place(start: number, end = start + 1): Place {
    const at = Math.max(0, Math.min(start, this.text.length));
    const line = this.lineOf(at);
    const first = this.starts()[line]!;
    const text = this.lineText(line);
    const length = Math.max(1, Math.min(end, first + text.length) - at);
    return { file: this.file, line: line + 1, column: at - first + 1, length, text };
  }

  /** Where the line with this character begins. */
  lineStart(at: number): number {
    return this.starts()[this.lineOf(at)]!;
  }

  private lineText(line: number): string {
    const first = this.starts()[line]!;
    const next = this.starts()[line + 1] ?? this.text.length + 1;
    return this.text.slice(first, Math.min(next, first + LONGEST_LINE)).replace(/[\r\n]+$/, "");
  }

  /** The line, from 0, by bisection. */
  private lineOf(at: number): number {
    const starts = this.starts();
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (starts[middle]! <= at) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  private starts(): number[] {
    if (this.lineStarts !== undefined) return this.lineStarts;
    const starts = [0];
    const lineBreak = /\r\n|\r|\n/g;
    while (lineBreak.exec(this.text) !== null) starts.push(lineBreak.lastIndex);
    this.lineStarts = starts;
    return starts;
  }
}
