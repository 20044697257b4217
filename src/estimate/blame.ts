import { type Problem, refuse, TenfoldError } from "../errors/problem.ts";
import { type Broken, firstBroken, type Mend } from "../formulas/culprit.ts";
import type { Program } from "../formulas/program.ts";
import { formatQuantity } from "../quantities/format.ts";
import type { Parameter } from "../quantities/parameter.ts";
import type { ResolvedDesign } from "./design.ts";

/** What was asked of a program: its outputs, and the values of its inputs in SI. */
export interface Asked {
  readonly program: Program;
  readonly outputs: readonly string[];
  readonly inputs: ReadonlyMap<string, number>;
}

/**
 * Runs a computation at the nominal figures of a design. Where it gives no finite number, the value of the study is
 * refused that has to change least, in powers of ten, for it to give one.
 *
 * @param asked what the computation is of
 * @throws TenfoldError `out-of-range` with the place in the study; what `run` throws where the study states nothing of
 *   what the result hangs on, since then the fault is not the user's
 */
export function blaming<T>(design: ResolvedDesign, asked: () => Asked, run: () => T): T {
  try {
    return run();
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    if (error.problems.every(({ place }) => place !== undefined)) throw error;
    const { program, outputs, inputs } = asked();
    const broken = firstBroken(program, outputs, inputs);
    if (broken === undefined) throw error;
    return refuseStated(design, broken, error);
  }
}

/**
 * Makes a design's program. What its models need and neither study nor catalogue gives is missing in its cell.
 *
 * @throws TenfoldError with the place of the cell
 */
export function assembling<T>({ locate }: ResolvedDesign, run: () => T): T {
  try {
    return run();
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    throw new TenfoldError(error.problems.map((one) => ({ ...locate("cell"), ...one })));
  }
}

interface Suspect {
  readonly parameter: Parameter;
  readonly where: Pick<Problem, "path" | "place">;
}

function refuseStated(design: ResolvedDesign, broken: Broken, error: TenfoldError): never {
  const suspects = broken.inputs.flatMap((name): Suspect[] => {
    const parameter = design.parameters.get(name);
    const where = parameter && design.stated(parameter);
    return parameter === undefined || where === undefined ? [] : [{ parameter, where }];
  });
  if (suspects.length === 0) throw error;
  const mends = suspects
    .map((suspect) => ({ suspect, mend: mendOf(broken, suspect.parameter) }))
    .filter((one): one is { suspect: Suspect; mend: Mend } => one.mend !== undefined)
    .sort((a, b) => a.mend.decades - b.mend.decades);
  const [nearest] = mends;
  const why = `${broken.quantity} can't be computed: ${broken.how}`;
  if (nearest === undefined) {
    const stated = suspects.map(({ parameter }) => written(parameter)).join(", ");
    return refuse({
      code: "out-of-range",
      what: `${design.name}: with the values that the study states, ${why}`,
      ...design.locate("cell"),
      got: stated,
      fix: `several of these are far from what is usual: ${stated}`,
    });
  }
  const { parameter, where } = nearest.suspect;
  return refuse({
    code: "out-of-range",
    what: `with this ${parameter.name}, ${why}`,
    ...where,
    got: written(parameter),
    fix: `at ${formatQuantity({ value: nearest.mend.value }, parameter.unit)} it could be`,
  });
}

/** Choices of the organisation are counted: they have no half, and no less than one. */
function mendOf(broken: Broken, { name, key }: Parameter): Mend | undefined {
  const counted = (value: number) => Number.isInteger(value) && value >= 1;
  return broken.mend(name, key.startsWith("choice/") ? counted : () => true);
}

function written({ name, value, unit }: Parameter): string {
  return `${name} = ${formatQuantity({ value }, unit)}`;
}
