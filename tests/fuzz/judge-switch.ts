import type { Resolved } from "../../src/catalogue/index.ts";
import { readSwitch } from "../../src/io/switch.ts";
import { DIRECT } from "../../src/models/switch/geometry.ts";
import type { Document } from "../../src/report/document/document.ts";
import { switchData, switchDocument } from "../../src/report/documents/switch.ts";
import { fitData, fitDocument } from "../../src/report/documents/switch-fit.ts";
import { levelsData, levelsDocument } from "../../src/report/documents/switch-levels.ts";
import { renderCsv } from "../../src/report/renderers/csv.ts";
import { renderMarkdown } from "../../src/report/renderers/markdown.ts";
import { renderText } from "../../src/report/renderers/text/text.ts";
import { fitMeasured } from "../../src/studies/switch/fit.ts";
import { studyLevels } from "../../src/studies/switch/levels.ts";
import { geometryOf, levelsSwitchOf, studySwitch } from "../../src/studies/switch/switch.ts";
import { LOADER } from "./catalogue.ts";
import { FILE, numbersOf, wordsOf } from "./complaints.ts";
import type { Ran } from "./judge.ts";
import { numberOf } from "./pick.ts";

const TEMPERATURE = 298.15;

/** A file of a switch as `tenfold switch` takes it: its tables, and in turn a loop of pulses, levels or a fit. */
export async function runSwitch(text: string): Promise<Ran> {
  const { resolved, placed } = readSwitch(text, FILE, LOADER);
  return placed(() => ranSwitch(text, resolved));
}

function ranSwitch(text: string, resolved: Resolved): Ran {
  const pick = numberOf(text);
  const drive = { form: (["triangle", "sine", "pulse"] as const)[pick % 3]! };
  const study = studySwitch(resolved, { temperature: TEMPERATURE, temperatures: [358.15], drive });
  const results: [string, unknown, Document][] = [
    ["switch", switchData(study), switchDocument(study)],
  ];
  if (pick % 8 === 1) {
    const levels = studyLevels(levelsSwitchOf(resolved, TEMPERATURE), {
      levels: 2 + (pick % 3),
      writes: 4,
      mostPulses: 20,
      seed: 1,
      circuit: DIRECT,
    });
    results.push(["levels", levelsData(levels), levelsDocument(levels)]);
  }
  if (pick % 16 === 2) {
    const geometry = geometryOf(resolved, TEMPERATURE);
    const points = study.times
      .slice(-5)
      .flatMap(({ voltage, set }) => (Number.isFinite(set) ? [{ voltage, time: 1.1 * set }] : []));
    const fitted = fitMeasured({ kind: "times", points }, { geometry, circuit: DIRECT });
    results.push(["fit", fitData(fitted), fitDocument(fitted)]);
  }
  let complaint: string | undefined;
  for (const [what, data, document] of results) {
    complaint ??= numbersOf(data, what);
    for (const render of [renderText, renderMarkdown, renderCsv]) {
      complaint ??= wordsOf(render(document), text);
    }
  }
  return { works: true, complaint };
}
