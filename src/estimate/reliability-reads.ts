/** By which model a design's reads are judged, or why they can't be. */
import { pow } from "../numerics/special/elementary.ts";
import type { Reliability } from "../schema/reliability.ts";
import type { Design } from "../schema/study.ts";
import type { ResolvedCell } from "./cell.ts";
import type { Need, ReadModel } from "./reliability-parts.ts";

/** More bits than that nobody has shown in one cell. */
const MOST_BITS = 4;

const ERRORS = "bit errors";

/** @param given whether the switch has a figure of that name that somebody gave */
export function readModelOf(
  stated: Reliability,
  asked: Design["cell"],
  cell: ResolvedCell,
  given: (field: string) => boolean,
  need: Need,
): ReadModel | undefined {
  if (cell.switch === undefined) return otherCell(stated, cell, need);
  const bits = asked?.bits ?? 1;
  const hasSpread = given("device_spread_on") && given("device_spread_off");
  const spreads = hasSpread || stated.level_tolerance !== undefined;
  const drifts = stated.drift !== undefined;
  if (cell.kind === "resistive-pair") {
    const single =
      need(bits === 1, ERRORS, "one bit for each pair of switches: two levels are compared") &&
      need(spreads, ERRORS, "the device_spread of the switch");
    return single ? { kind: "pair", drifts } : undefined;
  }
  const levels = pow(2, bits);
  const { levels: own } = stated;
  const holds =
    need(bits <= MOST_BITS, ERRORS, `at most ${MOST_BITS} bits for each cell`) &&
    need(own === undefined || own.length === levels, ERRORS, `\`levels\` of all ${levels} levels`);
  if (!holds) return undefined;
  const says = (key: "spread" | "drift") => own?.every((one) => one[key] !== undefined) === true;
  if (!need(spreads || says("spread"), ERRORS, "the device_spread of the switch")) return undefined;
  const plain =
    levels === 2 &&
    !drifts &&
    own === undefined &&
    stated.read_noise === undefined &&
    stated.reference?.offset === undefined &&
    stated.reference?.spread === undefined;
  if (plain) return { kind: "two-level" };
  return {
    kind: "levels",
    plan: {
      levels,
      stated: { resistance: own !== undefined, spread: says("spread"), drift: says("drift") },
      drifts,
      noise: stated.read_noise !== undefined,
      series: cell.kind !== "crosspoint",
    },
  };
}

/** All-CMOS cells: what their read can be judged by. */
function otherCell(
  { cell_spread: spread, bit_flip_rate: flips }: Reliability,
  cell: ResolvedCell,
  need: Need,
): ReadModel | undefined {
  const { sensing, structure } = cell.model;
  if (structure.erasedByBlock) {
    const known = spread?.on !== undefined && spread.off !== undefined;
    const why =
      "`cell_spread` of `on` and `off`: no file has the spread of a floating gate's current";
    return need(known, ERRORS, why) ? { kind: "floating-gate" } : undefined;
  }
  if (sensing === "charge") {
    const why = "`cell_spread` of `on`: no file has the spread of a capacitor's charge";
    return need(spread?.on !== undefined, ERRORS, why) ? { kind: "charge" } : undefined;
  }
  const what = structure.refreshed
    ? "the spread of its stored voltage, which no file has: this cell's reads are not judged"
    : "`bit_flip_rate`: its read drives the column until it is right, so that only flips count";
  need(!structure.refreshed && flips !== undefined, ERRORS, what);
  return undefined;
}
