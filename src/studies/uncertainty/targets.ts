import { refuse } from "../../errors/problem.ts";
import type { MacroModel } from "../../estimate/model.ts";
import { evaluateExpression } from "../../formulas/expression.ts";
import type { Parameter } from "../../quantities/parameter.ts";
import type { Study } from "../../schema/study.ts";
import type { TargetStatement, UncertaintySection } from "../../schema/uncertainty.ts";
import { refuseWord, studyExpression } from "../located.ts";
import type { RankCorrelation } from "./correlation.ts";
import { type Asked, MacroUncertainty } from "./model.ts";
import { type TargetResult, whatMustImprove } from "./target.ts";
import { tornadoes } from "./tornado.ts";

/** What one target of the study needs. */
export interface TargetAnswer extends TargetResult {
  readonly design: string;
  readonly want: string;
  readonly confidence: number;
}

const CONFIDENCE = 0.95;
/** Parameters that are tried where the study names none: those that move the target's quantities most. */
const TRIED = 6;
const BASELINE = "baseline_";

/**
 * Answers one target of the section `uncertainty:`.
 *
 * @throws TenfoldError for unknown names and wrong dimensions, at their places
 */
export function answerTarget(
  study: Study,
  models: readonly MacroModel[],
  statement: TargetStatement,
  path: string,
  section: UncertaintySection,
): TargetAnswer {
  const model = designOf(study, models, statement.design, `${path}/design`);
  const baseline = models.find(({ design }) => design.name === study.baseline);
  const expression = studyExpression(
    study,
    `${path}/want`,
    statement.want,
    "condition",
    unitsOf(model, baseline),
  );
  const asked: Asked[] = [...expression.names.keys()].flatMap((name) => {
    const other = name.startsWith(BASELINE) ? baseline : undefined;
    if (other !== undefined) return [{ model: other, quantity: name.slice(BASELINE.length), name }];
    return model.program.quantities.has(name) ? [{ model, quantity: name, name }] : [];
  });
  const { change } = statement;
  const uncertain = new MacroUncertainty(asked, change ?? []);
  const candidates =
    change === undefined
      ? movers(uncertain)
      : change.map((name, i) => parameterOf(study, uncertain, name, `${path}/change/${i}`));
  const places = new Map(uncertain.quantities.map((name, k) => [name, k]));
  const confidence = statement.confidence?.value ?? CONFIDENCE;
  const result = whatMustImprove(
    uncertain,
    (columns, i) =>
      evaluateExpression(expression, (name) => columns[places.get(name) ?? -1]?.[i]) === true,
    candidates,
    {
      seed: study.seed,
      confidence,
      correlations: correlationsFor(study, uncertain.parameters, section, false),
      ...(section.sampling && { sampling: section.sampling }),
    },
  );
  return { design: model.design.name, want: statement.want, confidence, ...result };
}

/** The design that a section names, else the first that is not the baseline. */
export function designOf(
  study: Study,
  models: readonly MacroModel[],
  name: string | undefined,
  path: string | undefined,
): MacroModel {
  const names = models.map(({ design }) => design.name);
  const wanted = name ?? names.find((one) => one !== study.baseline) ?? names[0]!;
  const found = models.find(({ design }) => design.name === wanted);
  if (found !== undefined) return found;
  return refuseWord(
    study,
    path,
    `the study has no design \`${wanted}\``,
    wanted,
    names,
    "unknown-design",
  );
}

function unitsOf(model: MacroModel, baseline: MacroModel | undefined): Map<string, string> {
  const units = new Map<string, string>();
  for (const { name, unit } of model.program.quantities.values()) units.set(name, unit);
  for (const { name, unit } of baseline?.program.quantities.values() ?? []) {
    units.set(`${BASELINE}${name}`, unit);
  }
  return units;
}

function movers(uncertain: MacroUncertainty): Parameter[] {
  const first = tornadoes(uncertain).flatMap(({ swings }) => swings.slice(0, TRIED));
  return [...new Set(first.map(({ parameter }) => parameter))];
}

function parameterOf(
  study: Study,
  { parameters }: MacroUncertainty,
  name: string,
  path: string,
): Parameter {
  const found = parameters.find((one) => one.name === name);
  if (found !== undefined) return found;
  const known = parameters.map((one) => one.name);
  return refuseWord(study, path, `the target does not depend on \`${name}\``, name, known);
}

/**
 * The study's correlations as places among the parameters.
 *
 * @param strict whether a name that is none of the parameters is refused; else it is left out
 */
export function correlationsFor(
  study: Study,
  parameters: readonly Parameter[],
  section: UncertaintySection,
  strict: boolean,
): RankCorrelation[] {
  return (section.correlations ?? []).flatMap(({ between, rank }, i) => {
    const path = `/uncertainty/correlations/${i}/between`;
    if (between.length !== 2 || between[0] === between[1]) {
      refuse({
        code: "wrong-kind",
        what: "a correlation is between two parameters",
        path,
        place: study.place(path),
        expected: "a list of two different names",
      });
    }
    const [first, second] = between.map((name) => {
      const place = parameters.findIndex((one) => one.name === name);
      if (place >= 0 || !strict) return place;
      const known = parameters.map((one) => one.name);
      return refuseWord(
        study,
        path,
        `no design has an uncertain parameter \`${name}\``,
        name,
        known,
      );
    });
    return first! < 0 || second! < 0 ? [] : [{ first: first!, second: second!, rank: rank.value }];
  });
}
