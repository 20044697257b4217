/** Why a network that was not solved never will be. */
import { type Problem, refuse } from "../../errors/problem.ts";
import { evaluateJunction } from "../../numerics/crossbar/laws.ts";
import type { CrossbarProblem } from "../../numerics/crossbar/problem.ts";
import { extremesOf } from "./extremes.ts";
import { shown } from "./fields.ts";

/** Potentials have some 32 digits: a conductor so much better than others has no drop that they show. */
const FARTHEST_APART = 1e15;
/** Of source voltages [V]; powers of less come near the least number that there is. */
const LEAST_VOLTAGE = 1e-60;
/** And powers of more the largest. */
const MOST_VOLTAGE = 1e60;

/**
 * Refuses the figures of a network for which it was not solved; returns where there is no such reason.
 *
 * @param id of the case
 * @param at its path in the file
 * @throws TenfoldError `out-of-range`
 */
export function refuseHopeless(id: string, problem: CrossbarProblem, at: string): void {
  const reason =
    tooFarApart(problem) ?? tooSmall(problem) ?? tooLarge(problem) ?? beyondNumbers(problem);
  if (reason === undefined) return;
  refuse({ code: "out-of-range", path: at, ...reason, what: `${id}: ${reason.what}` });
}

type Reason = Omit<Problem, "code">;

function tooFarApart(problem: CrossbarProblem): Reason | undefined {
  const { least, most } = extremesOf(problem);
  if (!(most / least > FARTHEST_APART)) return undefined;
  return {
    what: "the resistances are too far apart for this network to be solved",
    got: `${shown(least)} ohm beside ${shown(most)} ohm`,
    expected: `resistances within a factor of ${FARTHEST_APART.toExponential(0)}`,
    fix: "0 for wires and terminals of hardly any resistance, larger values for such junctions",
  };
}

function tooSmall(problem: CrossbarProblem): Reason | undefined {
  const { voltage } = extremesOf(problem);
  if (voltage >= LEAST_VOLTAGE) return undefined;
  return {
    what: "the voltages are too small for this network to be solved",
    got: `${shown(voltage)} V at most`,
    expected: `0 V, or a source of ${LEAST_VOLTAGE.toExponential(0)} V and more`,
  };
}

function tooLarge(problem: CrossbarProblem): Reason | undefined {
  const { voltage } = extremesOf(problem);
  if (voltage <= MOST_VOLTAGE) return undefined;
  return {
    what: "the voltages are too large for this network to be solved",
    got: `${shown(voltage)} V`,
    expected: `at most ${MOST_VOLTAGE.toExponential(0)} V`,
  };
}

/** Currents [A] whose power is beyond all numbers, or beside which no other has a digit. */
const MOST_CURRENT = 1e60;

/** Ideal sources on both sides of a junction leave nothing that could limit its current. */
function beyondNumbers(problem: CrossbarProblem): Reason | undefined {
  const { junctions } = problem;
  if ("conductance" in junctions) return undefined;
  const { lowest, highest } = extremesOf(problem);
  const span = highest - lowest;
  const point = { current: 0, slope: 0 };
  for (const kind of junctions.kinds) {
    for (const v of [span, -span]) {
      evaluateJunction(kind, v, point);
      if (Math.abs(point.current) <= MOST_CURRENT && Number.isFinite(point.slope)) continue;
      return {
        what: "the current of a junction is beyond all sense, and nothing limits it",
        got: `a junction that may see ${shown(v)} V`,
        fix: "sources or wires with a resistance, lower voltages, or a law that rises more slowly",
      };
    }
  }
  return undefined;
}
