/** What a worker thread of a sweep runs: chunks by number in, their bytes out. */
import { parentPort, workerData } from "node:worker_threads";
import { TenfoldError } from "../../errors/problem.ts";
import { sweepChunk } from "../../studies/sweep/rows.ts";
import { type Form, rowsText } from "./form.ts";
import { planOf, type SweepSource } from "./open.ts";

const { source, form } = workerData as { readonly source: SweepSource; readonly form: Form };
const plan = planOf(source);
const encoder = new TextEncoder();

parentPort!.on("message", (chunk: number) => {
  try {
    const bytes = encoder.encode(rowsText(sweepChunk(plan, chunk), plan.columns, form));
    parentPort!.postMessage({ chunk, bytes }, [bytes.buffer as ArrayBuffer]);
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    parentPort!.postMessage({ chunk, problems: error.problems });
  }
});
