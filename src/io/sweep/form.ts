import { extname } from "node:path";
import { nearestWord } from "../../errors/nearest.ts";
import { refuse } from "../../errors/problem.ts";
import { csvField } from "../../report/renderers/csv.ts";
import { spellActing, spelled } from "../../report/renderers/json.ts";
import type { SweepColumn, SweepPlan } from "../../studies/sweep/plan.ts";

/** Forms of a sweep's output, by the ending of its name. */
export const FORMS = { ".csv": "csv", ".jsonl": "jsonl", ".parquet": "parquet" } as const;
export type Form = (typeof FORMS)[keyof typeof FORMS];

/** Which part of a sweep a file holds: the `index`th of `of` parts, from 1. */
export interface Shard {
  readonly index: number;
  readonly of: number;
}

/** What a sweep's output says of where it comes from; the same inputs give the same bytes. */
export interface SweepHead {
  readonly format: "tenfold.sweep/1";
  readonly title: string;
  readonly sha256: string;
  readonly version: string;
  readonly seed: number;
  /** Values in place of those of the file, as `path=value`. */
  readonly set: readonly string[];
  readonly points: number;
  readonly columns: readonly SweepColumn[];
  readonly shard?: Shard;
}

/** @throws TenfoldError `unknown-word` for an ending that is no form */
export function formOf(path: string): Form {
  const ending = extname(path).toLowerCase();
  if (Object.hasOwn(FORMS, ending)) return FORMS[ending as keyof typeof FORMS];
  const known = Object.keys(FORMS);
  const nearest = nearestWord(ending, known);
  return refuse({
    code: "unknown-word",
    what: `the ending of ${path} says nothing about its format`,
    expected: known.join(", "),
    ...(nearest === undefined ? {} : { nearest }),
  });
}

export function headOf(
  plan: SweepPlan,
  origin: Pick<SweepHead, "sha256" | "version" | "set">,
  shard: Shard | undefined,
): SweepHead {
  const { study, total, columns } = plan;
  return {
    format: "tenfold.sweep/1",
    title: study.title,
    ...origin,
    seed: study.seed,
    points: total,
    columns,
    ...(shard !== undefined && { shard }),
  };
}

const HEAD_MARK = "# tenfold ";

/**
 * The first lines of a file. CSV has no place for them, so that they stand in lines that begin with
 * `#`, which notebooks and databases can be told to skip.
 */
export function headText(head: SweepHead, form: Form): string {
  if (form !== "csv") return `${headJson(head)}\n`;
  const names = head.columns.map(({ name }) => csvField(name)).join(",");
  return `${HEAD_MARK}${headJson(head).replace(OPENS_FORMULA, spelled)}\r\n${names}\r\n`;
}

/** The head as one line of JSON in which nothing acts. */
export function headJson(head: Omit<SweepHead, "shard">): string {
  return spellActing(JSON.stringify(head));
}

/** A spreadsheet that reads the line of the head as cells takes what follows for a formula. */
const OPENS_FORMULA = /[,;](?=\s*[=+\-@\uff1d\uff0b\uff0d\uff20])/g;

/** How many lines the head takes. */
export function headLines(form: Form): number {
  return form === "csv" ? 2 : 1;
}

/** Reads the first line back; undefined where it is none of ours. */
export function parseHead(line: string): SweepHead | undefined {
  const text = line.startsWith(HEAD_MARK) ? line.slice(HEAD_MARK.length) : line;
  try {
    const head = JSON.parse(text) as SweepHead;
    return head.format === "tenfold.sweep/1" ? head : undefined;
  } catch {
    return undefined;
  }
}
