/**
 * Parser events of one document, and what the parser's complaints mean in the words of this
 * project.
 */

import { EVENT_ID, type Event, parseEvents, YAMLException } from "js-yaml";
import { type Problem, refuse } from "../../errors/problem.ts";
import type { Source } from "./source.ts";

const DEEPEST = 100;

/** @throws TenfoldError `yaml-syntax`, `yaml-tab`, `yaml-depth`, `yaml-documents`, `file-empty` */
export function parse(source: Source): readonly Event[] {
  const events = eventsOf(source);
  if (
    !events.some((event) => "start" in event || ("valueStart" in event && event.valueStart >= 0))
  ) {
    refuse({
      code: "file-empty",
      what: "the file holds nothing but blanks and comments",
      place: source.place(0),
      expected: "a study: `title`, `designs` and so on",
      fix: "`tenfold new` writes a study to start from",
    });
  }
  const documents = events.filter((event) => event.type === EVENT_ID.DOCUMENT);
  if (documents.length > 1) refuseSecond(source, events);
  return events;
}

function eventsOf(source: Source): readonly Event[] {
  try {
    return parseEvents(source.text, { maxDepth: DEEPEST });
  } catch (error) {
    if (!(error instanceof YAMLException)) throw error;
    return refuse(problemOf(error, source));
  }
}

function problemOf(error: YAMLException, source: Source): Problem {
  const position = Math.min(error.mark?.position ?? 0, source.text.length);
  const place = source.place(position);
  const tab = tabBefore(source, position);
  if (tab !== undefined) {
    return {
      code: "yaml-tab",
      what: "a tab stands at the beginning of this line",
      place: source.place(tab),
      expected: "spaces",
      fix: "replace each tab by two spaces",
    };
  }
  if (error.reason.includes("maxDepth")) {
    return {
      code: "yaml-depth",
      what: `the value is nested deeper than ${DEEPEST} levels`,
      place,
      expected: "a study nests about six levels",
    };
  }
  const known = MEANINGS.find(([reason]) => error.reason.includes(reason));
  const what = known?.[1] ?? `this isn't valid YAML: ${error.reason}`;
  return { code: "yaml-syntax", what, place, ...(known?.[2] ? { fix: known[2] } : {}) };
}

/**
 * A tab in the indentation of the line of the mistake, or of the one before it, where it often
 * began.
 */
function tabBefore(source: Source, position: number): number | undefined {
  const start = source.lineStart(position);
  for (const line of [start, source.lineStart(Math.max(0, start - 1))]) {
    const blanks = /^[ \t]*/.exec(source.text.slice(line, line + 1000))![0];
    if (blanks.includes("\t")) return line + blanks.indexOf("\t");
  }
  return undefined;
}

function refuseSecond(source: Source, events: readonly Event[]): never {
  const second = events.findLastIndex((event) => event.type === EVENT_ID.DOCUMENT);
  const first = events[second + 1];
  const at = first !== undefined && "start" in first ? first.start : source.text.lastIndexOf("---");
  return refuse({
    code: "yaml-documents",
    what: "a second document begins here",
    place: source.place(Math.max(0, at)),
    expected: "one document in a file",
    fix: "put it into a file of its own, or remove the line `---`",
  });
}

/** Complaints of the parser that need other words. */
const MEANINGS: readonly (readonly [reason: string, what: string, fix?: string])[] = [
  [
    "bad indentation of a mapping entry",
    "this line is indented wrongly, or its text holds `: ` without quotes",
    "indent it like the keys above, or put the text in quotes",
  ],
  [
    "deficient indentation",
    "a list or mapping in brackets isn't closed, or its lines aren't indented",
    "close the bracket, and indent each of its lines",
  ],
  ["unexpected end of the stream within a single quoted", "a quote `'` isn't closed"],
  ["unexpected end of the stream within a double quoted", "a quote `\"` isn't closed"],
  ["unexpected end of the stream within a flow", "a bracket isn't closed"],
  [
    "end of the stream or a document separator is expected",
    "the text goes on here, but the value before it is complete",
    "check the indentation and the colon after each key",
  ],
  [
    "can not read a block mapping entry",
    "a key without a colon",
    "write `key: value` with a space after the colon",
  ],
  [
    "can not read an implicit mapping entry",
    "a key without a colon, or one that goes over several lines",
    "write `key: value` with a space after the colon",
  ],
  ["non-printable characters", "the text holds characters that can't be printed"],
];
