/** Files of crossbar cases, YAML or JSON: one case, or many under `cases`. */
import { type Problem, TenfoldError } from "../../errors/problem.ts";
import type { CrossbarSolution } from "../../numerics/crossbar/problem.ts";
import { solveCrossbar } from "../../numerics/crossbar/solve.ts";
import { placeIn } from "../../schema/locate.ts";
import { type LocatedTree, locatedTree, plainValue } from "../../schema/yaml/tree.ts";
import { type Outputs, outputsOf } from "./answer.ts";
import { type CrossbarCase, readCase } from "./case.ts";
import { fieldsOf, listAt, onlyKeys, shown } from "./fields.ts";
import { refuseHopeless } from "./hopeless.ts";

/** One case of a file: solved, or what is wrong with it. */
export type Answer =
  | {
      readonly id: string;
      readonly case: CrossbarCase;
      readonly solution: CrossbarSolution;
      readonly outputs: Outputs;
    }
  | { readonly id: string; readonly error: TenfoldError };

export interface SolvedFile {
  /** True when the file holds a list of cases. */
  readonly many: boolean;
  readonly answers: readonly Answer[];
}

const FILE_KEYS = ["format", "units", "note", "title", "cases"];

/** Solves one case; a result that did not converge is a failure, never an answer. */
export function solveCase(value: unknown, at: string, name: string): Answer {
  const theCase = readCase(value, at, name);
  const solution = within(at, () => solveCrossbar(theCase.problem));
  if (!solution.converged) {
    refuseHopeless(theCase.id, theCase.problem, at);
    const problem: Problem = {
      code: "not-converged",
      what: `${theCase.id}: no solution after ${solution.linearSolves} linear solves`,
      path: at,
      got: `a Kirchhoff error of ${solution.residual.toExponential(1)}`,
      expected: "at most 1e-10",
    };
    throw new TenfoldError(problem, 3);
  }
  return { id: theCase.id, case: theCase, solution, outputs: outputsOf(theCase, solution) };
}

/** What the solver refuses knows no file: it is the case's. */
function within<T>(at: string, solve: () => T): T {
  try {
    return solve();
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    throw new TenfoldError(
      error.problems.map((one) => ({ path: at, ...one })),
      error.exitCode,
    );
  }
}

/** Gives the problems of an error their places in the file. */
function placed(error: TenfoldError, tree: LocatedTree): TenfoldError {
  const problems = error.problems.map((problem) =>
    problem.path === undefined || problem.place !== undefined
      ? problem
      : { ...problem, place: placeIn(tree, problem.path) },
  );
  return new TenfoldError(problems, error.exitCode);
}

function attempt(work: () => Answer, id: string, tree: LocatedTree): Answer {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    return { id, error: placed(error, tree) };
  }
}

function nameOf(value: unknown, index: number): string {
  const id = (value as { id?: unknown } | null)?.id;
  return id === undefined || id === null ? String(index) : String(id);
}

/**
 * Solves a file's text. In a file of many cases one that is refused stands beside the others; a file of one case is
 * refused as a whole.
 * @throws TenfoldError with places in the file
 */
export function solveFile(text: string, file: string): SolvedFile {
  const tree = locatedTree(text, file);
  if (tree.problems.length > 0) throw new TenfoldError(tree.problems);
  const value = plainValue(tree.root) as Record<string, unknown>;
  if (!("cases" in value)) {
    const answer = attempt(() => solveCase(value, "", "case"), "case", tree);
    if ("error" in answer) throw answer.error;
    return { many: false, answers: [answer] };
  }
  try {
    const whole = fieldsOf(value, "");
    onlyKeys(whole, FILE_KEYS);
    const cases = listAt(whole, "cases");
    const names = cases.map(nameOf);
    const twice = names.findIndex((name, k) => names.indexOf(name) !== k);
    if (twice >= 0) {
      throw new TenfoldError({
        code: "duplicate-case",
        what: `two cases have the id ${shown(names[twice])}`,
        path: `/cases/${twice}/id`,
      });
    }
    const answers = cases.map((one, k) =>
      attempt(() => solveCase(one, `/cases/${k}`, names[k]!), names[k]!, tree),
    );
    return { many: true, answers };
  } catch (error) {
    throw error instanceof TenfoldError ? placed(error, tree) : error;
  }
}

/** What `solve --format json` prints: outputs by name, or case id to outputs. */
export function answerData(solved: SolvedFile): unknown {
  const one = (answer: Answer): unknown => {
    if (!("error" in answer)) return answer.outputs;
    const [problem] = answer.error.problems;
    return { refused: `${problem!.code}: ${problem!.what}` };
  };
  if (!solved.many) return one(solved.answers[0]!);
  return Object.fromEntries(solved.answers.map((answer) => [answer.id, one(answer)]));
}
