import { refuse } from "../errors/problem.ts";
import { parseFormula } from "../formulas/parse.ts";
import { uncertaintyDocument } from "../report/documents/uncertainty.ts";
import { uncertaintyData } from "../report/documents/uncertainty-data.ts";
import { type StudyUncertainty, uncertaintyOfStudy } from "../studies/uncertainty/study.ts";
import type { CommonArguments, OutputArguments, StudyArguments } from "./options.ts";
import { emit } from "./output.ts";
import { Progress } from "./progress.ts";
import { openNamed } from "./study.ts";
import { version } from "./version.ts";

/** Propagates the distributions of a study's parameters and prints what came of it. */
export async function uncertainty(
  options: CommonArguments &
    OutputArguments &
    StudyArguments & {
      readonly quantity?: string | undefined;
      readonly design?: string | undefined;
      readonly chart?: string | undefined;
    },
): Promise<void> {
  const { study, catalogue, sha256 } = await openNamed(options);
  const { quantity, design, chart } = options;
  const progress = new Progress("draws at most", options);
  const result = uncertaintyOfStudy(study, catalogue, parseFormula, {
    quantity,
    design,
    onProgress: (_, draws, most) => progress.tell(draws, most, draws),
  });
  progress.end();
  await emit(
    {
      document: () => uncertaintyDocument(result),
      data: () => uncertaintyData(result, { sha256, version }),
    },
    options,
  );
  if (chart !== undefined) await draw(result, chart, options.force);
}

/** The tornado of the one quantity of one design that was asked for. */
async function draw(result: StudyUncertainty, file: string, force: boolean): Promise<void> {
  const drawn = result.designs.flatMap((one) =>
    one.quantities.map((quantity) => ({ design: one.title, quantity })),
  );
  const [only] = drawn;
  if (only === undefined || drawn.length > 1) {
    refuse({
      code: "usage",
      what: `a chart shows one quantity of one design, and there are ${drawn.length}`,
      fix: "say --design and --quantity",
    });
  }
  const [{ tornadoChart }, { svgFile }, { writeFileWhole }] = await Promise.all([
    import("../report/charts/tornado.ts"),
    import("../report/charts/svg.ts"),
    import("../io/write.ts"),
  ]);
  await writeFileWhole(file, svgFile(tornadoChart(only.design, only.quantity)), { force });
}
