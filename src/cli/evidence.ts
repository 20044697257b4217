import { nearestWord } from "../errors/nearest.ts";
import { refuse } from "../errors/problem.ts";
import { parseFormula } from "../formulas/parse.ts";
import { openEvidenceStudy, readEvidencePlan } from "../io/evidence.ts";
import { evidenceDocument } from "../report/documents/evidence.ts";
import { evidenceData } from "../report/documents/evidence-data.ts";
import { compareChip } from "../studies/evidence/compare.ts";
import { type Evidence, evidenceOf } from "../studies/evidence/evidence.ts";
import type { PlannedChip } from "../studies/evidence/plan.ts";
import { endWith } from "./exit.ts";
import type { CommonArguments, OutputArguments } from "./options.ts";
import { emit } from "./output.ts";
import { version } from "./version.ts";

export interface EvidenceArguments extends CommonArguments, OutputArguments {
  readonly kind?: string | undefined;
  readonly require: boolean;
  readonly chart?: string | undefined;
}

/** Predicts every published chip and prints the ratios. */
export async function evidence(options: EvidenceArguments): Promise<void> {
  const result = await gather(options.kind);
  await emit(
    { document: () => evidenceDocument(result), data: () => evidenceData(result, version) },
    options,
  );
  if (options.chart !== undefined) await draw(result, options.chart, options.force);
  if (options.require && result.verdicts.some(({ holds }) => holds === false)) endWith(1);
}

async function gather(kind: string | undefined): Promise<Evidence> {
  const plan = readEvidencePlan();
  const chips = [];
  for (const one of chosen(plan.chips, kind)) {
    const { study, catalogue } = await openEvidenceStudy(one.name);
    chips.push(compareChip(one, study, catalogue, parseFormula));
  }
  return evidenceOf(chips, kind === undefined ? plan : { ...plan, leftOut: {} });
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

async function draw(result: Evidence, file: string, force: boolean): Promise<void> {
  const [{ evidenceChart }, { svgFile }, { writeFileWhole }] = await Promise.all([
    import("../report/charts/evidence.ts"),
    import("../report/charts/svg.ts"),
    import("../io/write.ts"),
  ]);
  await writeFileWhole(file, svgFile(evidenceChart(result)), { force });
}
