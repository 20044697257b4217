import { refuse } from "../errors/problem.ts";
import { parseFormula } from "../formulas/parse.ts";
import { claimDocument } from "../report/documents/claim.ts";
import { claimData } from "../report/documents/claim-data.ts";
import { claimExplanation } from "../report/documents/claim-explanation.ts";
import { claimTable } from "../report/documents/claim-table.ts";
import { type TestedStudy, testClaims } from "../studies/claim/claims.ts";
import { endWith } from "./exit.ts";
import type { CommonArguments, OutputArguments, StudyArguments } from "./options.ts";
import { emit } from "./output.ts";
import { openNamed } from "./study.ts";
import { version } from "./version.ts";

/** Tests the claims of a study, prints what came of it, and draws the chart that is asked for. */
export async function claim(
  options: CommonArguments &
    OutputArguments &
    StudyArguments & {
      readonly ledger: boolean;
      readonly require: boolean;
      readonly chart?: string | undefined;
      readonly explain?: string | undefined;
      readonly depth: number;
    },
): Promise<void> {
  const { study, catalogue, sha256 } = await openNamed(options);
  const tested = testClaims(study, catalogue, parseFormula);
  await emit(
    {
      document: () => {
        const { explain, depth } = options;
        if (explain !== undefined) return claimExplanation(tested, explain, depth);
        return asCsv(options) ? claimTable(tested) : claimDocument(tested, options);
      },
      data: () => claimData(tested, { sha256, version }),
    },
    options,
  );
  if (options.chart !== undefined) await draw(tested, options.chart, options.force);
  if (options.require && !allHold(tested)) endWith(1);
}

/** A CSV text holds one table: then it is that of all claims. */
function asCsv({ format, out }: OutputArguments): boolean {
  return format === "csv" || (format === undefined && out?.toLowerCase().endsWith(".csv") === true);
}

/** A claim about all functions holds where it does so in each of them, at every capacity. */
function allHold({ claims, surveys }: TestedStudy): boolean {
  return (
    claims.every(({ overall }) => overall === "holds") &&
    surveys.every(({ rows, question }) =>
      rows.every(({ points }) => points.every(({ share }) => share >= question.holdsWith)),
    )
  );
}

async function draw({ surveys }: TestedStudy, file: string, force: boolean): Promise<void> {
  const [survey] = surveys;
  if (survey === undefined) {
    refuse({
      code: "no-claims",
      what: "there is nothing to draw: no claim of the study is about all functions",
      fix: "add a claim with `function: all`",
    });
  }
  const [{ surveyChart }, { drawLines }, { writeFileWhole }] = await Promise.all([
    import("../report/documents/claim-chart.ts"),
    import("../report/charts/lines.ts"),
    import("../io/write.ts"),
  ]);
  await writeFileWhole(file, drawLines(surveyChart(survey!)), { force });
}
