/** Reading values out of plain objects: every refusal says which value, what was expected and the nearest word. */
import { nearestWord } from "../../errors/nearest.ts";
import { refuse } from "../../errors/problem.ts";

/** A mapping and where it stands, as a JSON pointer. */
export interface Fields {
  readonly at: string;
  readonly values: Readonly<Record<string, unknown>>;
}

/** A value as text for a message, cut short. */
export function shown(value: unknown): string {
  const text = JSON.stringify(value) ?? String(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

export function fieldsOf(value: unknown, at: string): Fields {
  if (typeof value === "object" && value !== null && !Array.isArray(value)) {
    return { at, values: value as Record<string, unknown> };
  }
  refuse({
    code: "shape",
    what: `${at} must be a mapping`,
    path: at,
    got: shown(value),
    expected: "a mapping of keys to values",
  });
}

export function needed(from: Fields, key: string): unknown {
  const value = from.values[key];
  if (value !== undefined && value !== null) return value;
  refuse({ code: "missing", what: `${from.at}/${key} is missing`, path: from.at, expected: key });
}

export function asNumber(value: unknown, at: string): number {
  if (typeof value === "number" && Number.isFinite(value)) return value;
  refuse({
    code: "not-a-number",
    what: `${at} must be a finite number in SI, without a unit`,
    path: at,
    got: shown(value),
    expected: "a number such as 2.5",
  });
}

export function numberAt(from: Fields, key: string): number {
  return asNumber(needed(from, key), `${from.at}/${key}`);
}

export function positiveAt(from: Fields, key: string): number {
  const value = numberAt(from, key);
  if (value > 0) return value;
  refuse({
    code: "not-positive",
    what: `${from.at}/${key} must be above zero`,
    path: `${from.at}/${key}`,
    got: String(value),
  });
}

export function notNegativeAt(from: Fields, key: string): number {
  const value = numberAt(from, key);
  if (value >= 0) return value;
  refuse({
    code: "not-positive",
    what: `${from.at}/${key} must not be below zero`,
    path: `${from.at}/${key}`,
    got: String(value),
  });
}

export function wholeAt(from: Fields, key: string): number {
  const value = numberAt(from, key);
  if (Number.isSafeInteger(value)) return value;
  refuse({
    code: "shape",
    what: `${from.at}/${key} must be a whole number`,
    path: `${from.at}/${key}`,
    got: String(value),
  });
}

export function countAt(from: Fields, key: string): number {
  const value = numberAt(from, key);
  if (Number.isSafeInteger(value) && value > 0) return value;
  refuse({
    code: "shape",
    what: `${from.at}/${key} must be a whole number above zero`,
    path: `${from.at}/${key}`,
    got: String(value),
  });
}

/** The index of a line, 0 to count - 1. */
export function asIndex(value: unknown, count: number, at: string): number {
  const k = asNumber(value, at);
  if (Number.isInteger(k) && k >= 0 && k < count) return k;
  refuse({
    code: "out-of-range",
    what: `${at} lies outside the array`,
    path: at,
    got: String(k),
    expected: `a whole number from 0 to ${count - 1}`,
  });
}

export function listAt(from: Fields, key: string, length?: number): readonly unknown[] {
  const value = needed(from, key);
  const at = `${from.at}/${key}`;
  if (Array.isArray(value) && (length === undefined || value.length === length)) return value;
  refuse({
    code: "shape",
    what: `${at} must be a list${length === undefined ? "" : ` of ${length}`}`,
    path: at,
    got: Array.isArray(value) ? `${value.length} entries` : shown(value),
  });
}

/** One of the words. */
export function wordAt<Word extends string>(
  from: Fields,
  key: string,
  words: readonly Word[],
): Word {
  return asWord(needed(from, key), words, `${from.at}/${key}`);
}

export function asWord<Word extends string>(
  value: unknown,
  words: readonly Word[],
  at: string,
): Word {
  const found = words.find((word) => word === value);
  if (found !== undefined) return found;
  const near = typeof value === "string" ? nearestWord(value, words) : undefined;
  refuse({
    code: "unknown-name",
    what: `${at}: no such name`,
    path: at,
    got: shown(value),
    expected: words.join(", "),
    ...(near === undefined ? {} : { nearest: near }),
  });
}

/** Refuses keys that nobody reads. */
export function onlyKeys(from: Fields, keys: readonly string[]): void {
  for (const key of Object.keys(from.values)) {
    if (!keys.includes(key)) asWord(key, keys, `${from.at}/${key}`);
  }
}
