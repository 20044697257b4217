/** Which unit to print a figure in: one prefix for a whole row of a table. */

import { log10, pow } from "../numerics/special/elementary.ts";
import { parseUnit } from "./unit.ts";
import { UNITS } from "./units.ts";

/** Prefixes that tables use; centi and deci are for reading only. */
const SHOWN_PREFIXES = ["P", "T", "G", "M", "k", "", "m", "u", "n", "p", "f", "a", "z"];

/** Units of the trade where a prefix alone would not do. */
const OF_THE_TRADE: Readonly<Record<string, readonly string[]>> = {
  "1/m^2": ["1/um^2", "1/mm^2", "1/cm^2"],
  "V m": ["mV um"],
  s: ["s", "ms", "us", "ns", "ps", "fs", "h", "day", "year"],
  K: ["K"],
};

/** Comfortable digits before the point; a count without prefix may have more, since it is exact. */
const COMFORT = 3;
const COMFORT_OF_COUNTS = 5;

/**
 * A unit to print in. `text` can be read back by `parseUnit`, but for the bare prefix of a count.
 */
export interface DisplayUnit {
  readonly text: string;
  readonly factor: number;
  readonly offset: number;
}

/**
 * The unit, out of all prefixes of `unit`, in which the figures of a row have the least digits
 * before and zeros behind the point.
 * @param figures in SI; zeros and infinities have no say
 * @param unit SI unit text
 */
export function engineeringPrefix(figures: readonly number[], unit: string): DisplayUnit {
  const sizes = figures.map(Math.abs).filter((x) => x > 0 && Number.isFinite(x));
  if (sizes.length === 0) return displayUnit(unit);
  let best: DisplayUnit | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const candidate of candidates(unit, sizes)) {
    const comfort = candidate.text === "" ? COMFORT_OF_COUNTS : COMFORT;
    const cost = sizes.reduce((sum, x) => sum + discomfort(x / candidate.factor, comfort), 0);
    // Rounding must not decide between two prefixes that suit equally: the first one does.
    if (cost < least - 1e-9) {
      best = candidate;
      least = cost;
    }
  }
  return best ?? displayUnit(unit);
}

/** A unit to print in that somebody chose. */
export function displayUnit(text: string): DisplayUnit {
  const { factor, offset } = parseUnit(text);
  return { text: text === "1" ? "" : text, factor, offset: Number(offset ?? 0) };
}

function discomfort(x: number, comfort: number): number {
  const decades = log10(x);
  if (decades < 0) return pow(decades, 2);
  return decades < comfort ? 0 : pow(decades - comfort + 0.1, 2);
}

function candidates(unit: string, sizes: readonly number[]): readonly DisplayUnit[] {
  if (unit === "1" || unit === "") {
    return ["", "k", "M", "G", "T"].map((text, i) => ({ text, factor: pow(1000, i), offset: 0 }));
  }
  if (unit === "bit") {
    const binary = sizes.length > 0 && sizes.every((x) => x % 1024 === 0);
    const prefixes = binary ? ["Gi", "Mi", "Ki"] : ["", "k", "M", "G"];
    return prefixes.map((p) => displayUnit(`${p}${binary ? "b" : "bit"}`));
  }
  if (Object.hasOwn(OF_THE_TRADE, unit)) return OF_THE_TRADE[unit]!.map(displayUnit);
  const [, name = "", rest = ""] = /^([A-Za-z%]+)(.*)$/.exec(unit) ?? [];
  const allowed = UNITS[name]?.prefixes ?? [];
  const tail = rest.endsWith("/m") ? rest.replace(/\/m$/, "/um") : rest;
  const prefixes = SHOWN_PREFIXES.filter((p) => p === "" || allowed.includes(p));
  return name === "" ? [displayUnit(unit)] : prefixes.map((p) => displayUnit(p + name + tail));
}
