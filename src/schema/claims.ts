/** The section `claims:` of a study: sentences with a number, and what counts as their holding. */

import type { Parameter } from "../quantities/parameter.ts";
import {
  choice,
  entry,
  figures,
  flag,
  group,
  list,
  name,
  named,
  quantity,
  share,
  text,
  whole,
} from "./define.ts";
import type { EntryTable, EntryUse, Field, FigureTable } from "./field.ts";

export type Comparison = "at least" | "about" | "at most";

/** What a count leaves in. */
export interface Count {
  readonly dummies?: boolean;
  readonly spares?: boolean;
  readonly test?: boolean;
  readonly error_correction?: boolean;
}

/** One claim: that one switch saves so many transistors in a function. */
export interface Claim {
  /** The sentence as a proposal has it. */
  readonly sentence?: string;
  /** The design whose process, organisation and switch the function has. */
  readonly subject: string;
  readonly function: string;
  readonly number: Parameter;
  readonly comparison?: Comparison;
  /** How far off `about` may be, relative. */
  readonly within?: Parameter;
  /** Where the count stops; `all` for each of them. */
  readonly boundary?: string;
  readonly holds_with?: Parameter;
  /** In elements of the function, such as bits or symbols. */
  readonly capacity?: number;
  /** Of a claim about all functions: the capacities of its table. */
  readonly capacities?: readonly number[];
  readonly word?: number;
  readonly banks?: number;
  readonly technology?: EntryUse;
  readonly sizes?: Readonly<Record<string, Parameter>>;
  readonly count?: Count;
  /** Parameters of which the value is sought at which the claim turns. */
  readonly solve_for?: readonly string[];
}

/** The word that stands for each function. */
export const EVERY_FUNCTION = "all";

export type Claims = Readonly<Record<string, Claim>>;

/** What the definition takes from the layers above. */
export interface ClaimWords {
  /** Name of a function and what it is. */
  readonly functions: Readonly<Record<string, string>>;
  /** Name of a boundary and what it counts. */
  readonly boundaries: Readonly<Record<string, string>>;
  /** Sizes of functions that a claim may set. */
  readonly sizes: FigureTable;
  readonly technology: EntryTable;
}

/** The definition of the whole section. */
export function claimsField(words: ClaimWords): Field<Claims> {
  const claim = group<Claim>("a sentence with a number that the tool tests", {
    sentence: text("the sentence as a proposal has it", {
      example: "One switch replaces ten transistors in a match table of 4 kib",
    }),
    subject: name("the design whose process, organisation and switch the function has", {
      required: true,
      example: "hybrid",
    }),
    function: choice<string>(
      "what is built from switches or without",
      { ...words.functions, [EVERY_FUNCTION]: "each of them, over a range of capacities" },
      { required: true, example: "ternary-match" },
    ),
    number: quantity("1", "transistors that one switch is said to save", {
      required: true,
      example: "10",
    }),
    comparison: choice<Comparison>(
      "how the number is meant",
      {
        "at least": "no fewer than the number",
        about: "near the number: see `within`",
        "at most": "no more than the number",
      },
      { default: { value: "at least", source: "this project" } },
    ),
    within: share("how far off `about` may be", {
      default: { value: "20 %", source: "this project" },
    }),
    boundary: choice<string>(
      "where the count stops",
      { ...words.boundaries, all: "at each of them" },
      {
        default: { value: "all", source: "this project" },
      },
    ),
    holds_with: quantity("1", "share of the draws in which a claim that holds must be true", {
      minimum: 0.5,
      maximum: 0.999,
      default: { value: "95 %", source: "common practice" },
    }),
    capacity: whole("size of the function in place of that of the subject", {
      unit: "bit",
      example: "4 kib",
    }),
    capacities: list(
      "capacities of the table of a claim about all functions",
      whole("size of the functions", { unit: "bit", example: "1 Mib" }),
    ),
    word: whole("bits or symbols of one access", { unit: "bit", maximum: 65536, example: "64" }),
    banks: whole("banks", { maximum: 65536, example: "1" }),
    technology: entry(
      "technology",
      "the process in place of that of the subject",
      words.technology,
    ),
    sizes: figures("sizes of the function, such as `table_inputs`", words.sizes),
    count: group<Count>("what is counted besides", {
      dummies: flag("dummy cells around the arrays", {
        default: { value: "false", source: "this project" },
      }),
      spares: flag("spare rows and columns", {
        default: { value: "true", source: "this project" },
      }),
      test: flag("self-test and scan", { default: { value: "false", source: "this project" } }),
      error_correction: flag("check bits and their logic", {
        default: { value: "true", source: "this project" },
      }),
    }),
    solve_for: list(
      "parameters of which the value is sought at which the claim turns",
      name("a parameter", { example: "current_limit" }),
    ),
  });
  return named("sentences with a number that the tool tests", "a name", claim);
}
