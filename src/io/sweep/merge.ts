import { createReadStream, existsSync } from "node:fs";
import type { FileHandle } from "node:fs/promises";
import { extname } from "node:path";
import { createInterface } from "node:readline";
import { refuse } from "../../errors/problem.ts";
import { checkTarget } from "../target.ts";
import { fillFileWhole } from "../write.ts";
import { type Form, formOf, headLines, headText, parseHead, type SweepHead } from "./form.ts";
import { mergeParquet, parquetHead } from "./parquet.ts";

interface Piece {
  readonly path: string;
  readonly head: SweepHead;
}

/**
 * Joins the parts of a sweep into what one machine would have written.
 *
 * @param paths the parts, in any order
 * @throws TenfoldError `not-a-part`, `parts-differ`, `parts-missing`, `file-exists`,
 *   `file-unwritable`
 */
export async function mergeSweep(
  paths: readonly string[],
  out: string,
  options: { readonly force: boolean },
): Promise<{ readonly points: number }> {
  const form = formOf(out);
  const pieces: Piece[] = [];
  for (const path of paths) pieces.push({ path, head: await headOfPart(path, form, out) });
  const ordered = inOrder(pieces);
  checkTarget(out, options.force);
  const { shard: _, ...head } = ordered[0]!.head;
  const files = ordered.map(({ path }) => path);
  if (form === "parquet") await mergeParquet(files, head, out, options.force);
  else await mergeText(files, head, form, out, options.force);
  return { points: head.points };
}

async function headOfPart(path: string, form: Form, out: string): Promise<SweepHead> {
  const what = (text: string, expected: string): never =>
    refuse({ code: "not-a-part", what: `${path} ${text}`, expected });
  if (!existsSync(path)) what("is not there", "the files that `tenfold sweep --shard` wrote");
  if (extname(path).toLowerCase() !== extname(out).toLowerCase()) {
    what("has another form than the output", `parts that end in ${extname(out)}`);
  }
  const head =
    form === "parquet"
      ? await parquetHead(path).catch(() => undefined)
      : parseHead(await firstLine(path));
  return head ?? what("is no output of a sweep", "the files that `tenfold sweep --shard` wrote");
}

async function firstLine(path: string): Promise<string> {
  const stream = createReadStream(path);
  try {
    for await (const line of createInterface({ input: stream })) return line;
    return "";
  } finally {
    stream.destroy();
  }
}

/** All parts of one sweep, each once. */
function inOrder(pieces: readonly Piece[]): Piece[] {
  const identity = ({ head: { shard, ...rest } }: Piece): string =>
    JSON.stringify([rest, shard?.of ?? 1]);
  const [first] = pieces;
  const other = pieces.find((piece) => identity(piece) !== identity(first!));
  if (other !== undefined) {
    refuse({
      code: "parts-differ",
      what: `${other.path} and ${first!.path} are not parts of the same sweep`,
      expected: "parts of the same study, values, version and number of parts",
    });
  }
  const of = first!.head.shard?.of ?? 1;
  const there = new Map(pieces.map((piece) => [piece.head.shard?.index ?? 1, piece]));
  const missing = Array.from({ length: of }, (_, i) => i + 1).filter((i) => !there.has(i));
  if (missing.length > 0 || there.size !== pieces.length) {
    refuse({
      code: "parts-missing",
      what:
        missing.length > 0
          ? `of ${of} parts these are missing: ${missing.slice(0, 20).join(", ")}`
          : "a part is given twice",
      fix: "run them with --shard, and name each once",
    });
  }
  return [...there].sort(([a], [b]) => a - b).map(([, piece]) => piece);
}

async function mergeText(
  files: readonly string[],
  head: Omit<SweepHead, "shard">,
  form: Form,
  out: string,
  force: boolean,
): Promise<void> {
  const fill = async (handle: FileHandle): Promise<void> => {
    await handle.writeFile(headText(head, form));
    for (const file of files) {
      for await (const bytes of body(file, headLines(form))) await handle.writeFile(bytes);
    }
  };
  await fillFileWhole(out, fill, { force });
}

/** The bytes of a file after so many lines. */
async function* body(file: string, lines: number): AsyncGenerator<Buffer> {
  let left = lines;
  for await (const chunk of createReadStream(file)) {
    let from = 0;
    const bytes = chunk as Buffer;
    while (left > 0) {
      const end = bytes.indexOf(10, from);
      if (end < 0) break;
      from = end + 1;
      left -= 1;
    }
    if (left === 0 && from < bytes.length) yield bytes.subarray(from);
  }
}
