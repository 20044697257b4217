/** What a worker thread of a sweep runs: chunks by number in, their bytes out. */
import { parentPort, workerData } from "node:worker_threads";
import { TenfoldError } from "../../errors/problem.ts";
import { chunkEncoder } from "./encode.ts";
import type { Form } from "./form.ts";
import { planOf, type SweepSource } from "./open.ts";

const { source, form } = workerData as { readonly source: SweepSource; readonly form: Form };
const encode = chunkEncoder(planOf(source), form);

/** A chunk that is asked for, with a buffer that is no longer needed. */
interface Ask {
  readonly chunk: number;
  readonly spare?: ArrayBuffer;
}

parentPort!.on("message", ({ chunk, spare }: Ask) => {
  try {
    const bytes = encode(chunk);
    const buffer =
      spare !== undefined && spare.byteLength >= bytes.length
        ? spare
        : new ArrayBuffer(Math.ceil(1.25 * bytes.length));
    new Uint8Array(buffer).set(bytes);
    parentPort!.postMessage({ chunk, buffer, size: bytes.length }, [buffer]);
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    parentPort!.postMessage({ chunk, problems: error.problems });
  }
});
