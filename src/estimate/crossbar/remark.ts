/** What a reader should know about how a crossbar's figures were found. */
import type { MacroModel } from "../model.ts";
import { closedBound } from "./bound.ts";

interface Told {
  readonly level: "note" | "caution";
  readonly text: string;
}

const percent = (share: number) => `${Number((100 * share).toPrecision(2))} %`;

/** Whether closed forms or a solve gave the far corner's figures; nothing for other cells. */
export function cornerRemarks({
  corner,
  design,
}: Pick<MacroModel, "corner" | "design">): readonly Told[] {
  if (corner === undefined) return [];
  const takes = `the lines take ${percent(corner.drop)} of the voltage to the far corner`;
  if (corner.failure !== undefined) {
    return [
      {
        level: "caution",
        text: `${takes}, and the network was not solved (${corner.failure}): closed forms beyond their range`,
      },
    ];
  }
  if (corner.by === "closed forms") {
    const { far, leak } = closedBound(design.cell.schemes!);
    return [
      {
        level: "note",
        text:
          `${takes}: closed forms, whose currents and voltages err by at most ` +
          `${percent(far)} and leaks by ${percent(leak)}`,
      },
    ];
  }
  return [
    {
      level: "note",
      text:
        `${takes}: the whole network was solved, ${corner.work.solves} times, at the nominal ` +
        "parameters; its intervals are those of the closed forms times the ratio of both",
    },
  ];
}
