/** What a reader should know about how a crossbar's figures were found. */
import type { MacroModel } from "../model.ts";
import { closedBound } from "./bound.ts";

interface Told {
  readonly level: "note" | "caution";
  readonly text: string;
}

const percent = (share: number) => `${Number((100 * share).toPrecision(2))} %`;

/** Share of the voltage from which on what is left out is said. */
const WORTH_SAYING = 0.02;

/**
 * What further cells take along the row when several are read or written at once: about half of
 * the row carries their currents. Grounded reads have all columns at one level and count them.
 *
 * @returns the larger share of read and write voltage
 */
function leftOut(values: ReadonlyMap<string, number>, groundedRead: boolean): number {
  const of = (name: string) => values.get(name) ?? 0;
  const perTile = (cells: number) => Math.max(0, cells / of("tiles_active") - 1);
  const half = of("row_resistance") / 2;
  const read = perTile(of("word_cells")) * of("cell_on_current") * half;
  const write = perTile(of("cells_at_once")) * of("switch_write_current") * half;
  return Math.max(
    groundedRead ? 0 : read / of("array_read_voltage"),
    write / of("array_write_voltage"),
  );
}

/** Whether closed forms or a solve gave the far corner's figures; nothing for other cells. */
export function cornerRemarks(model: MacroModel): readonly Told[] {
  if (model.corner === undefined) return [];
  const share = leftOut(model.nominal(), model.design.cell.schemes!.read === "grounded");
  const several: Told = {
    level: "caution",
    text:
      "lines and margins are those of one cell of a row at a time; the others that an access " +
      `reads or writes in the same row take about ${percent(share)} of the voltage more`,
  };
  return [...methodRemark(model), ...(share > WORTH_SAYING ? [several] : [])];
}

function methodRemark({ corner, design }: MacroModel): readonly Told[] {
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
