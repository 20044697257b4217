import { nearestWord } from "../errors/nearest.ts";
import { refuse } from "../errors/problem.ts";
import { readText } from "../io/read.ts";
import { writeFileWhole } from "../io/write.ts";
import { type VoltageMap, voltageMapSvg, voltageMapText } from "../report/crossbar-map.ts";
import { solveDocument } from "../report/documents/solve.ts";
import { voltageErrors } from "../studies/solve/answer.ts";
import { type Answer, answerData, type SolvedFile, solveFile } from "../studies/solve/file.ts";
import type { SolveArguments } from "./commands/solve.ts";
import { endWith } from "./exit.ts";
import { emit, warn } from "./output.ts";

function mapOf(answer: Answer): VoltageMap | undefined {
  if ("error" in answer) return undefined;
  const { problem, selected, bias } = answer.case;
  const { rows, columns } = problem;
  const title = answer.case.title ?? answer.id;
  if (bias === "dot-product") {
    const voltages = voltageErrors(answer.case, answer.solution);
    return { rows, columns, voltages, title, legend: "V of error across a junction" };
  }
  return { rows, columns, voltages: answer.solution.junctionVoltages, title, selected };
}

/** The case to draw: the only one, or the one that is asked for. */
function picked(solved: SolvedFile, id: string | undefined): Answer | undefined {
  if (id === undefined) return solved.many ? undefined : solved.answers[0];
  const found = solved.answers.find((answer) => answer.id === id);
  if (found !== undefined) return found;
  const nearest = nearestWord(
    id,
    solved.answers.map((answer) => answer.id),
  );
  return refuse({
    code: "unknown-word",
    what: "no case of the file has this id",
    got: id,
    ...(nearest === undefined ? {} : { nearest }),
  });
}

/** Solves the cases of a file and prints them; in a file of many a refused one sets the exit code only. */
export async function solveAndPrint(options: SolveArguments): Promise<void> {
  const { text, file } = await readText(options.case);
  const solved = solveFile(text, file);
  const chosen = picked(solved, options.pick);
  const errors = solved.answers.flatMap((answer) => ("error" in answer ? [answer.error] : []));
  if (errors.length > 0) endWith(errors.some((e) => e.exitCode === 3) ? 3 : 2);
  await emit({ document: () => solveDocument(solved), data: () => answerData(solved) }, options);
  const map = chosen === undefined ? undefined : mapOf(chosen);
  if (options.map !== undefined) {
    if (map === undefined) warn("--map draws one solved case: name it with --pick ID", options);
    else await writeFileWhole(options.map, voltageMapSvg(map), { force: options.force });
  }
  const toTerminal = options.out === undefined && (options.format ?? "table") === "table";
  if (toTerminal && map !== undefined && map.rows * map.columns > 1) {
    process.stdout.write(`\n${voltageMapText(map)}`);
  }
}
