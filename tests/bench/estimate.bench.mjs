// The estimate within a program: one design at its nominal parameters, and with all its draws.
import { fileURLToPath } from "node:url";
import { compareDesigns, estimateStudy, openStudy, parseFormula } from "../../dist/node.js";

export const name = "estimate";

const STUDY = fileURLToPath(new URL("../../configs/tarn-working-memory.yaml", import.meta.url));

function median(work, rounds) {
  const times = Array.from({ length: rounds }, () => {
    const from = performance.now();
    work();
    return performance.now() - from;
  });
  return times.sort((a, b) => a - b)[Math.floor(rounds / 2)];
}

export async function run(report) {
  const { study, catalogue } = await openStudy(STUDY);
  const first = performance.now();
  const { designs } = estimateStudy(study, catalogue, parseFormula);
  report("first estimate of the demo, all draws", performance.now() - first, "ms");
  for (const { model, name: design, figures } of designs) {
    const nominal = median(() => model.nominal(), 201);
    report(`${design}: nominal`, nominal, "ms", "below 1");
    report(`${design}: nominal estimates`, 1000 / nominal, "/s");
    // A design that does not work is not sampled.
    if (figures.size === 0) continue;
    const alone = { ...study, designs: { [design]: study.designs[design] }, baseline: design };
    const sampled = median(() => estimateStudy(alone, catalogue, parseFormula), 21);
    report(`${design}: sampled estimates, with drawing`, (1000 * study.samples) / sampled, "/s");
  }
  const again = median(() => compareDesigns(estimateStudy(study, catalogue, parseFormula)), 5);
  report("comparison of the demo, warm", again, "ms");
}
