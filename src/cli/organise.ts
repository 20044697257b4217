import { refuse } from "../errors/problem.ts";
import { parseFormula } from "../formulas/parse.ts";
import { readText } from "../io/read.ts";
import { hashOf, reopener, sweepSource } from "../io/sweep/open.ts";
import { organiseDocument } from "../report/documents/organise.ts";
import { organiseData } from "../report/documents/organise-data.ts";
import { type Organised, organiseStudy } from "../studies/organise/study.ts";
import type { CommonArguments, OutputArguments, StudyArguments } from "./options.ts";
import { emit } from "./output.ts";
import { Progress } from "./progress.ts";
import { settings } from "./settings.ts";
import { fileName } from "./stdin.ts";
import { checkSeed } from "./study.ts";
import { version } from "./version.ts";

/** Searches the organisations of a design and prints what it found. */
export async function organise(
  options: CommonArguments &
    OutputArguments &
    StudyArguments & {
      readonly design?: string | undefined;
      readonly everything: boolean;
      readonly chart?: string | undefined;
    },
): Promise<void> {
  const { set, seed, design, everything, chart } = options;
  checkSeed(seed);
  const path = fileName(options.file);
  const source = await sweepSource(await readText(path), path, settings(set), seed);
  const progress = new Progress("organisations", options);
  const result = organiseStudy(reopener(source), parseFormula, {
    design,
    everything,
    onProgress: (done, total) => progress.tell(done, total, done),
  });
  progress.end();
  await emit(
    {
      document: () => organiseDocument(result),
      data: () => organiseData(result, { sha256: hashOf(source), version }),
    },
    options,
  );
  if (chart !== undefined) await draw(result, chart, options.force);
}

async function draw(result: Organised, file: string, force: boolean): Promise<void> {
  if (result.plan.aims.length < 2 || result.found.length === 0) {
    const what = result.found.length === 0 ? "nothing was found" : "the search has one aim";
    refuse({
      code: "missing-key",
      what: `there is no front to draw: ${what}`,
      fix: "give `minimise` and `maximise` two aims together, or leave --chart out",
    });
  }
  const [{ frontChart }, { svgFile }, { writeFileWhole }] = await Promise.all([
    import("../report/charts/front.ts"),
    import("../report/charts/svg.ts"),
    import("../io/write.ts"),
  ]);
  await writeFileWhole(file, svgFile(frontChart(result)), { force });
}
