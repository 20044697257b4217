// Times our solver on one case in a process of its own: best of three, and the peak memory of the whole process. A small
// case is solved first, so that the engine's compiler, which works while it runs, is not what is timed.
// Usage: crossbar-ours.mjs PATTERN ROWS COLUMNS OHM g|f
import { solveCrossbar } from "../../dist/numerics.js";
import { problemOf } from "./crossbar-cases.mjs";

const [pattern, rows, columns, r, floating] = process.argv.slice(2);
const problem = problemOf(pattern, Number(rows), Number(columns), Number(r), floating === "f");
const small = problemOf("log", 64, 64, 10, floating === "f");
for (let k = 0; k < 40; k++) solveCrossbar(small);
let best = Infinity;
let solution;
for (let k = 0; k < 3; k++) {
  const from = performance.now();
  solution = solveCrossbar(problem);
  best = Math.min(best, (performance.now() - from) / 1000);
}
if (!solution.converged) throw new Error(`not converged: ${solution.residual}`);
const megabytes = process.resourceUsage().maxRSS / 1024;
console.log(JSON.stringify({ seconds: best, megabytes, iterations: solution.iterations }));
