/** Sheets and procedures of a design's bit errors, right after the write and as time goes by. */
import type { ExtraFormula } from "../formulas/program.ts";
import type { Instance } from "../formulas/sheet.ts";
import { senseSpread } from "../models/crossbar/margin.ts";
import {
  arrayReadErrors,
  changedBits,
  chargeReadErrors,
  codedMacro,
  driftedPair,
  levelPlan,
  levelReads,
  levelReferences,
  pairReadErrors,
  referenceName,
  stateLoss,
  switchSpread,
  timePrefix,
  verifiedSpread,
  wordErrors,
  worstTimes,
} from "../models/reliability/index.ts";
import type { AgingPart, ReadModel, ReliabilityParts } from "./reliability-parts.ts";
import { timeName } from "./reliability-times.ts";

export interface Recipe {
  readonly instances: Instance[];
  readonly extra: ExtraFormula[];
}

const extra = (name: string, unit: string, formula: string, meaning: string): ExtraFormula => ({
  name,
  unit,
  formula,
  meaning,
  source: "this project",
});

const decades = (time: string): string => `log(max(${time}, drift_start) / drift_start)`;
const MEANING = "ln of the time since the write over the drift's start";

/** Bit errors of a read right after the write, with word and macro. */
function freshReads(reads: ReadModel, verified: boolean, into: Recipe): void {
  const { instances } = into;
  const words = { of: wordErrors };
  if (reads.kind === "two-level") instances.push({ of: arrayReadErrors }, words);
  if (reads.kind === "floating-gate")
    instances.push({ of: senseSpread }, { of: arrayReadErrors }, words);
  if (reads.kind === "charge") instances.push({ of: chargeReadErrors }, { of: wordErrors });
  if (reads.kind === "pair") {
    instances.push(
      { of: verified ? verifiedSpread : switchSpread },
      { of: senseSpread },
      { of: pairReadErrors },
      words,
    );
    into.extra.push(
      extra(
        "bit_error_rate",
        "1",
        "read_error",
        "probability that a bit is read wrong, uncorrected",
      ),
    );
  }
  if (reads.kind !== "levels") return;
  const { plan } = reads;
  instances.push(
    { of: levelPlan(plan) },
    { of: levelReferences(plan.levels) },
    { of: levelReads(plan.levels) },
    { of: codedMacro },
  );
  into.extra.push(
    extra("drift_decades", "1", "0", MEANING),
    extra("changed_share", "1", "0", "share of cells whose content has changed by then"),
    extra(
      "sense_offset_share",
      "1",
      "sense_amplifier_offset_current / (sense_sigmas * sense_amplifier_reference_current)",
      "standard deviation of the amplifier's offset over the current that it compares",
    ),
    extra(
      "sense_shot_current",
      "A",
      "elementary_charge / sense_amplifier_signal_time",
      "variance of shot noise over the current",
    ),
  );
}

/** Errors at one time since the write. */
function readsAfter(
  reads: ReadModel | undefined,
  aging: AgingPart,
  time: number,
  into: Recipe,
): void {
  const prefix = timePrefix(time);
  const own = (...names: string[]) => Object.fromEntries(names.map((one) => [one, prefix + one]));
  const { instances, extra: formulas } = into;
  instances.push({
    of: stateLoss[aging.losses],
    prefix,
    bind: { storage_time: timeName(time) },
  });
  if (reads?.kind === "levels") {
    const { levels } = reads.plan;
    formulas.push(extra(`${prefix}drift_decades`, "1", decades(timeName(time)), MEANING));
    if (aging.tracking)
      instances.push({ of: levelReferences(levels), prefix, bind: own("drift_decades") });
    const references = Array.from({ length: levels - 1 }, (_, k) => referenceName(k + 1));
    instances.push({
      of: levelReads(levels),
      prefix,
      bind: own("drift_decades", "changed_share", ...(aging.tracking ? references : [])),
    });
    return;
  }
  const drifts = reads?.kind === "pair" && reads.drifts;
  if (drifts) {
    formulas.push(extra(`${prefix}drift_decades`, "1", decades(timeName(time)), MEANING));
    instances.push(
      { of: driftedPair, prefix, bind: own("drift_decades") },
      {
        of: pairReadErrors,
        prefix,
        bind: {
          cell_on_current: `${prefix}drifted_on_current`,
          cell_off_current: `${prefix}drifted_off_current`,
          on_spread: `${prefix}drifted_on_spread`,
          off_spread: `${prefix}drifted_off_spread`,
        },
      },
    );
  }
  const error = drifts ? `${prefix}read_error` : reads ? "bit_error_rate" : "no_read_error";
  instances.push(
    { of: changedBits, prefix, bind: { read_error: error, ...own("changed_share") } },
    { of: wordErrors, prefix, bind: own("bit_error_rate") },
  );
}

/** Everything from the read of a cell to the loss of a macro. */
export function readRecipe({ reads, aging, verified }: ReliabilityParts): Recipe {
  const into: Recipe = { instances: [], extra: [] };
  if (reads !== undefined) freshReads(reads, verified === true, into);
  if (aging === undefined) return into;
  if (reads === undefined)
    into.extra.push(extra("no_read_error", "1", "0", "a read itself never errs"));
  for (let time = 1; time <= aging.times; time++) readsAfter(reads, aging, time, into);
  const rounds = aging.scrubbed ? "mission_time / scrub_interval" : undefined;
  into.extra.push(...worstTimes(aging.times, reads !== undefined, rounds));
  return into;
}
