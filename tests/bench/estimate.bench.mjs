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
  for (const { model, name: design } of designs) {
    report(
      `${design}: nominal`,
      median(() => model.nominal(), 201),
      "ms",
      "below 1",
    );
  }
  const again = median(() => compareDesigns(estimateStudy(study, catalogue, parseFormula)), 5);
  report("comparison of the demo, warm", again, "ms");
}
