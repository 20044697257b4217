// The search for the best organisation against computing every organisation, on the demo.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { organiseStudy, parseFormula, reopener } from "../../dist/node.js";

export const name = "organise";

const STUDY = fileURLToPath(new URL("../../configs/tarn-ranges.yaml", import.meta.url));

/** How often each is timed: the machine may be busy, so that the least time counts. */
const RUNS = 3;

export async function run(report) {
  const named = { text: readFileSync(STUDY, "utf8"), file: "tarn-ranges.yaml" };
  const reopen = reopener({ named, set: [], entries: [] });
  const timed = (everything) => {
    const from = process.cpuUsage();
    const result = organiseStudy(reopen, parseFormula, { everything });
    const { user, system } = process.cpuUsage(from);
    return { ...result, seconds: (user + system) / 1e6 };
  };
  // One after the other, so that both meet the same machine.
  const pairs = Array.from({ length: RUNS }, () => ({ pruned: timed(false), all: timed(true) }));
  const [{ pruned, all }] = pairs;
  const least = (of) => Math.min(...pairs.map((pair) => pair[of].seconds));
  if (JSON.stringify(pruned.found) !== JSON.stringify(all.found))
    throw new Error("the search found something else");
  report("organisations", all.evaluations);
  report("computed by the search", pruned.evaluations);
  report("boxes bounded by the search", pruned.bounds);
  report("fewer evaluations, times", all.evaluations / pruned.evaluations, "", "at least 50");
  report("search, processor time", least("pruned"), "s");
  report("everything, processor time", least("all"), "s");
  report("everything / search, processor time", least("all") / least("pruned"), "", "above 1");
}
