import { extname } from "node:path";
import { nearestWord } from "../errors/nearest.ts";
import { type Problem, refuse, TenfoldError } from "../errors/problem.ts";
import { parseFormula } from "../formulas/parse.ts";
import {
  type EvidenceFolder,
  evidenceIn,
  readCalibrated,
  readHistory,
  shippedCatalogue,
  shippedEvidence,
} from "../io/evidence.ts";
import { evidenceDocument } from "../report/documents/evidence/evidence.ts";
import { evidenceData } from "../report/documents/evidence/evidence-data.ts";
import { type ComparedChip, compareChip } from "../studies/evidence/compare.ts";
import { type Evidence, evidenceOf } from "../studies/evidence/evidence.ts";
import { fitSpreads } from "../studies/evidence/fit.ts";
import { changeSince } from "../studies/evidence/history.ts";
import type { PlannedChip } from "../studies/evidence/plan.ts";
import { endWith } from "./exit.ts";
import { type CommonArguments, FORMATS, type OutputArguments } from "./options.ts";
import { emit } from "./output.ts";
import { version } from "./version.ts";

export interface EvidenceArguments extends CommonArguments, OutputArguments {
  readonly chips?: string | undefined;
  readonly kind?: string | undefined;
  readonly require: boolean;
  readonly chart?: string | undefined;
}

/** Predicts every published chip and prints the ratios. */
export async function evidence(options: EvidenceArguments): Promise<void> {
  const result = await gather(options);
  const svg = holdsPictures(options) ? await chartOf(result) : undefined;
  await emit(
    { document: () => evidenceDocument(result, svg), data: () => evidenceData(result, version) },
    options,
  );
  if (options.chart !== undefined) await draw(result, options.chart, options.force);
  if (options.require && result.verdicts.some(({ holds }) => holds === false)) endWith(1);
}

async function gather({ chips: folder, kind }: EvidenceArguments): Promise<Evidence> {
  const own = folder !== undefined;
  const from = own ? await evidenceIn(folder) : await shippedEvidence();
  const chips = await compareAll(from, chosen(from.plan.chips, kind));
  // Reasons, fits and earlier versions are of all shipped chips.
  const leftOut = kind === undefined ? from.plan.leftOut : {};
  if (own || kind !== undefined) return evidenceOf(chips, leftOut);
  const rows = chips.flatMap(({ figures }) => figures);
  return evidenceOf(chips, leftOut, {
    fits: fitSpreads(readCalibrated(), shippedCatalogue()),
    changes: readHistory().map((snapshot) => changeSince(snapshot, rows)),
  });
}

/** Every chip; the mistakes of all files are said at once. */
async function compareAll(
  { plan, open }: EvidenceFolder,
  chips: readonly PlannedChip[],
): Promise<ComparedChip[]> {
  const compared: ComparedChip[] = [];
  const problems: Problem[] = [];
  for (const one of chips) {
    try {
      compared.push(compareChip(one, await open(one), parseFormula, plan.place));
    } catch (error) {
      if (!(error instanceof TenfoldError)) throw error;
      problems.push(...error.problems);
    }
  }
  if (problems.length > 0) throw new TenfoldError(problems);
  return compared;
}

function chosen(chips: readonly PlannedChip[], kind: string | undefined): readonly PlannedChip[] {
  if (kind === undefined) return chips;
  const of = chips.filter((chip) => chip.kind === kind);
  if (of.length > 0) return of;
  const kinds = [...new Set(chips.map((chip) => chip.kind))];
  const nearest = nearestWord(kind, kinds);
  return refuse({
    code: "unknown-word",
    what: `there is no evidence of the kind ${kind}`,
    got: kind,
    expected: kinds.join(", "),
    ...(nearest === undefined ? {} : { nearest }),
  });
}

/** A page holds the chart itself; other formats have no place for it. */
function holdsPictures({ format, out = "" }: OutputArguments): boolean {
  const ending = extname(out).toLowerCase();
  return format === undefined
    ? (FORMATS.html as readonly string[]).includes(ending)
    : format === "html";
}

async function chartOf(result: Evidence): Promise<string> {
  const { evidenceChart } = await import("../report/charts/evidence.ts");
  return evidenceChart(result);
}

async function draw(result: Evidence, file: string, force: boolean): Promise<void> {
  const [svg, { svgFile }, { writeFileWhole }] = await Promise.all([
    chartOf(result),
    import("../report/charts/svg.ts"),
    import("../io/write.ts"),
  ]);
  await writeFileWhole(file, svgFile(svg), { force });
}
