import { readText } from "../io/read.ts";
import { writeFileWhole } from "../io/write.ts";
import { type VoltageMap, voltageMapSvg, voltageMapText } from "../report/crossbar-map.ts";
import { solveDocument } from "../report/documents/solve.ts";
import { type Answer, answerData, solveFile } from "../studies/solve/file.ts";
import type { SolveArguments } from "./commands/solve.ts";
import { endWith } from "./exit.ts";
import { emit, warn } from "./output.ts";

function mapOf(answer: Answer): VoltageMap | undefined {
  if ("error" in answer) return undefined;
  const { problem, title, selected } = answer.case;
  const { rows, columns } = problem;
  const voltages = answer.solution.junctionVoltages;
  return { rows, columns, voltages, title: title ?? answer.id, selected };
}

/** Solves the cases of a file and prints them; in a file of many a refused one sets the exit code only. */
export async function solveAndPrint(options: SolveArguments): Promise<void> {
  const { text, file } = await readText(options.case);
  const solved = solveFile(text, file);
  const errors = solved.answers.flatMap((answer) => ("error" in answer ? [answer.error] : []));
  if (errors.length > 0) endWith(errors.some((e) => e.exitCode === 3) ? 3 : 2);
  await emit({ document: () => solveDocument(solved), data: () => answerData(solved) }, options);
  const map = solved.many ? undefined : mapOf(solved.answers[0]!);
  if (options.map !== undefined) {
    if (map === undefined) warn("--map draws a file of a single case", options);
    else await writeFileWhole(options.map, voltageMapSvg(map), { force: options.force });
  }
  const toTerminal = options.out === undefined && (options.format ?? "table") === "table";
  if (toTerminal && map !== undefined && map.rows * map.columns > 1) {
    process.stdout.write(`\n${voltageMapText(map)}`);
  }
}
