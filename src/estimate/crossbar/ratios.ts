/** Where a crossbar's closed forms hold, and what a solve makes of them where they don't. */
import { TenfoldError } from "../../errors/problem.ts";
import { CLOSED, RATIO } from "../../models/crossbar/closed/corrected.ts";
import type { SchemePair } from "../../models/crossbar/contract.ts";
import type { SelectorKind } from "../../models/selector/bias.ts";
import type { Parameter } from "../../quantities/parameter.ts";
import { closedBound } from "./bound.ts";
import { crossbarSolve, SOLVED_NAMES, solveInputs } from "./procedure.ts";
import type { Work } from "./solve.ts";

/** How the far corner's quantities were found. */
export interface CornerFinding {
  /** Share of the voltage that the lines take by the closed forms, the larger of read and write. */
  readonly drop: number;
  readonly by: "closed forms" | "network solve";
  /** Solve over closed form of each output; empty where the closed forms are used. */
  readonly ratios: readonly Parameter[];
  readonly work: Work;
  /** Why the network was not solved although it should have been. */
  readonly failure?: string;
}

/** The quantities that a finding needs of a program. */
export function findingNames(kind: SelectorKind): readonly string[] {
  return [...solveInputs(kind), ...SOLVED_NAMES.map((name) => CLOSED + name)];
}

/** Share of the voltage that the lines take. */
export function dropOf(values: ReadonlyMap<string, number>): number {
  const share = (at: string) =>
    values.get(`${CLOSED}${at}_line_drop`)! / values.get(`array_${at}_voltage`)!;
  return Math.max(share("read"), share("write"));
}

/**
 * Whether the closed forms may be used at all: floating lines share the voltage by all data of the
 * tile, and diodes that the one-third scheme turns round carry nothing; both are solved.
 */
export function hasClosedForm(kind: SelectorKind, { read, write }: SchemePair): boolean {
  const schemes = [read, write];
  if (schemes.includes("floating")) return false;
  return kind !== "diode" || !schemes.includes("one-third");
}

const known = new Map<string, CornerFinding>();
const MOST_KEPT = 256;

/**
 * Decides by the nominal figures whether closed forms do, and solves the network where not.
 *
 * @param values the quantities of `findingNames`, in SI
 */
export function cornerFinding(
  kind: SelectorKind,
  schemes: SchemePair,
  values: ReadonlyMap<string, number>,
): CornerFinding {
  const drop = dropOf(values);
  const work: Work = { solves: 0, linearSolves: 0 };
  if (hasClosedForm(kind, schemes) && drop <= closedBound(schemes).upTo) {
    return { drop, by: "closed forms", ratios: [], work };
  }
  const inputs = Float64Array.from(solveInputs(kind), (name) => values.get(name)!);
  const key = JSON.stringify([kind, schemes, [...inputs]]);
  const before = known.get(key);
  if (before !== undefined) return before;
  const outputs = new Float64Array(SOLVED_NAMES.length);
  let found: CornerFinding;
  try {
    crossbarSolve(kind, schemes, work).run(inputs, outputs);
    const ratios = SOLVED_NAMES.map((name, k) =>
      ratioParameter(name, outputs[k]!, values.get(CLOSED + name)!),
    );
    found = { drop, by: "network solve", ratios, work };
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    const failure = error.problems[0]!.what;
    found = { drop, by: "closed forms", ratios: [], work, failure };
  }
  if (known.size >= MOST_KEPT) known.delete(known.keys().next().value!);
  known.set(key, found);
  return found;
}

function ratioParameter(name: string, solved: number, closed: number): Parameter {
  const ratio = solved / closed;
  const value = closed !== 0 && Number.isFinite(ratio) ? ratio : 1;
  return {
    name: RATIO + name,
    unit: "1",
    value,
    low: value,
    high: value,
    distribution: "exact",
    source: "this project",
    basis: "derived",
    note: "network solve (crossbar_solve) over closed form, at the nominal parameters",
    key: `solve/${name}/${value}`,
  };
}
