/** YAML text as a tree that knows where each key and value stands. */

import { EVENT_ID, type Event, getScalarValue, SCALAR_STYLE, type ScalarEvent } from "js-yaml";
import { type Problem, TenfoldError } from "../../errors/problem.ts";
import { checkText } from "./decode.ts";
import { lostNumber, resolvePlain, type ScalarValue } from "./scalar.ts";
import { Source, type Span } from "./source.ts";
import { parse } from "./syntax.ts";

/** Reading ends here: the file is of another kind, or hostile. */
const MOST_PROBLEMS = 200;

export interface ScalarNode extends Span {
  readonly kind: "scalar";
  readonly value: ScalarValue;
  /** As written, without quotes. */
  readonly text: string;
  /** A problem was already reported: the reader keeps silent. */
  readonly broken: boolean;
}
export interface ListNode extends Span {
  readonly kind: "list";
  readonly items: Node[];
}
export interface MappingNode extends Span {
  readonly kind: "mapping";
  readonly entries: Entry[];
}
export interface Entry {
  readonly key: string;
  readonly keySpan: Span;
  readonly value: Node;
}
export type Node = ScalarNode | ListNode | MappingNode;

/** A document whose top is a mapping, and what is wrong with it as YAML of this project. */
export interface LocatedTree {
  readonly source: Source;
  readonly root: MappingNode;
  readonly problems: readonly Problem[];
}

/**
 * Parses YAML text. Faults that leave the shape readable (a key twice, an alias, a tag, an infinite
 * number) come back in `problems`, so that one run reports them with all others.
 * @throws TenfoldError where no tree can be made: `yaml-syntax`, `yaml-tab`, `yaml-depth`, `yaml-
 *   documents`,
 *   `file-empty`, `file-too-large`, `file-encoding`, `wrong-kind`
 */
export function locatedTree(text: string, file: string): LocatedTree {
  const source = new Source(file, checkText(text, file));
  const builder = new Builder(source);
  const root = builder.build(parse(source));
  if (root.kind !== "mapping") {
    throw new TenfoldError({
      code: "wrong-kind",
      what: `the file holds a ${root.kind === "list" ? "list" : "single value"} and not a mapping`,
      place: source.place(root.start, root.end),
      expected: "keys with values, such as `title: My memory`",
    });
  }
  return { source, root, problems: builder.problems };
}

/** The plain value of a node, safe against keys such as `__proto__`. */
export function plainValue(node: Node): unknown {
  if (node.kind === "scalar") return node.value;
  if (node.kind === "list") return node.items.map(plainValue);
  return Object.fromEntries(node.entries.map((entry) => [entry.key, plainValue(entry.value)]));
}

/** The value under `key`; the first one where it stands twice. */
export function child(node: Node | undefined, key: string): Entry | undefined {
  return node?.kind === "mapping" ? node.entries.find((entry) => entry.key === key) : undefined;
}

class Builder {
  readonly source: Source;
  readonly problems: Problem[] = [];
  private events: readonly Event[] = [];
  private at = 0;

  constructor(source: Source) {
    this.source = source;
  }

  build(events: readonly Event[]): Node {
    this.events = events;
    this.at = 1; // Behind the event that opens the document.
    return this.node({ start: 0, end: 1 });
  }

  /**
   * The node that begins at the current event; an empty one is placed at `near`. The parser bounds
   * the depth.
   */
  private node(near: Span): Node {
    const event = this.events[this.at++]!;
    if (event.type === EVENT_ID.SCALAR) return this.scalar(event, near);
    if (event.type === EVENT_ID.SEQUENCE) {
      this.refuseDecoration(event);
      const items: Node[] = [];
      while (!this.closes()) items.push(this.node({ start: event.start, end: event.start + 1 }));
      return { kind: "list", items, start: event.start, end: event.start + 1 };
    }
    if (event.type === EVENT_ID.MAPPING) {
      this.refuseDecoration(event);
      return { kind: "mapping", entries: this.entries(), start: event.start, end: event.start + 1 };
    }
    const span =
      event.type === EVENT_ID.ALIAS ? { start: event.anchorStart - 1, end: event.anchorEnd } : near;
    this.report("yaml-alias", "aliases such as `*name` aren't used in these files", span, {
      fix: "write the value out, or put it under `defaults:` or `catalogue:` and name it",
    });
    return { kind: "scalar", value: null, text: "", broken: true, ...span };
  }

  private closes(): boolean {
    if (this.events[this.at]!.type !== EVENT_ID.POP) return false;
    this.at++;
    return true;
  }

  private entries(): Entry[] {
    const entries: Entry[] = [];
    const seen = new Map<string, Span>();
    while (!this.closes()) {
      const keyNode = this.node({ start: 0, end: 1 });
      const keySpan = { start: keyNode.start, end: keyNode.end };
      const value = this.node(keySpan);
      if (keyNode.kind !== "scalar") {
        this.report("yaml-key", "a key is a list or a mapping", keySpan, {
          expected: "a plain word",
        });
        continue;
      }
      if (keyNode.broken) continue;
      const key = keyNode.text;
      const first = seen.get(key);
      if (key === "<<") {
        this.report("yaml-alias", "merge keys `<<` aren't used in these files", keySpan, {
          fix: "use `from: name` to start from a catalogue entry, or `defaults:` for all designs",
        });
        continue;
      }
      if (first !== undefined) {
        const { line } = this.source.place(first.start);
        this.report("duplicate-key", `\`${key}\` stands here again, after line ${line}`, keySpan, {
          fix: "keep one of them",
        });
        continue;
      }
      seen.set(key, keySpan);
      entries.push({ key, keySpan, value });
    }
    return entries;
  }

  private scalar(event: ScalarEvent, near: Span): ScalarNode {
    this.refuseDecoration(event);
    const text = event.valueStart < 0 ? "" : getScalarValue(this.source.text, event);
    const quoted =
      event.style === SCALAR_STYLE.SINGLE_QUOTED || event.style === SCALAR_STYLE.DOUBLE_QUOTED;
    const span =
      event.valueStart < 0
        ? near
        : { start: event.valueStart - (quoted ? 1 : 0), end: event.valueEnd + (quoted ? 1 : 0) };
    const value = event.style === SCALAR_STYLE.PLAIN ? resolvePlain(text) : text;
    const lost = typeof value === "number" ? lostNumber(text, value) : undefined;
    if (lost !== undefined) {
      this.report("number-out-of-range", `\`${text}\` ${lost}`, span, {
        expected: "a finite number",
        fix: "put it in quotes if it is meant as text",
      });
    }
    return { kind: "scalar", value, text, broken: lost !== undefined, ...span };
  }

  private refuseDecoration(event: {
    anchorStart: number;
    anchorEnd: number;
    tagStart: number;
    tagEnd: number;
  }): void {
    if (event.anchorStart >= 0) {
      const span = { start: event.anchorStart - 1, end: event.anchorEnd };
      this.report("yaml-alias", "anchors such as `&name` aren't used in these files", span, {
        fix: "remove it; `defaults:` and `catalogue:` share values between designs",
      });
    }
    if (event.tagStart >= 0) {
      const span = { start: event.tagStart, end: event.tagEnd };
      this.report("yaml-tag", "tags such as `!name` aren't used in these files", span, {
        fix: "remove it",
      });
    }
  }

  private report(code: string, what: string, span: Span, more: Partial<Problem>): void {
    // A file made to waste time gets no longer list than anybody reads.
    if (this.problems.length >= MOST_PROBLEMS) throw new TenfoldError(this.problems);
    this.problems.push({ code, what, place: this.source.place(span.start, span.end), ...more });
  }
}
