/** Sweeps as Parquet: each chunk is a group of rows, so that files are joined without reading rows. */
import { type FileHandle, open } from "node:fs/promises";
import {
  asyncBufferFromFile,
  type FileMetaData,
  parquetMetadata,
  parquetMetadataAsync,
  type RowGroup,
  type SchemaElement,
} from "hyparquet";
import { ByteWriter, ParquetWriter } from "hyparquet-writer";
import type { SweepColumn } from "../../studies/sweep/plan.ts";
import { type SweepTable, type TableColumn, valueAt } from "../../studies/sweep/table.ts";
import { fillFileWhole } from "../write.ts";
import { headJson, parseHead, type SweepHead } from "./form.ts";

/** Under this key the file says where it comes from. */
const KEY = "tenfold";

const TYPES: Readonly<Record<SweepColumn["type"], Omit<SchemaElement, "name">>> = {
  whole: { type: "INT64" },
  number: { type: "DOUBLE" },
  text: { type: "BYTE_ARRAY", converted_type: "UTF8" },
  truth: { type: "BOOLEAN" },
};

function schemaOf(columns: readonly SweepColumn[]): SchemaElement[] {
  return [
    { name: "root", num_children: columns.length },
    ...columns.map(({ name, type, always }) => ({
      name,
      repetition_type: always ? ("REQUIRED" as const) : ("OPTIONAL" as const),
      ...TYPES[type],
    })),
  ];
}

/** Bytes before a chunk in an unfinished output: how many it has. */
const LENGTH = 4;

/**
 * Writes tables as they wait in an unfinished output: a length, then a Parquet file of one group of
 * rows, or of none where the table is empty. Its offsets count from the length on.
 */
export class GroupWriter {
  private readonly bytes = new ByteWriter(1 << 20);

  /** Valid until the next one. */
  write({ columns, data, count }: SweepTable): Uint8Array {
    const { bytes } = this;
    bytes.index = 0;
    bytes.offset = 0;
    bytes.appendUint32(0);
    const writer = new ParquetWriter({ writer: bytes, schema: schemaOf(columns) });
    if (count > 0) {
      const columnData = columns.map(({ name }, k) => ({
        name,
        data: valuesOf(data[k]!, count),
        offsetIndex: false,
      }));
      writer.write({ columnData, rowGroupSize: count });
    }
    writer.finish();
    bytes.view.setUint32(0, bytes.index - LENGTH, true);
    return bytes.getBytes();
  }
}

/** Null where there is no value. */
function valuesOf(column: TableColumn, count: number) {
  if (column.type === "whole") return BigInt64Array.from(column.values.subarray(0, count), BigInt);
  if (column.type === "number" && !column.values.subarray(0, count).some(Number.isNaN)) {
    return column.values.subarray(0, count);
  }
  return Array.from({ length: count }, (_, row) => valueAt(column, row) ?? null);
}

/** One group of rows of some file: its description and its bytes. */
interface Group {
  readonly about: RowGroup;
  /** Where its bytes began when its description was written. */
  readonly start: number;
  readonly bytes: Uint8Array;
}

/** Turns an unfinished output, a head and small files one after the other, into Parquet. */
export async function writeParquet(part: string, out: string, force: boolean): Promise<void> {
  const handle = await open(part, "r");
  try {
    const { head, at } = await frameHead(handle);
    await writeGroups(head, framedGroups(handle, at), out, force);
  } finally {
    await handle.close();
  }
}

async function frameHead(handle: FileHandle): Promise<{ head: SweepHead; at: number }> {
  const chunks: Uint8Array[] = [];
  const reader = new Reader(handle);
  for (let at = 0; ; ) {
    const bytes = Buffer.from(await reader.read(at, 4096));
    const end = bytes.indexOf(10);
    chunks.push(end < 0 ? bytes : bytes.subarray(0, end));
    at += end < 0 ? bytes.length : end + 1;
    if (end >= 0) return { head: parseHead(Buffer.concat(chunks).toString("utf8"))!, at };
  }
}

async function* framedGroups(handle: FileHandle, from: number): AsyncGenerator<Group> {
  const { size } = await handle.stat();
  const reader = new Reader(handle);
  for (let at = from; at < size; ) {
    const length = (await reader.read(at, LENGTH)).readUInt32LE(0);
    const frame = await reader.read(at, LENGTH + length);
    for (const about of parquetMetadata(footerOf(frame)).row_groups) {
      const { start, size: own } = extentOf(about);
      yield { about, start, bytes: frame.subarray(start, start + own) };
    }
    at += LENGTH + length;
  }
}

/** The end of a Parquet file: its metadata, their length in four bytes, and four bytes more. */
function footerOf(file: Buffer): ArrayBuffer {
  const footer = file.subarray(file.length - 8 - file.readUInt32LE(file.length - 8));
  return new Uint8Array(footer).buffer;
}

/** Reads pieces of a file into one buffer, each valid until the next. */
class Reader {
  private readonly handle: FileHandle;
  private buffer = Buffer.alloc(1 << 16);

  constructor(handle: FileHandle) {
    this.handle = handle;
  }

  async read(position: number, count: number): Promise<Buffer> {
    if (count > this.buffer.length) this.buffer = Buffer.alloc(2 * count);
    const { bytesRead } = await this.handle.read(this.buffer, 0, count, position);
    return this.buffer.subarray(0, bytesRead);
  }
}

/** Where the bytes of a group lie in its file. */
function extentOf({ columns }: RowGroup): { readonly start: number; readonly size: number } {
  let [start, end] = [Number.POSITIVE_INFINITY, 0];
  for (const { meta_data } of columns) {
    const { dictionary_page_offset, data_page_offset, total_compressed_size } = meta_data!;
    const first = Number(dictionary_page_offset ?? data_page_offset);
    start = Math.min(start, first);
    end = Math.max(end, first + Number(total_compressed_size));
  }
  return { start, size: end - start };
}

/** Writes groups of rows one after the other; what they hold is not looked at. */
async function writeGroups(
  head: SweepHead,
  groups: AsyncIterable<Group>,
  out: string,
  force: boolean,
): Promise<void> {
  const end = new ByteWriter();
  const writer = new ParquetWriter({
    writer: end,
    schema: schemaOf(head.columns),
    kvMetadata: [{ key: KEY, value: headJson(head) }],
    createdBy: `tenfold ${head.version}`,
  });
  const fill = async (handle: FileHandle): Promise<void> => {
    await handle.writeFile(end.getBytes());
    let at = end.offset;
    for await (const { about, start, bytes } of groups) {
      writer.row_groups.push(moved(about, BigInt(at - start)));
      writer.num_rows += about.num_rows;
      await handle.writeFile(bytes);
      at += bytes.length;
    }
    end.index = 0;
    end.offset = at;
    await writer.finish();
    await handle.writeFile(end.getBytes());
  };
  await fillFileWhole(out, fill, { force });
}

/** The description of a group whose bytes begin elsewhere. */
function moved(
  { columns, num_rows, total_byte_size, total_compressed_size }: RowGroup,
  by: bigint,
) {
  const shift = (offset: bigint | undefined) => (offset === undefined ? undefined : offset + by);
  return {
    num_rows,
    total_byte_size,
    total_compressed_size,
    columns: columns.map(({ file_offset, meta_data }) => ({
      file_offset: file_offset + by,
      meta_data: {
        ...meta_data!,
        data_page_offset: meta_data!.data_page_offset + by,
        dictionary_page_offset: shift(meta_data!.dictionary_page_offset),
      },
    })),
  } as RowGroup;
}

/** The head of a Parquet file; undefined where it is none of ours. */
export async function parquetHead(path: string): Promise<SweepHead | undefined> {
  const own = (await metadataOf(path)).key_value_metadata?.find(({ key }) => key === KEY)?.value;
  return own === undefined ? undefined : parseHead(own);
}

async function metadataOf(path: string): Promise<FileMetaData> {
  return parquetMetadataAsync(await asyncBufferFromFile(path));
}

/** Joins the groups of Parquet files. */
export async function mergeParquet(
  paths: readonly string[],
  head: SweepHead,
  out: string,
  force: boolean,
): Promise<void> {
  async function* groups(): AsyncGenerator<Group> {
    for (const path of paths) {
      const handle = await open(path, "r");
      try {
        const reader = new Reader(handle);
        for (const about of (await metadataOf(path)).row_groups) {
          const { start, size } = extentOf(about);
          yield { about, start, bytes: await reader.read(start, size) };
        }
      } finally {
        await handle.close();
      }
    }
  }
  await writeGroups(head, groups(), out, force);
}
