/** Cuts the text of a formula or an expression into tokens, with their places. */

import { type Place, refuse } from "../errors/problem.ts";
import { DEEPEST_BRACKETS, LONGEST_TEXT } from "./limits.ts";

export interface Token {
  readonly kind: "number" | "name" | "sign" | "unit" | "end";
  readonly text: string;
  /** Offset of the first character. */
  readonly at: number;
}

/** A text and where it comes from. Line and column are those of its first character, from 1. */
export interface Located {
  readonly text: string;
  readonly file: string;
  readonly line?: number;
  readonly column?: number;
  /** The whole line of the file that the text stands on, where it is more than the text. */
  readonly lineText?: string;
}

const SPACE = /[ \t\r\n]+/y;
const NUMBER = /(?:\d+(?:\.\d+)?|\.\d+)(?:[eE][+-]?\d+)?/y;
const NAME = /[A-Za-z][A-Za-z0-9_]*/y;
const SIGN = /<=|>=|==|!=|[-+*/^(),<>?:]/y;
/** A unit follows its number, has no blanks inside, and may start with `1/`. */
const UNIT = (() => {
  const power = "(?:\\^-?\\d+)?";
  // Both code points of ohm and of micro, the degree sign, angstrom.
  const word = "[A-Za-z%\\u03a9\\u2126\\u03bc\\u00b5\\u00b0\\u00c5]+";
  return new RegExp(`(?:1/)?${word}${power}(?:[*/\\u00b7]${word}${power})*`, "y");
})();
const WORDS_NOT_UNITS = new Set(["and", "or", "not"]);

/**
 * The place of an offset of a text.
 *
 * @param source the text and its file
 * @param at offset from the start of the text
 * @param length how many characters to mark
 */
export function placeAt(source: Located, at: number, length = 1): Place {
  const before = source.text.slice(0, at).split("\n");
  const row = before.length - 1;
  const offset = row === 0 ? (source.column ?? 1) - 1 : 0;
  const own = source.text.split("\n")[row] ?? "";
  return {
    file: source.file,
    line: (source.line ?? 1) + row,
    column: offset + (before[row] ?? "").length + 1,
    length: Math.max(1, length),
    text: row === 0 ? (source.lineText ?? own) : own,
  };
}

/**
 * The tokens of a text, the last of kind `end`.
 *
 * @param source the text
 * @param units whether a number may be followed by a unit (`10 ns`)
 * @throws TenfoldError `formula-too-long`, `formula-too-deep`, `formula-character`,
 *   `formula-number`
 */
export function tokenize(source: Located, units: boolean): Token[] {
  const { text } = source;
  if (text.length > LONGEST_TEXT) {
    refuse({
      code: "formula-too-long",
      what: `the text has ${text.length} characters`,
      place: placeAt({ ...source, text: text.slice(0, 60), lineText: text.slice(0, 60) }, 0),
      expected: `at most ${LONGEST_TEXT}`,
    });
  }
  const tokens: Token[] = [];
  let depth = 0;
  let at = match(SPACE, text, 0).length;
  while (at < text.length) {
    const token = tokenAt(source, at, units && tokens.at(-1)?.kind === "number");
    if (token.text === "(") depth++;
    if (token.text === ")") depth--;
    if (depth > DEEPEST_BRACKETS) {
      refuse({
        code: "formula-too-deep",
        what: "too many brackets inside brackets",
        place: placeAt(source, at),
        expected: `at most ${DEEPEST_BRACKETS}`,
      });
    }
    tokens.push(token);
    at += token.text.length;
    at += match(SPACE, text, at).length;
  }
  tokens.push({ kind: "end", text: "", at: text.length });
  return tokens;
}

function tokenAt(source: Located, at: number, unitMayFollow: boolean): Token {
  const { text } = source;
  if (unitMayFollow) {
    const unit = match(UNIT, text, at);
    if (unit !== "" && !WORDS_NOT_UNITS.has(unit)) return { kind: "unit", text: unit, at };
  }
  const number = match(NUMBER, text, at);
  if (number !== "") return numberToken(source, number, at);
  const name = match(NAME, text, at);
  if (name !== "") return { kind: "name", text: name, at };
  const sign = match(SIGN, text, at);
  if (sign !== "") return { kind: "sign", text: sign, at };
  const character = String.fromCodePoint(text.codePointAt(at) ?? 0);
  return refuse({
    code: "formula-character",
    what: `"${printable(character)}" has no meaning in a formula`,
    place: placeAt(source, at),
    got: printable(character),
    expected: "numbers, names, + - * / ^, brackets, comparisons and the listed functions",
  });
}

function numberToken(source: Located, text: string, at: number): Token {
  if (!Number.isFinite(Number(text))) {
    refuse({
      code: "formula-number",
      what: "the number is too large",
      place: placeAt(source, at, text.length),
      got: text,
    });
  }
  return { kind: "number", text, at };
}

function match(pattern: RegExp, text: string, at: number): string {
  pattern.lastIndex = at;
  return pattern.exec(text)?.[0] ?? "";
}

/** Control characters and the like as their code, so that a message cannot carry them. */
function printable(character: string): string {
  if (/^[\p{L}\p{N}\p{P}\p{S} ]$/u.test(character)) return character;
  return `U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, "0")}`;
}
