// The search for the best organisation against computing every organisation, on the demo.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { organiseStudy, parseFormula, reopener } from "../../dist/node.js";

export const name = "organise";

const STUDY = fileURLToPath(new URL("../../configs/tarn-ranges.yaml", import.meta.url));

export async function run(report) {
  const named = { text: readFileSync(STUDY, "utf8"), file: "tarn-ranges.yaml" };
  const reopen = reopener({ named, set: [], entries: [] });
  const timed = (everything) => {
    const from = performance.now();
    const result = organiseStudy(reopen, parseFormula, { everything });
    return { ...result, seconds: (performance.now() - from) / 1000 };
  };
  const pruned = timed(false);
  const all = timed(true);
  if (JSON.stringify(pruned.found) !== JSON.stringify(all.found))
    throw new Error("the search found something else");
  report("organisations", all.evaluations);
  report("computed by the search", pruned.evaluations);
  report("boxes bounded by the search", pruned.bounds);
  report("fewer evaluations, times", all.evaluations / pruned.evaluations, "", "at least 50");
  report(
    "fewer, bounds counted as evaluations",
    all.evaluations / (pruned.evaluations + pruned.bounds),
  );
  report("search", pruned.seconds, "s");
  report("everything / search, time", all.seconds / pruned.seconds);
}
