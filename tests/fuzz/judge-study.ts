import { Catalogue, ownEntries } from "../../src/catalogue/index.ts";
import { fileEntries, parseStudy } from "../../src/io/study.ts";
import type { Document } from "../../src/report/document/document.ts";
import { claimDocument } from "../../src/report/documents/claim.ts";
import { claimData } from "../../src/report/documents/claim-data.ts";
import { comparisonDocument, estimateDocument } from "../../src/report/documents/comparison.ts";
import { comparisonData } from "../../src/report/documents/comparison-data.ts";
import { explanationDocument } from "../../src/report/documents/explanation.ts";
import { organiseDocument } from "../../src/report/documents/organise.ts";
import { organiseData } from "../../src/report/documents/organise-data.ts";
import { reportFiles } from "../../src/report/documents/report/files.ts";
import { furtherBlocks } from "../../src/report/documents/report/further.ts";
import { standbyDocument } from "../../src/report/documents/standby.ts";
import { uncertaintyDocument } from "../../src/report/documents/uncertainty.ts";
import { uncertaintyData } from "../../src/report/documents/uncertainty-data.ts";
import { renderCsv } from "../../src/report/renderers/csv.ts";
import { renderHtml } from "../../src/report/renderers/html/html.ts";
import { renderJson } from "../../src/report/renderers/json.ts";
import { renderLatex } from "../../src/report/renderers/latex/latex.ts";
import { renderMarkdown } from "../../src/report/renderers/markdown.ts";
import { renderText } from "../../src/report/renderers/text/text.ts";
import type { Study } from "../../src/schema/study.ts";
import { type TestedStudy, testClaims } from "../../src/studies/claim/claims.ts";
import { estimateStudy, type StudyEstimate } from "../../src/studies/estimate.ts";
import { estimateData } from "../../src/studies/estimate-data.ts";
import { explainQuantity, studySources } from "../../src/studies/explain.ts";
import { planOrganise } from "../../src/studies/organise/space.ts";
import { type Organised, organiseStudy } from "../../src/studies/organise/study.ts";
import { standbyOfStudy } from "../../src/studies/standby/study.ts";
import { sweepRows } from "../../src/studies/sweep/chunk.ts";
import type { Reopen } from "../../src/studies/sweep/families.ts";
import { planSweep } from "../../src/studies/sweep/plan.ts";
import { uncertaintyOfStudy } from "../../src/studies/uncertainty/study.ts";
import { LOADER, parse } from "./catalogue.ts";
import { FILE, numbersOf, wordsOf } from "./complaints.ts";
import type { Ran } from "./judge.ts";
import { numberOf } from "./pick.ts";

const PROVENANCE = { sha256: "0".repeat(64), version: "0.0.0" };

/** Sizes above which a case is a long computation and no hang. */
const MOST_SWEPT = 3;
const MOST_ORGANISED = 200;
const MOST_DRAWS = 1000;
/** Long computations that one study in so many makes: the report, what carries uncertainty, claims. */
const REPORTED = 16;
const PROPAGATED = 6;
const CLAIMED = 2;
const SEARCHED = 2 * PROPAGATED;

const RENDERERS = [renderText, renderMarkdown, renderCsv, renderHtml, renderLatex];

/** What a study came to: data and documents to be looked through. */
interface Results {
  readonly data: [string, unknown][];
  readonly documents: Document[];
  readonly files: string[];
}

interface Opened {
  readonly text: string;
  readonly study: Study;
  readonly catalogue: Catalogue;
  readonly reopen: Reopen;
  readonly estimate: StudyEstimate;
  /** From the text, for what is tried of it. */
  readonly pick: number;
}

/** Runs a study through its estimate, what it asks for besides, and all outputs. */
export async function runStudy(text: string): Promise<Ran> {
  const named = { file: FILE, text };
  const read = parseStudy(named);
  const entries = await fileEntries(read, FILE);
  const reopen: Reopen = (settings) => {
    const study = parseStudy(named, settings);
    const own = [...ownEntries(study.catalogue), ...entries];
    return { study, catalogue: new Catalogue(LOADER, own) };
  };
  const catalogue = new Catalogue(LOADER, [...ownEntries(read.catalogue), ...entries]);
  const study = { ...read, samples: Math.min(read.samples, 64) };
  const estimate = estimateStudy(study, catalogue, parse);
  const opened: Opened = { text, study, catalogue, reopen, estimate, pick: numberOf(text) };
  const results: Results = {
    data: [
      ["estimate", estimateData(estimate, PROVENANCE)],
      ["comparison", comparisonData(estimate, PROVENANCE)],
    ],
    documents: [comparisonDocument(estimate), estimateDocument(estimate)],
    files: [],
  };
  explain(opened, results);
  await sweep(opened, results);
  const organised = organise(opened, results);
  standby(opened, results);
  uncertainty(opened, results);
  const claims = claim(opened, results);
  report(opened, results, organised, claims);
  const works = estimate.designs.some(({ figures }) => figures.size > 0);
  return { works, complaint: complaintOf(results, opened) };
}

/** Of some quantity of some design. */
function explain({ study, catalogue, estimate, pick }: Opened, { data, documents }: Results): void {
  const design = estimate.designs[pick % estimate.designs.length]!;
  const names = [...design.model.program.quantities.keys()];
  const name = names[pick % names.length]!;
  const explanation = explainQuantity(study, catalogue, parse, name, design.name, pick % 5);
  data.push([`explain ${name}`, explanation.derivation.value]);
  documents.push(explanationDocument(explanation));
}

async function sweep({ study, reopen }: Opened, { data }: Results): Promise<void> {
  if (study.sweep === undefined) return;
  let rows = 0;
  for await (const row of sweepRows(planSweep(reopen, parse))) {
    data.push(["sweep", row]);
    if (++rows >= MOST_SWEPT) break;
  }
}

function organise({ study, reopen }: Opened, { data, documents }: Results): Organised | undefined {
  if (study.organise === undefined) return undefined;
  const { variables } = planOrganise(reopen, parse, {});
  const points = variables.reduce(
    (product, { values, texts }) => product * Math.max(values.length, texts.length),
    1,
  );
  if (points > MOST_ORGANISED) return undefined;
  const organised = organiseStudy(reopen, parse);
  data.push(["organise", organiseData(organised, PROVENANCE)]);
  documents.push(organiseDocument(organised));
  return organised;
}

function standby({ study, catalogue }: Opened, { documents }: Results): void {
  if (study.standby === undefined) return;
  documents.push(standbyDocument(standbyOfStudy(study, catalogue, parse)));
}

function uncertainty({ study, catalogue, pick }: Opened, { data, documents }: Results): void {
  const section = study.uncertainty as Readonly<Record<string, unknown>> | undefined;
  if (section === undefined || pick % PROPAGATED !== 0) return;
  const asked = section.quantities as readonly string[] | undefined;
  const names = asked ?? ["macro_area", "read_latency", "write_energy"];
  const most = Math.min(Number(section.most_draws ?? MOST_DRAWS), MOST_DRAWS);
  const few = {
    ...section,
    // What it takes to meet a target is a search over all parameters.
    ...(pick % SEARCHED !== 0 && { targets: [] }),
    quantities: [names[pick % names.length]!],
    most_draws: most,
    digits: 1,
  };
  const small = { ...study, uncertainty: few } as unknown as Study;
  const result = uncertaintyOfStudy(small, catalogue, parse);
  data.push(["uncertainty", uncertaintyData(result, PROVENANCE)]);
  documents.push(uncertaintyDocument(result));
}

/** One claim of several; the table of all functions is a computation of seconds. */
function claim(
  { study, catalogue, pick }: Opened,
  { data, documents }: Results,
): TestedStudy | undefined {
  if (study.claims === undefined || pick % CLAIMED !== 0) return undefined;
  const some = Object.entries(study.claims).filter(([, one]) => {
    const asked = one as { readonly function?: unknown };
    return asked.function !== "all";
  });
  const chosen = some.length === 0 ? [] : [some[pick % some.length]!];
  if (chosen.length === 0) return undefined;
  const claims = Object.fromEntries(chosen) as NonNullable<Study["claims"]>;
  const tested = testClaims({ ...study, claims }, catalogue, parse);
  data.push(["claims", claimData(tested, PROVENANCE)]);
  documents.push(claimDocument(tested, { ledger: pick % (2 * CLAIMED) === 0 }));
  return tested;
}

/** Everything that `tenfold report` writes, in one study of several. */
function report(
  { study, catalogue, estimate, pick }: Opened,
  { files }: Results,
  organised: Organised | undefined,
  claims: TestedStudy | undefined,
): void {
  if (pick % REPORTED !== 0) return;
  const written = reportFiles({
    estimate,
    further: furtherBlocks(estimate, {
      ...(organised && { organised }),
      ...(claims && { claims }),
    }),
    provenance: PROVENANCE,
    references: studySources(study, catalogue, parse),
    command: "tenfold report fuzz.yaml",
  });
  files.push(...written.values());
}

/** Each document is rendered in one of the formats; the report in all of them. */
function complaintOf({ data, documents, files }: Results, { text, pick }: Opened) {
  for (const [what, one] of data) {
    const complaint = numbersOf(one, what);
    if (complaint !== undefined) return complaint;
    JSON.parse(renderJson(one));
  }
  for (const [i, document] of documents.entries()) {
    const render = RENDERERS[(pick + i) % RENDERERS.length]!;
    const complaint = wordsOf(render(document), text);
    if (complaint !== undefined) return `${render.name}: ${complaint}`;
  }
  for (const file of files) {
    const complaint = wordsOf(file, text);
    if (complaint !== undefined) return `report: ${complaint}`;
  }
  return undefined;
}
