/** Collects the problems of one file with their places. */

import { nearestWord } from "../errors/nearest.ts";
import { type Problem, TenfoldError } from "../errors/problem.ts";
import type { Source, Span } from "./yaml/source.ts";
import type { MappingNode, Node } from "./yaml/tree.ts";

/** A file with more mistakes is another kind of file. */
const MOST_PROBLEMS = 100;

/** Here reading ends: the file is hostile. */
const END_OF_READING = 1000;

export class Reading {
  readonly source: Source;
  readonly problems: Problem[];
  readonly origin: Origin;

  constructor(source: Source, problems: readonly Problem[], origin: Origin) {
    this.source = source;
    this.problems = [...problems];
    this.origin = origin;
  }

  report(code: string, what: string, path: string, span: Span, more: Partial<Problem> = {}) {
    if (this.problems.length >= END_OF_READING) this.finish();
    this.problems.push({
      code,
      what,
      path,
      place: (span.source ?? this.source).place(span.start, span.end),
      ...more,
    });
  }

  /** Throws all problems in the order of the file, if there are any. */
  finish(): void {
    if (this.problems.length === 0) return;
    throw new TenfoldError(inFileOrder(this.problems));
  }
}

/** Who says the figures of a file, where they don't say it themselves. */
export interface Origin {
  /** Undefined where each value must name its source. */
  readonly source?: string;
  readonly basis: "user" | "memory" | "read";
  /** Goes before the pointer to make the key under which draws are shared. */
  readonly keyPrefix: string;
}

/** Sorted by place, the same sentence once for one place, cut to a readable number. */
export function inFileOrder(problems: readonly Problem[]): Problem[] {
  const line = (p: Problem): number => p.place?.line ?? 0;
  const column = (p: Problem): number => p.place?.column ?? 0;
  const sorted = [...problems].sort((a, b) => line(a) - line(b) || column(a) - column(b));
  if (sorted.length <= MOST_PROBLEMS) return sorted;
  const left = sorted.length - MOST_PROBLEMS;
  return [
    ...sorted.slice(0, MOST_PROBLEMS),
    { code: "too-many-problems", what: `${left} more problems in this file are not shown` },
  ];
}

/** What a node is, in the words of an error. */
export function kindOf(node: Node): string {
  if (node.kind === "list") return "a list";
  if (node.kind === "mapping") return "a mapping";
  return node.value === null ? "nothing" : `\`${node.text.slice(0, 60)}\``;
}

/** One more step of a JSON pointer (RFC 6901). */
export function below(path: string, key: string | number): string {
  return `${path}/${String(key).replaceAll("~", "~0").replaceAll("/", "~1")}`;
}

/** Where a value stands and what it is called. */
export interface At {
  readonly name: string;
  readonly path: string;
  /** The key that leads here: the mark for what is missing inside. */
  readonly key?: Span;
}

/** Reports each key that isn't in `known`, with the nearest one. */
export function reportUnknownKeys(
  node: MappingNode,
  known: readonly string[],
  at: At,
  reading: Reading,
): void {
  for (const { key, keySpan } of node.entries) {
    if (known.includes(key)) continue;
    const nearest = nearestWord(key, known);
    const where = at.name === "" ? "the file" : at.name;
    reading.report(
      "unknown-key",
      `\`${key.slice(0, 80)}\` isn't a key of ${where}`,
      below(at.path, key),
      keySpan,
      {
        expected: `one of ${known.join(", ")}`,
        ...(nearest === undefined ? {} : { nearest }),
      },
    );
  }
}

/** Reports a value of the wrong kind. */
export function wrongKind(node: Node, expected: string, at: At, reading: Reading): undefined {
  const where = at.name === "" ? "the file" : at.name;
  const what =
    node.kind === "scalar" && node.value === null
      ? `${where} has no value`
      : `${where} can't be ${kindOf(node)}`;
  reading.report("wrong-kind", what, at.path, node, { expected });
  return undefined;
}

/**
 * Letters of any script are fine; the plain ones are tried first, since that is ten times as fast
 * on a cold start.
 */
const PLAIN_NAME = /^[A-Za-z0-9][\w.-]*$/;
const NAME = /^[\p{L}\p{N}][\p{L}\p{N}_.-]*$/u;

/** Names are told apart on command lines and in file names. */
export function checkName(name: string, span: Span, at: At, reading: Reading): boolean {
  const wellFormed = PLAIN_NAME.test(name) || NAME.test(name);
  if (wellFormed && name.length <= 80 && name !== "__proto__") return true;
  reading.report("bad-name", `\`${name.slice(0, 80)}\` can't be a name`, at.path, span, {
    expected: "letters, digits, `-`, `_` and `.`, beginning with a letter or digit",
    fix: `such as \`${
      name
        .replace(/[^\p{L}\p{N}]+/gu, "-")
        .replace(/^-|-$/g, "")
        .slice(0, 40) || "static"
    }\``,
  });
  return false;
}
