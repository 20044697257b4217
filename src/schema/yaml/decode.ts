/** Bytes of a file into text, with refusals that say why. */

import { refuse } from "../../errors/problem.ts";

/**
 * A study has some kilobytes, a file with measured samples some hundred; more would only wait for
 * the parser.
 */
export const LARGEST_FILE = 4 * 1024 * 1024;

/** Refuses a file by its size alone, before it is read into memory. */
export function checkSize(bytes: number, file: string): void {
  if (bytes <= LARGEST_FILE) return;
  refuse({
    code: "file-too-large",
    what: `the file has ${(bytes / 1024 / 1024).toFixed(0)} MiB`,
    place: { file, line: 1, column: 1 },
    expected: "at most 4 MiB: a study has some kilobytes",
    fix: "check that this is the file you meant",
  });
}

/**
 * UTF-8 into text without a byte-order mark.
 * @throws TenfoldError `file-too-large`, `file-encoding`
 */
export function decodeText(bytes: Uint8Array, file: string): string {
  checkSize(bytes.length, file);
  const [first, second] = bytes;
  if ((first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff)) {
    wrongEncoding(file, 1, "it begins with the byte-order mark of UTF-16");
  }
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    const valid = new TextDecoder().decode(bytes);
    const line = valid.slice(0, valid.indexOf("\ufffd")).split("\n").length;
    return wrongEncoding(file, line, "a byte of this line is no UTF-8");
  }
}

/** Text that came from elsewhere: the same limits, and no byte-order mark. */
export function checkText(text: string, file: string): string {
  checkSize(text.length, file);
  const zero = text.indexOf("\0");
  if (zero >= 0) {
    const line = text.slice(0, zero).split("\n").length;
    wrongEncoding(file, line, "it holds a zero byte: a binary file, or UTF-16");
  }
  return text.charCodeAt(0) === 0xfeff ? text.slice(1) : text;
}

function wrongEncoding(file: string, line: number, why: string): never {
  return refuse({
    code: "file-encoding",
    what: `the file isn't UTF-8 text: ${why}`,
    place: { file, line, column: 1 },
    expected: "text in UTF-8",
    fix: "save the file as UTF-8",
  });
}
