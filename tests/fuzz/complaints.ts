import type { TenfoldError } from "../../src/errors/problem.ts";
import { problemsText } from "../../src/errors/wording.ts";

/** What the generated text is called in places. */
export const FILE = "fuzz.yaml";

/** Names of quantities that cannot be below zero. */
const NOT_NEGATIVE =
  /(?:area|energy|latency|time|power|width|height|length|transistors|switches|efficiency|years|rate)$/;
/** Differences and savings have a sign; so have indices of first order, and the parameters that a tornado swings. */
const SIGNED = /saved|difference|ratio|change|delta|margin|gain|influences|swings/;

/** Walks data for numbers that no result may hold. */
export function numbersOf(data: unknown, path: string, named = ""): string | undefined {
  if (typeof data === "number") {
    if (!Number.isFinite(data)) return `${path} is ${data}`;
    const unsigned = NOT_NEGATIVE.test(named) && !SIGNED.test(path);
    return unsigned && data < 0 ? `${path} (${named}) is ${data}` : undefined;
  }
  if (data instanceof Map) return numbersOf(Object.fromEntries(data), path, named);
  if (typeof data !== "object" || data === null) return undefined;
  const holder = data as Record<string, unknown>;
  const own = typeof holder.name === "string" ? holder.name : named;
  for (const [key, value] of Object.entries(holder)) {
    const next = NOT_NEGATIVE.test(key) ? key : own;
    const complaint = numbersOf(value, `${path}/${key}`, next);
    if (complaint !== undefined) return complaint;
  }
  return undefined;
}

/** Words that only a fault of the program writes, unless the text itself holds them. */
const FAULTS = /\bNaN\b|\bInfinity\b|∞|\bundefined\b|\[object /;

/** What an output says that only a fault would. */
export function wordsOf(output: string, text: string): string | undefined {
  const found = FAULTS.exec(output);
  if (found === null || FAULTS.test(text)) return undefined;
  return `writes ${JSON.stringify(output.slice(Math.max(0, found.index - 60), found.index + 40))}`;
}

/** What is wrong with a refusal: it ends with 2, and each problem has a place in the text. */
export function rejection({ problems, exitCode }: TenfoldError, text: string): string | undefined {
  if (exitCode !== 2) return `ends with ${exitCode}: ${problemsText(problems)}`;
  if (problems.length === 0) return "is refused without a reason";
  const lines = text.split(/\r\n|\r|\n/);
  for (const { code, what, place } of problems) {
    if (/\bundefined\b|\bNaN\b|\[object /.test(what) && !FAULTS.test(text)) return `says: ${what}`;
    if (code === "too-many-problems" || place?.file !== FILE) {
      if (place === undefined && code !== "too-many-problems") return `no place: ${code}: ${what}`;
      continue;
    }
    const line = lines[place.line - 1];
    if (line === undefined) return `line ${place.line} of ${lines.length}: ${what}`;
    if (place.column < 1 || place.column > line.length + 1) {
      return `column ${place.column} of line ${place.line}, which has ${line.length}: ${what}`;
    }
  }
  return undefined;
}
