import { type Problem, refuse, TenfoldError } from "../../errors/problem.ts";
import { exp, log } from "../../numerics/special/elementary.ts";
import { readAnyQuantity, readQuantity } from "../../quantities/quantity.ts";
import type { Study } from "../../schema/study.ts";
import type { RangeStatement, ValuesStatement } from "../../schema/varied.ts";
import { refuseWord } from "../located.ts";

/** One name that varies: a parameter by its name, or a place of the study. */
export interface Variable {
  readonly name: string;
  readonly kind: "parameter" | "setting";
  /** SI unit; of a setting only where all of its values are numbers. */
  readonly unit: string;
  /** In SI; empty for a setting that is no number. */
  readonly values: Float64Array;
  /** As they are laid into the study, for a setting. */
  readonly texts: readonly string[];
}

/** Variables that step together; axes are combined with each other, the first being the slowest. */
export interface Axis {
  readonly variables: readonly Variable[];
  readonly length: number;
}

/** Unit of each parameter that may vary by its name. */
export type UnitsOfParameters = ReadonlyMap<string, string>;

const MOST_VALUES = 1e7;

/** The axis of one entry of `vary:`. */
export function axisOf(
  study: Study,
  path: string,
  name: string,
  statement: ValuesStatement,
  units: UnitsOfParameters,
): Axis {
  const unit = unitOf(study, path, name, units);
  const variable = isRange(statement)
    ? rangeVariable(study, path, name, statement, unit)
    : listVariable(study, (i) => `${path}/${i}`, name, statement, unit);
  return { variables: [variable], length: lengthOf(variable) };
}

/** The axis of a list of points: all their names step together. */
export function pointsAxis(
  study: Study,
  path: string,
  points: readonly Readonly<Record<string, string>>[],
  units: UnitsOfParameters,
): Axis {
  const names = Object.keys(points[0] ?? {});
  for (const [i, point] of points.entries()) {
    const own = Object.keys(point);
    if (own.length === names.length && names.every((name) => name in point)) continue;
    refuse({
      code: "missing-key",
      what: "a point has other names than the first one",
      path: `${path}/${i}`,
      place: study.place(`${path}/${i}`),
      expected: names.join(", "),
    });
  }
  const variables = names.map((name) => {
    const unit = unitOf(study, `${path}/0/${name}`, name, units);
    const texts = points.map((point) => point[name]!);
    return listVariable(study, (i) => `${path}/${i}/${name}`, name, texts, unit);
  });
  return { variables, length: points.length };
}

function lengthOf({ kind, values, texts }: Variable): number {
  return kind === "parameter" ? values.length : texts.length;
}

function isRange(statement: ValuesStatement): statement is RangeStatement {
  return "from" in statement;
}

/** Undefined for a place of the study, whose unit its values say. */
function unitOf(
  study: Study,
  path: string,
  name: string,
  units: UnitsOfParameters,
): string | undefined {
  const unit = units.get(name);
  if (unit !== undefined || /[./]/.test(name)) return unit;
  return refuseWord(
    study,
    path,
    `no design has a parameter \`${name}\``,
    name,
    [...units.keys()],
    "unknown-symbol",
  );
}

function listVariable(
  study: Study,
  pathOf: (i: number) => string,
  name: string,
  texts: readonly string[],
  unit: string | undefined,
): Variable {
  if (texts.length === 0) {
    refuse({ code: "wrong-kind", what: `${name} has no values`, place: study.place(pathOf(0)) });
  }
  if (unit !== undefined) {
    const values = Float64Array.from(texts, (text, i) => read(study, pathOf(i), name, text, unit));
    return { name, kind: "parameter", unit, values, texts: [] };
  }
  return { name, kind: "setting", unit: "", values: new Float64Array(), texts };
}

function read(study: Study, path: string, name: string, text: string, unit: string): number {
  return withPlace(study, path, name, () => readQuantity(text, unit));
}

function withPlace<T>(study: Study, path: string, name: string, run: () => T): T {
  try {
    return run();
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    throw new TenfoldError(
      error.problems.map((one) => ({
        ...one,
        what: `${name}: ${one.what}`,
        path,
        place: study.place(path),
      })),
    );
  }
}

function rangeVariable(
  study: Study,
  path: string,
  name: string,
  statement: RangeStatement,
  unit: string | undefined,
): Variable {
  const asked =
    unit ??
    withPlace(study, `${path}/from`, name, () => readAnyQuantity(statement.from).unit.text || "1");
  const end = (key: "from" | "to" | "step"): number =>
    read(study, `${path}/${key}`, name, statement[key]!, asked);
  const [from, to] = [end("from"), end("to")];
  const bad = (key: string, what: string, more: Partial<Problem> = {}): never =>
    refuse({
      code: "out-of-range",
      what: `${name}: ${what}`,
      place: study.place(`${path}/${key}`),
      ...more,
    });
  const { step, points, spacing } = statement;
  if (step !== undefined && readAnyQuantity(step).unit.offset !== undefined) {
    bad("step", "a step is a difference of temperatures", { fix: "say it in K" });
  }
  const one = (step === undefined) !== (points === undefined);
  if (!one) bad("from", "a range has either `points` or `step`");
  if (spacing === "logarithmic" && !(from > 0 && to > 0)) {
    bad("from", "a logarithmic range lies above zero", { fix: "use `spacing: linear`" });
  }
  if (spacing === "logarithmic" && step !== undefined)
    bad("step", "a logarithmic range has `points`");
  const count = points ?? Math.floor((to - from) / end("step") + 1e-9) + 1;
  if (!(count >= 1 && count <= MOST_VALUES)) {
    bad("step", "the step leads nowhere, or makes too many values", {
      expected: `1 to ${MOST_VALUES} values`,
    });
  }
  const values = Float64Array.from({ length: count }, (_, i) =>
    step !== undefined ? from + i * end("step") : between(from, to, i / (count - 1), spacing),
  );
  if (unit !== undefined) return { name, kind: "parameter", unit, values, texts: [] };
  const suffix = asked === "1" ? "" : ` ${asked}`;
  const texts = Array.from(values, (value) => `${value}${suffix}`);
  return { name, kind: "setting", unit: asked, values, texts };
}

/** The ends are exact. */
function between(from: number, to: number, share: number, spacing = "linear"): number {
  if (share === 0 || share === 1) return share === 0 ? from : to;
  if (spacing === "linear") return from + share * (to - from);
  return exp(log(from) + share * (log(to) - log(from)));
}
