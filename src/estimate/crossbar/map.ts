/** The array of a design while its far corner is read, for a picture. */
import { TenfoldError } from "../../errors/problem.ts";
import type { MacroModel } from "../model.ts";
import { cornerCase, solveInputs } from "./procedure.ts";
import { solveRead } from "./solve.ts";
import { farCorner } from "./tile.ts";

/** Junction voltages of a tile at the nominal figures, in the pattern that is worst for the read. SI. */
export interface ReadMap {
  readonly rows: number;
  readonly columns: number;
  /** rows x columns, row-major [V]. */
  readonly voltages: Float64Array;
  readonly selected: { readonly row: number; readonly column: number };
  /** Between driver and held column [V]. */
  readonly applied: number;
  /** Across the selected junction, and through it. */
  readonly voltage: number;
  readonly current: number;
  /** Out of the selected column: what the amplifier sees. */
  readonly sensed: number;
  /** The largest across any other junction [V]. */
  readonly disturbed: number;
}

/** Junctions up to which an array is solved for a picture's sake. */
const MOST_DRAWN = 2 ** 18;

/**
 * Solves the network of a crosspoint design for a read of an on or an off cell.
 *
 * @returns undefined for other cells, for arrays that are too large, and where the network has no solution
 */
export function readMap(
  { design, program, nominal }: MapOf,
  state: "on" | "off",
): ReadMap | undefined {
  const { schemes, selectorKind } = design.cell;
  if (schemes === undefined || selectorKind === undefined) return undefined;
  const names = solveInputs(selectorKind);
  if (!names.every((name) => program.quantities.has(name))) return undefined;
  const values = Object.fromEntries(names.map((name) => [name, nominal.get(name)!]));
  const corner = cornerCase(selectorKind, schemes, values);
  const { rows, columns } = corner.tile;
  if (rows * columns > MOST_DRAWN) return undefined;
  try {
    const solution = solveRead(corner, state);
    const at = farCorner(corner.tile);
    const { junctionVoltages: voltages, junctionCurrents, columnCurrents } = solution;
    let disturbed = 0;
    voltages.forEach((v, k) => {
      if (k !== at) disturbed = Math.max(disturbed, Math.abs(v));
    });
    return {
      rows,
      columns,
      voltages,
      selected: { row: Math.floor(at / columns), column: at % columns },
      applied: corner.readVoltage,
      voltage: voltages[at]!,
      current: junctionCurrents[at]!,
      sensed: columnCurrents[columns - 1]!,
      disturbed,
    };
  } catch (error) {
    if (error instanceof TenfoldError) return undefined;
    throw error;
  }
}

/** What is read of a design's estimate. */
type MapOf = Pick<MacroModel, "design" | "program"> & {
  readonly nominal: ReadonlyMap<string, number>;
};
