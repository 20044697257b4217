import { createReadStream } from "node:fs";
import { open } from "node:fs/promises";
import { refuse } from "../errors/problem.ts";
import { checkSize, decodeText, LARGEST_FILE } from "../schema/yaml/decode.ts";
import { systemCode, systemReason } from "./system.ts";

/** A text with the name that errors print. */
export interface NamedText {
  readonly file: string;
  readonly text: string;
}

/** What stands for standard input where a file name is expected. */
export const STDIN = "-";

/**
 * Reads a text file, or standard input for `-`.
 *
 * @throws TenfoldError `file-missing`, `file-not-regular`, `file-unreadable`, `file-too-large`, `file-encoding`
 */
export async function readText(path: string): Promise<NamedText> {
  if (path === STDIN) {
    const bytes = await readStream(process.stdin, "standard input");
    return { file: "standard input", text: decodeText(bytes, "standard input") };
  }
  return { file: path, text: decodeText(await readFileBytes(path), path) };
}

async function readFileBytes(path: string): Promise<Uint8Array> {
  try {
    const handle = await open(path, "r");
    try {
      const stat = await handle.stat();
      if (stat.isDirectory()) refuseKind(path, "a directory");
      if (stat.isFile()) {
        checkSize(stat.size, path);
        return await handle.readFile();
      }
      // A pipe, such as a shell's process substitution, is read like standard input; a device may never end.
      if (!stat.isFIFO()) refuseKind(path, "a device or socket");
    } finally {
      await handle.close();
    }
  } catch (error) {
    throw asProblem(error, path);
  }
  return readStream(createReadStream(path), path);
}

/** Reads to the end, or until it is too much. */
async function readStream(stream: AsyncIterable<unknown>, file: string): Promise<Uint8Array> {
  const chunks: Buffer[] = [];
  let size = 0;
  try {
    for await (const chunk of stream) {
      chunks.push(Buffer.from(chunk as Uint8Array));
      size += chunks.at(-1)!.length;
      if (size > LARGEST_FILE) checkSize(size, file);
    }
  } catch (error) {
    throw asProblem(error, file);
  }
  return Buffer.concat(chunks);
}

function refuseKind(path: string, what: string): never {
  return refuse({
    code: "file-not-regular",
    what: `${path} is ${what}`,
    expected: "a file",
    fix: what === "a directory" ? "name a file in it" : "name a file, or `-` for standard input",
  });
}

/** A system error as a problem; anything else is given back as it is. */
function asProblem(error: unknown, path: string): unknown {
  const code = systemCode(error);
  if (code === undefined) return error;
  try {
    if (code === "ENOENT" || code === "ENOTDIR") {
      refuse({ code: "file-missing", what: `there is no file ${path}`, fix: "check its name" });
    }
    if (code === "EISDIR") refuseKind(path, "a directory");
    refuse({
      code: "file-unreadable",
      what: `${path} can't be read: ${systemReason(error)}`,
      fix: "check the file and its permissions",
    });
  } catch (problem) {
    return problem;
  }
}
