/** Problems as text for people and as data for programs: the one file that words them. */

import type { Place, Problem } from "./problem.ts";

export interface WordingOptions {
  /** Escape sequences of terminals for the place and the mark; default false. */
  readonly color?: boolean;
  /** Columns of the excerpt and of lists; default 80. */
  readonly width?: number;
}

const RED = "\u001b[31m";
const BOLD = "\u001b[1m";
const PLAIN = "\u001b[0m";
const CUT = "…";
const DEFAULT_WIDTH = 80;

/** What `problemData` gives; keys that don't apply are absent. */
export interface ProblemData extends Omit<Problem, "place"> {
  readonly file?: string;
  readonly line?: number;
  readonly column?: number;
}

/**
 * One problem as lines of text: place and sentence, the line of the file with a mark under the
 * mistake, what was expected, the nearest right word, how to fix it. Each line fits `width` where
 * it quotes the file.
 */
export function problemText(problem: Problem, options: WordingOptions = {}): string {
  const paint = (style: string, text: string): string =>
    options.color === true && text !== "" ? style + text + PLAIN : text;
  const where = placeText(problem.place);
  const lines = [`${paint(BOLD, where)}${where === "" ? "" : ": "}${visible(problem.what)}`];
  const excerpt = problem.place === undefined ? undefined : excerptOf(problem.place, options.width);
  if (excerpt !== undefined) {
    lines.push(`${excerpt.gutter}${excerpt.text}`);
    lines.push(`${" ".repeat(excerpt.gutter.length + excerpt.from)}${paint(RED, excerpt.mark)}`);
  }
  const { expected, nearest, fix } = problem;
  for (const [label, text] of Object.entries({
    expected,
    "did you mean": nearest,
    "to fix": fix,
  })) {
    if (text !== undefined) lines.push(...wrapped(`  ${label}: `, visible(text), options.width));
  }
  return lines.join("\n");
}

/** All problems, an empty line between them, and how many there are. */
export function problemsText(problems: readonly Problem[], options: WordingOptions = {}): string {
  const texts = problems.map((problem) => problemText(problem, options));
  const count = problems.length === 1 ? "1 problem" : `${problems.length} problems`;
  return `${[...texts, count].join("\n\n")}\n`;
}

/** A problem as plain data for `--format json` and editors. */
export function problemData(problem: Problem): ProblemData {
  const { place, ...rest } = problem;
  if (place === undefined) return rest;
  return { ...rest, file: place.file, line: place.line, column: place.column };
}

/** `file:line:column`, as terminals and editors link it. */
export function placeText(place: Place | undefined): string {
  return place === undefined ? "" : visible(`${place.file}:${place.line}:${place.column}`);
}

/** Text behind a label, broken between words; further lines stand below the first word. */
function wrapped(label: string, text: string, width = DEFAULT_WIDTH): string[] {
  const room = Math.max(20, width - label.length);
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const last = lines.at(-1);
    if (last === undefined || last.length + 1 + word.length > room) lines.push(word);
    else lines[lines.length - 1] = `${last} ${word}`;
  }
  return lines.map((line, i) => (i === 0 ? label : " ".repeat(label.length)) + line);
}

/** Control characters of a file must not reach the terminal. */
function visible(text: string): string {
  return text.replace(/\t/g, " ").replace(/[\p{Cc}\p{Cf}\u2028\u2029]|\p{Surrogate}/gu, "\ufffd");
}

/** The line of the place, cut to `width` around the marked text. */
function excerptOf(place: Place, width = DEFAULT_WIDTH) {
  if (place.text === undefined) return undefined;
  const gutter = `${String(place.line).padStart(6)} | `;
  const room = Math.max(20, width - gutter.length);
  const letters = [...visible(place.text)];
  // Columns count UTF-16 units, the mark counts letters.
  const start = [...place.text.slice(0, place.column - 1)].length;
  const length = Math.max(
    1,
    [...place.text.slice(place.column - 1)].slice(0, place.length ?? 1).length,
  );
  if (letters.length <= room) {
    const marked = Math.max(1, Math.min(length, letters.length - start));
    return { gutter, text: letters.join(""), from: start, mark: "^".repeat(marked) };
  }
  const first = Math.max(0, Math.min(start - Math.floor(room / 3), letters.length - room));
  const shown = letters.slice(first, first + room);
  if (first > 0) shown[0] = CUT;
  if (first + room < letters.length) shown[room - 1] = CUT;
  const marked = Math.max(1, Math.min(length, room - (start - first)));
  return { gutter, text: shown.join(""), from: start - first, mark: "^".repeat(marked) };
}
