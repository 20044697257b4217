import { TenfoldError } from "../../src/errors/problem.ts";
import { problemsText } from "../../src/errors/wording.ts";
import { parseFormula } from "../../src/formulas/parse.ts";
import { openText } from "../../src/io/study.ts";
import { reopener } from "../../src/io/sweep/open.ts";
import { claimDocument } from "../../src/report/documents/claim.ts";
import { claimData } from "../../src/report/documents/claim-data.ts";
import { comparisonDocument, estimateDocument } from "../../src/report/documents/comparison.ts";
import { comparisonData } from "../../src/report/documents/comparison-data.ts";
import { standbyDocument } from "../../src/report/documents/standby.ts";
import { renderCsv } from "../../src/report/renderers/csv.ts";
import { renderHtml } from "../../src/report/renderers/html/html.ts";
import { renderJson } from "../../src/report/renderers/json.ts";
import { renderLatex } from "../../src/report/renderers/latex/latex.ts";
import { renderMarkdown } from "../../src/report/renderers/markdown.ts";
import { renderText } from "../../src/report/renderers/text/text.ts";
import type { Study } from "../../src/schema/study.ts";
import { testClaims } from "../../src/studies/claim/claims.ts";
import { estimateStudy } from "../../src/studies/estimate.ts";
import { estimateData } from "../../src/studies/estimate-data.ts";
import { planOrganise } from "../../src/studies/organise/space.ts";
import { organiseStudy } from "../../src/studies/organise/study.ts";
import { standbyOfStudy } from "../../src/studies/standby/study.ts";
import { sweepRows } from "../../src/studies/sweep/chunk.ts";
import { planSweep } from "../../src/studies/sweep/plan.ts";

/** What became of one text. */
export interface Verdict {
  /** `figures`, `refused`, or what is wrong. */
  readonly outcome: "figures" | "refused" | "finding";
  readonly why?: string;
  /** Codes of what was refused. */
  readonly codes?: readonly string[];
}

const PROVENANCE = { sha256: "0".repeat(64), version: "0.0.0" };
const FILE = "fuzz.yaml";

/** Sizes above which a case is a long computation and no hang. */
const MOST_SWEPT = 3;
const MOST_ORGANISED = 200;

/**
 * Runs one text through reading, every kind of study that it asks for, and every output.
 *
 * A rejection must be placed in the text and end with 2; figures must be finite, and no area, energy, time, power or
 * count may be negative.
 */
export async function judge(text: string): Promise<Verdict> {
  try {
    const complaint = await run(text);
    return complaint === undefined
      ? { outcome: "figures" }
      : { outcome: "finding", why: complaint };
  } catch (error) {
    if (!(error instanceof TenfoldError)) {
      const told = error instanceof Error ? (error.stack ?? error.message) : String(error);
      return { outcome: "finding", why: `crash: ${told}` };
    }
    const complaint = rejection(error, text);
    return complaint === undefined
      ? { outcome: "refused", codes: error.problems.map(({ code, what }) => `${code}: ${what}`) }
      : { outcome: "finding", why: complaint };
  }
}

async function run(text: string): Promise<string | undefined> {
  const named = { file: FILE, text };
  const { study, catalogue } = await openText(named, FILE);
  const small = { ...study, samples: Math.min(study.samples, 64) };
  const estimate = estimateStudy(small, catalogue, parseFormula);
  const comparison = comparisonData(estimate, PROVENANCE);
  const all: [string, unknown][] = [
    ["estimate", estimateData(estimate, PROVENANCE)],
    ["comparison", comparison],
  ];
  const documents = [comparisonDocument(estimate), estimateDocument(estimate)];
  const reopen = reopener({ named, set: [], entries: [] });
  if (study.sweep !== undefined) {
    let rows = 0;
    for await (const row of sweepRows(planSweep(reopen, parseFormula))) {
      all.push(["sweep", row]);
      if (++rows >= MOST_SWEPT) break;
    }
  }
  if (study.organise !== undefined) {
    const { variables } = planOrganise(reopen, parseFormula, {});
    const points = variables.reduce(
      (product, { values, texts }) => product * Math.max(values.length, texts.length),
      1,
    );
    if (points <= MOST_ORGANISED) {
      const { found } = organiseStudy(reopen, parseFormula);
      all.push(["organise", found.map(({ aims, figures }) => [...aims, ...figures.values()])]);
    }
  }
  if (study.standby !== undefined) {
    documents.push(standbyDocument(standbyOfStudy(small, catalogue, parseFormula)));
  }
  if (study.claims !== undefined) {
    const tested = testClaims({ ...small, claims: firstOf(study.claims) }, catalogue, parseFormula);
    all.push(["claims", claimData(tested, PROVENANCE)]);
    documents.push(claimDocument(tested, { ledger: false }));
  }
  for (const [what, data] of all) {
    const complaint = numbersOf(data, what);
    if (complaint !== undefined) return complaint;
    JSON.parse(renderJson(data));
  }
  for (const document of documents) {
    for (const render of [renderText, renderMarkdown, renderCsv, renderHtml, renderLatex]) {
      const complaint = wordsOf(render(document), text);
      if (complaint !== undefined) return `${render.name}: ${complaint}`;
    }
  }
  return undefined;
}

/** One claim of several; the table of all functions is a computation of seconds. */
function firstOf(claims: NonNullable<Study["claims"]>): NonNullable<Study["claims"]> {
  const some = Object.entries(claims).filter(([, claim]) => {
    const asked = claim as { readonly function?: unknown };
    return asked.function !== "all";
  });
  return Object.fromEntries(some.slice(0, 1)) as NonNullable<Study["claims"]>;
}

/** Names of quantities that cannot be below zero. */
const NOT_NEGATIVE =
  /(?:area|energy|latency|time|power|width|height|length|transistors|switches|efficiency|years|rate)$/;
/** Differences and savings have a sign. */
const SIGNED = /saved|difference|ratio|change|delta|margin|gain/;

/** Walks data for numbers that no result may hold. */
function numbersOf(data: unknown, path: string, named = ""): string | undefined {
  if (typeof data === "number") {
    if (!Number.isFinite(data)) return `${path} is ${data}`;
    const unsigned = NOT_NEGATIVE.test(named) && !SIGNED.test(path);
    return unsigned && data < 0 ? `${path} (${named}) is ${data}` : undefined;
  }
  if (data instanceof Map) return numbersOf(Object.fromEntries(data), path, named);
  if (typeof data !== "object" || data === null) return undefined;
  const holder = data as Record<string, unknown>;
  const own = typeof holder.name === "string" ? holder.name : named;
  for (const [key, value] of Object.entries(holder)) {
    const next = NOT_NEGATIVE.test(key) ? key : own;
    const complaint = numbersOf(value, `${path}/${key}`, next);
    if (complaint !== undefined) return complaint;
  }
  return undefined;
}

/** Words that only a fault of the program writes, unless the study itself holds them. */
const FAULTS = /\bNaN\b|\bInfinity\b|∞|\bundefined\b|\[object /;

function wordsOf(output: string, text: string): string | undefined {
  const found = FAULTS.exec(output);
  if (found === null || FAULTS.test(text)) return undefined;
  return `writes ${JSON.stringify(output.slice(Math.max(0, found.index - 60), found.index + 40))}`;
}

function rejection({ problems, exitCode }: TenfoldError, text: string): string | undefined {
  if (exitCode !== 2) return `ends with ${exitCode}: ${problemsText(problems)}`;
  if (problems.length === 0) return "is refused without a reason";
  const lines = text.split(/\r\n|\r|\n/);
  for (const { code, what, place } of problems) {
    if (/\bundefined\b|\bNaN\b|\[object /.test(what) && !FAULTS.test(text)) return `says: ${what}`;
    if (code === "too-many-problems" || place?.file !== FILE) {
      if (place === undefined && code !== "too-many-problems") return `no place: ${code}: ${what}`;
      continue;
    }
    const line = lines[place.line - 1];
    if (line === undefined) return `line ${place.line} of ${lines.length}: ${what}`;
    if (place.column < 1 || place.column > line.length + 1) {
      return `column ${place.column} of line ${place.line}, which has ${line.length}: ${what}`;
    }
  }
  return undefined;
}
