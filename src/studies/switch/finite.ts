/** Results of a switch that are numbers. */
import { refuse } from "../../errors/problem.ts";

/** Ends that are open: a source without a limit, the highest level. */
const OPEN = ["current_limit", "high", "boundary"];
const TIME = /set|reset|retention|decades|time/i;

/**
 * Gives a result back whose numbers are all finite.
 *
 * @throws TenfoldError `out-of-range`, naming the figures of the switch that most decide what is not
 */
export function finite<T>(result: T): T {
  const found = notFinite(result, []);
  if (found === undefined) return result;
  const name = found.filter((key) => !/^\d+$/.test(key)).join(" ");
  return refuse({
    code: "out-of-range",
    what: TIME.test(name)
      ? "by its hop_energy, hop_distance and voltages the switch takes longer than any number says"
      : `with these figures of the switch its ${name} can't be computed`,
    expected: "a film of nanometres, energies of an electronvolt or so, voltages of a few volts",
  });
}

/** The keys that lead to the first number that is none. */
function notFinite(value: unknown, path: readonly string[]): readonly string[] | undefined {
  if (typeof value === "number") return Number.isFinite(value) ? undefined : path;
  if (typeof value !== "object" || value === null) return undefined;
  for (const [key, inner] of Object.entries(value)) {
    if (OPEN.includes(key)) continue;
    const found = notFinite(inner, [...path, key]);
    if (found !== undefined) return found;
  }
  return undefined;
}
