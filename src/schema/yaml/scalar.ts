/** What an unquoted word of YAML means (YAML 1.2.2, section 10.3, core schema). */

export type ScalarValue = null | boolean | number | string;

const NULL = /^(?:null|Null|NULL|~|)$/;
const TRUE = /^(?:true|True|TRUE)$/;
const FALSE = /^(?:false|False|FALSE)$/;
const DECIMAL = /^[-+]?(?:\.\d+|\d+(?:\.\d*)?)(?:[eE][-+]?\d+)?$/;
const OCTAL = /^0o[0-7]+$/;
const HEXADECIMAL = /^0x[\da-fA-F]+$/;
const INFINITE = /^[-+]?\.(?:inf|Inf|INF)$/;
const NO_NUMBER = /^\.(?:nan|NaN|NAN)$/;

export function resolvePlain(text: string): ScalarValue {
  if (NULL.test(text)) return null;
  if (TRUE.test(text)) return true;
  if (FALSE.test(text)) return false;
  if (DECIMAL.test(text) || OCTAL.test(text) || HEXADECIMAL.test(text)) return Number(text);
  if (INFINITE.test(text)) return text.startsWith("-") ? -Infinity : Infinity;
  return NO_NUMBER.test(text) ? Number.NaN : text;
}

/** Why a number of the text can't be kept as it was written; undefined where it can. */
export function lostNumber(text: string, value: number): string | undefined {
  if (Number.isNaN(value)) return "is no number";
  if (!Number.isFinite(value)) return "is infinite or too large";
  const whole = /^[-+]?\d+$/.test(text) && !Number.isSafeInteger(value);
  return whole ? "has more digits than are kept (2^53)" : undefined;
}
