/**
 * Which data are worst. A pattern is alike in each of three groups of junctions: those of the
 * selected row, those of the selected column, and all others. In 3 x 3 and 3 x 4 arrays, searched
 * through, no data are worse; in larger ones single cells can add to second order of what the lines
 * take (0.2 % of a read where they take a quarter). What is left: of floating lines 0.1 % of the
 * delivery and 5 % of the disturb voltage, of one third 2 % of the latter in the smallest arrays.
 */
import type { Scheme } from "./contract.ts";

/** The state of each group; true is on. */
export interface Pattern {
  readonly row: boolean;
  readonly column: boolean;
  readonly rest: boolean;
}

/** What data may make worst. */
export const QUESTIONS = [
  /** Least current of the selected column with the selected cell on. */
  "read_on",
  /** Largest current of the selected column with the selected cell off. */
  "read_off",
  /** Least voltage of the selected cell in a write. */
  "delivery",
  /** Largest power of the unselected junctions in a write. */
  "power",
  /** Largest voltage of an unselected junction in a write. */
  "disturb",
] as const;
export type Question = (typeof QUESTIONS)[number];

const of = (text: string): Pattern => ({
  row: text[0] === "1",
  column: text[1] === "1",
  rest: text[2] === "1",
});

/** All eight patterns. */
export const PATTERNS: readonly Pattern[] = [...Array(8).keys()].map((k) =>
  of(k.toString(2).padStart(3, "0")),
);

const worst = (...texts: readonly string[]): Readonly<Record<Question, Pattern>> =>
  Object.fromEntries(QUESTIONS.map((question, k) => [question, of(texts[k]!)])) as Record<
    Question,
    Pattern
  >;

/**
 * The worst pattern by scheme and question: row, column and others. Cells on the selected row and
 * column load them where they carry current; a current that reaches the selected column from
 * elsewhere hides a cell that is on, and feigns one that is off.
 */
export const WORST: Readonly<Record<Scheme, Readonly<Record<Question, Pattern>>>> = {
  floating: worst("000", "111", "111", "111", "011"),
  grounded: worst("110", "001", "101", "111", "001"),
  "one-half": worst("100", "011", "111", "111", "001"),
  "one-third": worst("100", "011", "111", "111", "001"),
};
