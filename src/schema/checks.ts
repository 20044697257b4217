/**
 * What no circuit can be, whatever the models say. The study's reader calls these with what a file
 * says itself, the catalogue again with what its names turned out to mean.
 */

import type { Place, Problem } from "../errors/problem.ts";
import type { Parameter } from "../quantities/parameter.ts";

type Figures = Readonly<Record<string, Parameter | undefined>>;

/** Where the value of a name stands, and its JSON pointer. */
export type Locate = (name: string) => { readonly place?: Place; readonly path?: string };

/** The off resistance above the on resistance. */
export function checkSwitch(figures: Figures, locate: Locate): Problem[] {
  const { on_resistance: on, off_resistance: off, on_off_ratio: ratio } = figures;
  if (on !== undefined && off !== undefined && off.value <= on.value) {
    return [
      {
        code: "off-below-on",
        what: `the off resistance (${plain(off)}) isn't above the on resistance (${plain(on)})`,
        ...locate("off_resistance"),
        expected: "on is the low-resistance state, off the high one",
        fix: "exchange the two, or correct the unit of one",
      },
    ];
  }
  if (ratio === undefined || ratio.value > 1) return [];
  return [
    {
      code: "off-below-on",
      what: `an on/off ratio of ${plain(ratio)} leaves nothing to tell the states apart`,
      ...locate("on_off_ratio"),
      expected: "off resistance divided by on resistance, above 1",
    },
  ];
}

/** A threshold selector falls back below the voltage at which it snaps. */
export function checkSelector(figures: Figures, locate: Locate): Problem[] {
  const { threshold_voltage: threshold, hold_voltage: hold } = figures;
  if (threshold === undefined || hold === undefined || hold.value <= threshold.value) return [];
  return [
    {
      code: "out-of-range",
      what: `the hold voltage (${plain(hold)}) is above the threshold (${plain(threshold)})`,
      ...locate("hold_voltage"),
      expected: "a hold voltage at or below the threshold voltage",
    },
  ];
}

/** Below this no gate of silicon switches well at room temperature: some eight times k T / q [V]. */
export const LEAST_SUPPLY = 0.2;

/** A technology's own supply, at which its on-current and delay are stated, is above the threshold. */
export function checkSupply(
  supply: Parameter | undefined,
  threshold: Parameter | undefined,
  locate: Locate,
): Problem[] {
  if (supply === undefined || threshold === undefined) return [];
  if (supply.value > threshold.value) return [];
  return [tooLow(supply, threshold, locate, "a supply above the threshold voltage")];
}

/** The supply of a study may be below the threshold, but not by any amount. */
export function checkStudySupply(
  supply: Parameter | undefined,
  threshold: Parameter | undefined,
  locate: Locate,
): Problem[] {
  if (supply === undefined || threshold === undefined) return [];
  if (supply.value > Math.min(threshold.value, LEAST_SUPPLY)) return [];
  const expected = `a supply above ${LEAST_SUPPLY} V, where devices still switch below threshold`;
  return [tooLow(supply, threshold, locate, expected)];
}

function tooLow(
  supply: Parameter,
  threshold: Parameter,
  locate: Locate,
  expected: string,
): Problem {
  return {
    code: "supply-below-threshold",
    what: `the supply (${plain(supply)}) isn't above the threshold voltage (${plain(threshold)})`,
    ...locate("supply"),
    expected,
  };
}

export interface Organisation {
  readonly capacity?: number | undefined;
  readonly word?: number | undefined;
  readonly columns?: number | "auto" | undefined;
  readonly column_share?: number | "auto" | undefined;
  readonly bits?: number | undefined;
  readonly decks?: number | undefined;
  /** A transistor in each cell: of the selector, or of an all-CMOS cell. */
  readonly transistors: boolean;
}

/** Words fit rows and macro, shares divide, only cells without transistors are stacked. */
export function checkOrganisation(design: Organisation, locate: Locate): Problem[] {
  const { capacity, word, columns, column_share: columnShare, bits = 1, decks = 1 } = design;
  const problems: Problem[] = [];
  if (capacity !== undefined && word !== undefined)
    problems.push(...checkWords(capacity, word, locate));
  if (typeof columns === "number" && word !== undefined && columns * bits < word) {
    problems.push({
      code: "word-too-wide",
      what: `a word of ${word} bits is wider than a row of ${columns} columns`,
      ...locate("columns"),
      expected: `at least ${Math.ceil(word / bits)} columns`,
      fix: "widen the tile or shorten the word",
    });
  }
  if (typeof columns === "number" && typeof columnShare === "number" && columnShare > columns) {
    problems.push({
      code: "out-of-range",
      what: `${columnShare} columns can't share a sense amplifier in a tile of ${columns}`,
      ...locate("column_share"),
      expected: `at most ${columns}`,
    });
  }
  if (
    typeof columns === "number" &&
    typeof columnShare === "number" &&
    columnShare <= columns &&
    columns % columnShare !== 0
  ) {
    problems.push({
      code: "not-whole",
      what: `${columns} columns are no whole number of groups of ${columnShare}`,
      ...locate("column_share"),
      expected: `a divisor of ${columns}, such as ${nearestDivisor(columns, columnShare)}`,
    });
  }
  if (decks > 1 && design.transistors) {
    problems.push({
      code: "decks-with-transistor",
      what: `${decks} decks need cells without transistors: those lie in the silicon, once`,
      ...locate("decks"),
      expected: "decks: 1, or a selector without transistor",
    });
  }
  return problems;
}

function nearestDivisor(whole: number, wanted: number): number {
  let divisor = wanted;
  while (whole % divisor !== 0) divisor -= 1;
  return divisor;
}

function checkWords(capacity: number, word: number, locate: Locate): Problem[] {
  if (word > capacity) {
    return [
      {
        code: "word-too-wide",
        what: `a word of ${word} bits doesn't fit a macro of ${capacity} bits`,
        ...locate("word"),
        expected: `at most ${capacity} bits`,
      },
    ];
  }
  if (capacity % word === 0) return [];
  const below = Math.floor(capacity / word) * word;
  return [
    {
      code: "not-whole",
      what: `${capacity} bits are no whole number of words of ${word} bits`,
      ...locate("capacity"),
      expected: `a multiple of the word, such as ${below} bit`,
    },
  ];
}

function plain({ value, unit }: Parameter): string {
  return `${Number(value.toPrecision(6))}${unit === "1" ? "" : ` ${unit}`}`;
}
