import { createReadStream } from "node:fs";
import { rename, rm } from "node:fs/promises";
import { createInterface } from "node:readline";
import {
  asyncBufferFromFile,
  parquetMetadataAsync,
  parquetReadObjects,
  type SchemaElement,
} from "hyparquet";
import { fileWriter, ParquetWriter } from "hyparquet-writer";
import type { SweepColumn } from "../../studies/sweep/plan.ts";
import { parseHead, type SweepHead } from "./form.ts";
import { guarded } from "./part.ts";

/** Rows of a group: what is in memory at a time. */
const GROUP = 65_536;
/** Under this key the file says where it comes from. */
const KEY = "tenfold";

type Values = readonly (number | string | boolean | null)[];

const TYPES: Readonly<Record<SweepColumn["type"], Omit<SchemaElement, "name">>> = {
  whole: { type: "INT64" },
  number: { type: "DOUBLE" },
  text: { type: "BYTE_ARRAY", converted_type: "UTF8" },
  truth: { type: "BOOLEAN" },
};

/** Turns an unfinished output, a head and lists of values by line, into Parquet. */
export async function writeParquet(part: string, out: string): Promise<void> {
  const lines = createInterface({
    input: createReadStream(part),
    crlfDelay: Number.POSITIVE_INFINITY,
  });
  const reader = lines[Symbol.asyncIterator]();
  const head = parseHead((await reader.next()).value as string)!;
  async function* rows(): AsyncGenerator<Values> {
    for (let line = await reader.next(); line.done !== true; line = await reader.next()) {
      yield JSON.parse(line.value) as Values;
    }
  }
  await writeRows(head, rows(), out);
}

/** Writes rows in groups of the same size, whatever parts they came in. */
async function writeRows(head: SweepHead, rows: AsyncIterable<Values>, out: string): Promise<void> {
  const fresh = `${out}.part.tmp`;
  try {
    await guarded(out, async () => {
      const writer = new ParquetWriter({
        writer: fileWriter(fresh),
        schema: schemaOf(head.columns),
        kvMetadata: [{ key: KEY, value: JSON.stringify(head) }],
        createdBy: `tenfold ${head.version}`,
      });
      let group: Values[] = [];
      for await (const row of rows) {
        group.push(row);
        if (group.length < GROUP) continue;
        writer.write({ columnData: columnsOf(head.columns, group), rowGroupSize: GROUP });
        group = [];
      }
      if (group.length > 0) {
        writer.write({ columnData: columnsOf(head.columns, group), rowGroupSize: GROUP });
      }
      writer.finish();
      await rename(fresh, out);
    });
  } finally {
    await rm(fresh, { force: true });
  }
}

function schemaOf(columns: readonly SweepColumn[]): SchemaElement[] {
  return [
    { name: "root", num_children: columns.length },
    ...columns.map(({ name, type }) => ({
      name,
      repetition_type: "OPTIONAL" as const,
      ...TYPES[type],
    })),
  ];
}

function columnsOf(columns: readonly SweepColumn[], rows: readonly Values[]) {
  return columns.map(({ name, type }, k) => ({
    name,
    data: rows.map((row) => (type === "whole" ? BigInt(row[k] as number) : row[k]!)),
  }));
}

/** The head of a Parquet file; undefined where it is none of ours. */
export async function parquetHead(path: string): Promise<SweepHead | undefined> {
  const metadata = await parquetMetadataAsync(await asyncBufferFromFile(path));
  const own = metadata.key_value_metadata?.find(({ key }) => key === KEY)?.value;
  return own === undefined ? undefined : parseHead(own);
}

/** Joins the rows of Parquet files. */
export async function mergeParquet(
  paths: readonly string[],
  head: SweepHead,
  out: string,
): Promise<void> {
  async function* rows(): AsyncGenerator<Values> {
    for (const path of paths) {
      const file = await asyncBufferFromFile(path);
      const metadata = await parquetMetadataAsync(file);
      let rowStart = 0;
      for (const { num_rows } of metadata.row_groups) {
        const rowEnd = rowStart + Number(num_rows);
        const objects = await parquetReadObjects({ file, metadata, rowStart, rowEnd });
        for (const row of objects) {
          yield head.columns.map(({ name, type }) => {
            const value = row[name];
            return type === "whole" ? Number(value) : ((value ?? null) as Values[number]);
          });
        }
        rowStart = rowEnd;
      }
    }
  }
  await writeRows(head, rows(), out);
}
