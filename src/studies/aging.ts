/** Errors of a design at several times since the write, and which levels make them. */
import { timeName } from "../estimate/reliability-times.ts";
import type { Program } from "../formulas/program.ts";
import { timePrefix } from "../models/reliability/index.ts";
import { type EstimatedFigure, figureOf } from "./figures.ts";

/** One time since the write. */
export interface AgedErrors {
  /** In s, at the nominal parameters. */
  readonly time: number;
  readonly bits: EstimatedFigure;
  readonly words: EstimatedFigure;
}

const FIGURES = ["bit_error_rate", "word_failure"];

function timesIn({ quantities }: Program): number[] {
  const times: number[] = [];
  while (quantities.has(timePrefix(times.length + 1) + FIGURES[0]!)) times.push(times.length + 1);
  return times;
}

/** The quantities that `agedErrors` reads. */
export function agingNames(program: Program): string[] {
  return timesIn(program).flatMap((time) => FIGURES.map((name) => timePrefix(time) + name));
}

/** The errors at each time, rising. @param samples of `agingNames` */
export function agedErrors(
  program: Program,
  nominal: ReadonlyMap<string, number>,
  samples: ReadonlyMap<string, Float64Array>,
  coverage: number,
): AgedErrors[] {
  return timesIn(program).map((time) => {
    const figure = (name: string) => figureOf(nominal.get(name)!, samples.get(name)!, coverage);
    const [bits, words] = FIGURES.map((name) => figure(timePrefix(time) + name));
    return { time: nominal.get(timeName(time))!, bits: bits!, words: words! };
  });
}

/** Below this share a pair of levels is not worth a word: two levels have but one pair. */
const WORTH = 0.5;

/** Which neighbouring levels make most of the errors, a sentence; undefined for two levels. */
export function decidingLevels(nominal: ReadonlyMap<string, number>): string | undefined {
  const last = timesOf(nominal);
  const prefix = last === 0 ? "" : timePrefix(last);
  const shares: number[] = [];
  for (let k = 1; nominal.has(`${prefix}boundary_share_${k}`); k++)
    shares.push(nominal.get(`${prefix}boundary_share_${k}`)!);
  if (shares.length < 2) return undefined;
  const most = Math.max(...shares);
  const k = shares.indexOf(most) + 1;
  const when = last === 0 ? "" : " at the last time";
  const percent = Math.round(100 * most);
  return most >= WORTH
    ? `${percent} % of its errors${when} are between the levels ${k} and ${k + 1}, counted from the on state`
    : `no pair of levels makes more than ${percent} % of its errors${when}`;
}

function timesOf(nominal: ReadonlyMap<string, number>): number {
  let last = 0;
  while (nominal.has(`${timePrefix(last + 1)}boundary_share_1`)) last += 1;
  return last;
}
