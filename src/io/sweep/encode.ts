/** Chunks of a sweep as bytes: a pure function of the sweep, the form and the number of the chunk. */
import { CHUNK, SweepChunks } from "../../studies/sweep/chunk.ts";
import type { SweepPlan } from "../../studies/sweep/plan.ts";
import type { Form } from "./form.ts";
import { GroupWriter } from "./parquet.ts";
import { TextWriter } from "./text.ts";

/**
 * Points of a chunk. One of Parquet is a group of rows, which readers like large; parts of a sweep
 * are whole chunks.
 */
export const CHUNK_OF: Readonly<Record<Form, number>> = {
  csv: CHUNK,
  jsonl: CHUNK,
  parquet: 2 * CHUNK,
};

/** What gives the bytes of a chunk, valid until it is called again. */
export function chunkEncoder(plan: SweepPlan, form: Form): (chunk: number) => Uint8Array {
  const chunks = new SweepChunks(plan, CHUNK_OF[form]);
  const writer = form === "parquet" ? new GroupWriter() : new TextWriter(form);
  return (chunk) => writer.write(chunks.table(chunk));
}
