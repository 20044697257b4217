import { refuse } from "../../errors/problem.ts";
import { resolveDesign } from "../../estimate/design.ts";
import { Draws } from "../../estimate/draws.ts";
import { isOrganisation, ORGANISATION } from "../../estimate/layouts.ts";
import { MacroModel } from "../../estimate/model.ts";
import { REPORTED } from "../../estimate/quantities.ts";
import type { Parser } from "../../formulas/expand.ts";
import { type Expression, evaluateExpression } from "../../formulas/expression.ts";
import type { Study } from "../../schema/study.ts";
import type { SweepSection } from "../../schema/sweep.ts";
import { refuseWord, studyExpression } from "../located.ts";
import { type Axis, axisOf, pointsAxis, type UnitsOfParameters } from "./axes.ts";
import { checkSettings, type Families, familiesOf, type Reopen } from "./families.ts";

/** A column of the table that a sweep makes. */
export interface SweepColumn {
  readonly name: string;
  /** SI unit; empty for text and truth. */
  readonly unit: string;
  readonly type: "whole" | "number" | "text" | "truth";
  /** Every row has a value. */
  readonly always?: true;
}

/** A sweep with everything looked up: how many points it has, and what each row holds. */
export interface SweepPlan {
  readonly study: Study;
  readonly axes: readonly Axis[];
  /** Points: combinations of the axes. */
  readonly total: number;
  readonly designs: readonly string[];
  readonly quantities: readonly string[];
  readonly columns: readonly SweepColumn[];
  readonly conditions: readonly Expression[];
  /** Draws at each point for coverage intervals, and what share they hold. */
  readonly spread?: { readonly draws: Draws; readonly coverage: number };
  readonly families: Families;
}

const MOST_POINTS = 2 ** 40;

/** The section `sweep:` of a study. @throws TenfoldError `missing-key` */
export function sweepSection(study: Study): SweepSection {
  if (study.sweep !== undefined) return study.sweep as unknown as SweepSection;
  return refuse({
    code: "missing-key",
    what: "the study has no section `sweep`",
    place: study.place(""),
    fix: "add `sweep:` with `vary:` and the names that vary, such as `rows: [64, 128, 256]`",
  });
}

/**
 * Plans the sweep of a study.
 *
 * @param reopen gives the study with other settings
 * @throws TenfoldError with places, for names and values that can't be
 */
export function planSweep(reopen: Reopen, parse: Parser): SweepPlan {
  const { study, catalogue } = reopen([]);
  const section = sweepSection(study);
  const designs = designsOf(study, section.designs, "/sweep/designs");
  const models = new Map(
    designs.map((name) => [name, new MacroModel(resolveDesign(study, name, catalogue), parse)]),
  );
  const units = unitsOf([...models.values()]);
  const axes = axesOf(study, section, units);
  const variables = axes.flatMap((axis) => axis.variables);
  const total = axes.reduce((product, { length }) => product * length, 1);
  if (variables.length === 0 || total > MOST_POINTS) {
    refuse({
      code: variables.length === 0 ? "missing-key" : "too-large",
      what: variables.length === 0 ? "the sweep varies nothing" : `the sweep has ${total} points`,
      place: study.place("/sweep"),
      expected: "`vary` or `points` with at least one name, and fewer than 2^40 points",
    });
  }
  const varying = axes.filter((_, a) => section.points === undefined || a > 0);
  const settings = varying.flatMap((axis) => axis.variables);
  checkSettings(study, "/sweep/vary", settings, reopen, Object.keys(section.vary ?? {}));
  const quantities = quantitiesOf(study, section, [...models.values()]);
  const quantityUnits = new Map<string, string>();
  for (const { program } of models.values()) {
    for (const { name, unit } of program.quantities.values()) quantityUnits.set(name, unit);
  }
  const conditions = (section.where ?? []).map((text, i) => {
    const readable = new Map(quantities.map((name) => [name, quantityUnits.get(name)!]));
    for (const { name, kind, unit } of variables)
      if (kind === "parameter") readable.set(name, unit);
    return studyExpression(study, `/sweep/where/${i}`, text, "condition", readable);
  });
  const spread = section.samples !== undefined && {
    draws: new Draws(study.seed, section.samples),
    coverage: study.coverage,
  };
  const varied = variables.filter(({ kind }) => kind === "parameter").map(({ name }) => name);
  return {
    study,
    axes,
    total,
    designs,
    quantities,
    conditions,
    columns: [
      { name: "point", unit: "", type: "whole", always: true },
      { name: "design", unit: "", type: "text", always: true },
      ...variables.map(({ name, unit, kind }) => ({
        name,
        unit,
        type: kind === "setting" ? ("text" as const) : ("number" as const),
        always: true as const,
      })),
      { name: "works", unit: "", type: "truth", always: true },
      ...quantities.flatMap((name) => figureColumns(name, quantityUnits.get(name)!, spread)),
      ...(spread ? [{ name: "working_share", unit: "1", type: "number" as const }] : []),
      { name: "reason", unit: "", type: "text" },
    ],
    families: familiesOf(reopen, parse, { designs, varied, quantities }),
    ...(spread && { spread }),
  };
}

/** A quantity with the ends of its interval, where there are draws. */
function figureColumns(name: string, unit: string, spread: unknown): SweepColumn[] {
  const names = spread ? [name, `${name}_low`, `${name}_high`] : [name];
  return names.map((one) => ({ name: one, unit, type: "number" }));
}

/** Designs by name, all of the study unless said. */
export function designsOf(
  study: Study,
  wanted: readonly string[] | undefined,
  path: string,
): readonly string[] {
  const known = Object.keys(study.designs);
  for (const [i, name] of (wanted ?? []).entries()) {
    if (known.includes(name)) continue;
    const what = `the study has no design \`${name}\``;
    refuseWord(study, `${path}/${i}`, what, name, known, "unknown-design");
  }
  return wanted ?? known;
}

/** Every parameter that some model reads, and the organisation. */
export function unitsOf(models: readonly MacroModel[]): UnitsOfParameters {
  const units = new Map<string, string>(ORGANISATION.map((name) => [name, "1"]));
  for (const { parameters } of models) {
    for (const { name, unit } of parameters) if (!isOrganisation(name)) units.set(name, unit);
  }
  return units;
}

function axesOf(study: Study, section: SweepSection, units: UnitsOfParameters): Axis[] {
  const { points = [], vary = {} } = section;
  const first = points.length === 0 ? [] : [pointsAxis(study, "/sweep/points", points, units)];
  const axes = Object.entries(vary).map(([name, values]) =>
    axisOf(study, `/sweep/vary/${name.replaceAll("/", "~1")}`, name, values, units),
  );
  return [...first, ...axes];
}

function quantitiesOf(
  study: Study,
  section: SweepSection,
  models: readonly MacroModel[],
): readonly string[] {
  const known = new Set(models.flatMap(({ program }) => [...program.quantities.keys()]));
  for (const [i, name] of (section.quantities ?? []).entries()) {
    if (known.has(name)) continue;
    const path = `/sweep/quantities/${i}`;
    refuseWord(study, path, `no design has a quantity \`${name}\``, name, [...known]);
  }
  return section.quantities ?? REPORTED.map(({ name }) => name);
}

/** Whether a row meets all conditions; one whose quantities have no figure does not. */
export function meets(
  conditions: readonly Expression[],
  lookUp: (name: string) => number | undefined,
): boolean {
  return conditions.every((one) => {
    for (const name of one.names.keys()) if (Number.isNaN(lookUp(name) ?? 0)) return false;
    return evaluateExpression(one, lookUp) === true;
  });
}
