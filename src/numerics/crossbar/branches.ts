/**
 * Elements whose current jumps: a selector that snaps on above its threshold and holds until its current or voltage
 * falls below a hold value. Such a network has several states; two are asked for: every junction on its off branch, and
 * the selected one on its on branch with all others off.
 */
import { refuse } from "../../errors/problem.ts";
import type { CrossbarProblem, CrossbarSolution, JunctionKind } from "./problem.ts";
import { solveCrossbar } from "./solve.ts";

/** Both branches of one kind. Thresholds apply to the junction's whole voltage on the off branch. */
export interface SnapKind {
  readonly off: JunctionKind;
  readonly on: JunctionKind;
  /** Above this magnitude of the voltage the off branch ends [V]. */
  readonly thresholdVoltage: number;
  /** Below this magnitude of the current the on branch ends [A]. */
  readonly holdCurrent: number;
}

export interface SnapProblem extends Omit<CrossbarProblem, "junctions"> {
  readonly kinds: readonly SnapKind[];
  readonly kindOf: Uint8Array;
  readonly selected: { readonly row: number; readonly column: number };
}

export interface SnapSolution {
  /** All junctions off. */
  readonly off: CrossbarSolution;
  /** True when the selected junction passes its threshold in that state. */
  readonly snaps: boolean;
  /** The selected junction on, when it snaps. */
  readonly on?: CrossbarSolution;
  /** True when it stays on: its current is at least the hold current. */
  readonly holds?: boolean;
  /** Largest |voltage| / threshold of an unselected junction over both states. */
  readonly disturb: number;
}

function solveBranches(problem: SnapProblem, selectedOn: boolean): CrossbarSolution {
  const { kinds, kindOf, selected, columns } = problem;
  const at = selected.row * columns + selected.column;
  const laws = [...kinds.map((k) => k.off), kinds[kindOf[at]!]!.on];
  const of = kindOf.slice();
  if (selectedOn) of[at] = kinds.length;
  return solveCrossbar({ ...problem, junctions: { kinds: laws, kindOf: of } });
}

/** The unselected junction nearest to its threshold. */
function nearest(problem: SnapProblem, solution: CrossbarSolution): { at: number; ratio: number } {
  const { kinds, kindOf, selected, columns } = problem;
  const chosen = selected.row * columns + selected.column;
  let worst = { at: -1, ratio: 0 };
  solution.junctionVoltages.forEach((v, at) => {
    const ratio = Math.abs(v) / kinds[kindOf[at]!]!.thresholdVoltage;
    if (at !== chosen && ratio > worst.ratio) worst = { at, ratio };
  });
  return worst;
}

/**
 * Solves both branches.
 * @throws TenfoldError `half-selected-snaps` when an unselected junction would pass its threshold in either state: the
 *   two states asked for are then not the network's
 */
export function solveSnap(problem: SnapProblem): SnapSolution {
  const { kinds, kindOf, selected, columns } = problem;
  const at = selected.row * columns + selected.column;
  const kind = kinds[kindOf[at]!]!;
  const check = (solution: CrossbarSolution, state: string): number => {
    const worst = nearest(problem, solution);
    if (worst.ratio <= 1) return worst.ratio;
    const place = `junction (${Math.floor(worst.at / columns)}, ${worst.at % columns})`;
    refuse({
      code: "half-selected-snaps",
      what: `${place}, which is not selected, would pass its threshold with ${state}`,
      got: `${worst.ratio.toPrecision(4)} times its threshold voltage`,
      fix: "lower the bias of the lines that are not selected, or raise the threshold",
    });
  };
  const off = solveBranches(problem, false);
  const disturb = check(off, "every junction off");
  const snaps = Math.abs(off.junctionVoltages[at]!) > kind.thresholdVoltage;
  if (!snaps) return { off, snaps, disturb };
  const on = solveBranches(problem, true);
  return {
    off,
    snaps,
    on,
    holds: Math.abs(on.junctionCurrents[at]!) >= kind.holdCurrent,
    disturb: Math.max(disturb, check(on, "the selected junction on")),
  };
}
