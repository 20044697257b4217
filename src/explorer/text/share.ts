/** A study in an address: deflated, in the letters of base 64 that an address may hold. */

import { LARGEST_FILE } from "../../schema/yaml/decode.ts";

/** Before the study; a later form gets another word. */
const KEY = "study=";
/** Longer addresses are cut or refused by programs that pass them on. */
export const LONGEST_ADDRESS = 32_000;

/** The part of an address behind `#`. */
export async function hashOf(text: string): Promise<string> {
  const bytes = await through(new TextEncoder().encode(text), new CompressionStream("deflate-raw"));
  return `#${KEY}${toBase64(bytes)}`;
}

/** Whether the part behind `#` claims to hold a study. */
export function holdsStudy(hash: string): boolean {
  return hash.startsWith(`#${KEY}`);
}

/**
 * The study of an address.
 *
 * @returns undefined where the address was cut, changed, or made to fill the memory
 */
export async function studyOf(hash: string): Promise<string | undefined> {
  if (!holdsStudy(hash) || hash.length > 2 * LONGEST_ADDRESS) return undefined;
  try {
    const packed = fromBase64(hash.slice(KEY.length + 1));
    const bytes = await through(packed, new DecompressionStream("deflate-raw"));
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return undefined;
  }
}

/** All that comes out of a stream, up to the size that a study may have. */
async function through(
  bytes: Uint8Array<ArrayBuffer>,
  stream: CompressionStream | DecompressionStream,
): Promise<Uint8Array<ArrayBuffer>> {
  const writer = stream.writable.getWriter();
  // What is wrong with the bytes comes out on the other side, too.
  writer.write(bytes).catch(() => undefined);
  writer.close().catch(() => undefined);
  const reader = stream.readable.getReader();
  const chunks: Uint8Array[] = [];
  let size = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    size += value.length;
    if (size > LARGEST_FILE) {
      await reader.cancel();
      throw new RangeError("more than a study has");
    }
    chunks.push(value);
  }
  const all = new Uint8Array(size);
  let at = 0;
  for (const chunk of chunks) {
    all.set(chunk, at);
    at += chunk.length;
  }
  return all;
}

function toBase64(bytes: Uint8Array): string {
  let letters = "";
  for (const byte of bytes) letters += String.fromCharCode(byte);
  return btoa(letters).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}

function fromBase64(text: string): Uint8Array<ArrayBuffer> {
  if (!/^[\w-]*$/.test(text)) throw new TypeError("no base 64");
  const letters = atob(text.replaceAll("-", "+").replaceAll("_", "/"));
  return Uint8Array.from(letters, (letter) => letter.charCodeAt(0));
}
