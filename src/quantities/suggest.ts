/** The unit that somebody who mistyped one most likely meant. */

import { MEANT, SPELLINGS, UNITS } from "./units.ts";

/** Every unit with every prefix that it takes. */
function allNames(): string[] {
  return Object.entries(UNITS).flatMap(([name, unit]) => [
    name,
    ...unit.prefixes.map((prefix) => prefix + name),
  ]);
}

/**
 * Looks for a word that people write for a unit, with or without prefix, then for a slip in upper
 * and lower case (`kOhm`, `PF`, `NS`). Short names are too alike for anything looser.
 */
export function suggestUnit(word: string): string | undefined {
  if (Object.hasOwn(MEANT, word)) return MEANT[word];
  const lower = word.toLowerCase();
  const slips = allNames().filter((name) => name.toLowerCase() === lower);
  if (slips.length > 0) return slips.join(" or ");
  for (const length of [1, 2, 4, 5]) {
    const rest = lower.slice(length);
    const prefix = LONG_PREFIXES[lower.slice(0, length)] ?? word.slice(0, length);
    const name = SPELLINGS[rest] ?? (Object.hasOwn(MEANT, rest) ? MEANT[rest] : undefined) ?? rest;
    if (name !== undefined && UNITS[name]?.prefixes.includes(prefix)) return prefix + name;
  }
  return undefined;
}

const LONG_PREFIXES: Readonly<Record<string, string>> = {
  nano: "n",
  pico: "p",
  kilo: "k",
  mega: "M",
  giga: "G",
  micro: "u",
  milli: "m",
  femto: "f",
  centi: "c",
};
