import { voltageMapSvg, voltageMapText } from "../../src/report/crossbar-map.ts";
import { solveDocument } from "../../src/report/documents/solve.ts";
import { renderJson } from "../../src/report/renderers/json.ts";
import { renderText } from "../../src/report/renderers/text/text.ts";
import { answerData, solveFile } from "../../src/studies/solve/file.ts";
import { FILE, numbersOf, rejection, wordsOf } from "./complaints.ts";
import { isUnsolved, type Ran } from "./judge.ts";

/** Solves a file of crossbars as `tenfold solve` does, with its table and its maps. */
export async function runCrossbar(text: string): Promise<Ran> {
  const solved = solveFile(text, FILE);
  const data = answerData(solved);
  const written = [renderText(solveDocument(solved)), renderJson(data)];
  let works = false;
  let complaint = numbersOf(data, "solve");
  for (const answer of solved.answers) {
    if ("error" in answer) {
      if (!isUnsolved("crossbar", answer.error)) complaint ??= rejection(answer.error, text);
      continue;
    }
    works = true;
    const { problem, selected } = answer.case;
    const { rows, columns } = problem;
    const map = { rows, columns, title: answer.id, selected };
    const voltages = answer.solution.junctionVoltages;
    written.push(voltageMapText({ ...map, voltages }), voltageMapSvg({ ...map, voltages }));
  }
  for (const output of written) complaint ??= wordsOf(output, text);
  return { works, complaint };
}
