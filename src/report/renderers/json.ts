/**
 * Data as JSON text with two spaces of indent and a closing line break. What JSON has no number for (infinite, not a
 * number) becomes null; characters that would act on a terminal are written as `\u` escapes, which mean the same.
 */
export function renderJson(data: unknown): string {
  const text = JSON.stringify(data, onlyJson, 2) ?? "null";
  return `${spellActing(text)}\n`;
}

/** JSON text with `\u` escapes for what would act on a terminal. */
export function spellActing(json: string): string {
  return json.replace(ACTING, spelled);
}

function onlyJson(_key: string, value: unknown): unknown {
  if (typeof value === "number" && !Number.isFinite(value)) return null;
  if (value instanceof Map) return Object.fromEntries(value);
  if (ArrayBuffer.isView(value)) return [...(value as Float64Array)];
  return value;
}

/** Controls beyond those that JSON escapes itself, and the marks that turn the direction of writing. */
const ACTING =
  /[\u007f-\u009f\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]/g;

/** The `\u` escape of a character that is one unit long. */
export function spelled(unit: string): string {
  return `\\u${unit.charCodeAt(0).toString(16).padStart(4, "0")}`;
}
