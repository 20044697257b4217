import type { Catalogue, ModelErrors } from "../../catalogue/index.ts";
import { conditionsOf } from "../../estimate/conditions.ts";
import type { ResolvedDesign } from "../../estimate/design.ts";
import type { MacroModel } from "../../estimate/model.ts";
import { REPORTED } from "../../estimate/quantities.ts";
import type { Parser } from "../../formulas/expand.ts";
import type { Study } from "../../schema/study.ts";
import type { UncertaintySection } from "../../schema/uncertainty.ts";
import { modelsOf } from "../estimate.ts";
import { refuseWord } from "../located.ts";
import { errorBasis, type Interval, memoryKind, modelInterval } from "../model-error.ts";
import { MacroUncertainty } from "./model.ts";
import { type PropagatedQuantity, propagateDistributions } from "./propagate.ts";
import { type Sensitivity, sensitivityOf } from "./sensitivity.ts";
import { answerTarget, correlationsFor, designOf, type TargetAnswer } from "./targets.ts";
import { type Tornado, tornadoes } from "./tornado.ts";

/** One quantity of one design, with what carries its uncertainty. */
export interface UncertainQuantity extends PropagatedQuantity {
  readonly label: string;
  readonly unit: string;
  /** At the nominal parameters. */
  readonly nominal: number;
  /** Where a measurement would lie, by the error that the models had on published silicon. */
  readonly model?: Interval;
  readonly tornado: Tornado;
  readonly sensitivity: Sensitivity;
}

export interface UncertainDesign {
  readonly name: string;
  readonly title: string;
  readonly design: ResolvedDesign;
  /** Empty where the design does not work at its nominal parameters. */
  readonly quantities: readonly UncertainQuantity[];
  readonly draws: number;
  readonly failed: number;
  /** Why there are no results, a sentence without full stop. */
  readonly broken?: string;
}

export interface StudyUncertainty {
  readonly study: Study;
  readonly settings: UncertaintySection;
  readonly designs: readonly UncertainDesign[];
  readonly targets: readonly TargetAnswer[];
  readonly errors: ModelErrors;
}

/** As an estimate has it: study, designs and why they have no figures. */
export function estimateLike({ study, errors, designs }: StudyUncertainty) {
  const likes = designs.map(({ design, title, broken }) => ({
    design,
    title,
    broken: broken === undefined ? [] : [{ fails: broken, fix: "" }],
  }));
  return { study, errors, designs: likes };
}

/** What of a study is asked for; everything unless said. */
export interface UncertaintyRequest {
  readonly design?: string | undefined;
  readonly quantity?: string | undefined;
  /** Told of each design's draws as they are taken: how many, and at most. */
  readonly onProgress?: (design: string, draws: number, most: number) => void;
}

/** Who asks for one quantity gets its indices with narrower intervals. */
const CLOSER = { count: 512, replicates: 16 };

/** The section `uncertainty:`, empty where the study has none. */
export function uncertaintySection(study: Study): UncertaintySection {
  return (study.uncertainty ?? {}) as UncertaintySection;
}

/**
 * Coverage intervals of the quantities of each design, what carries them, and the study's targets.
 *
 * @throws TenfoldError for names that do not exist, with their places
 */
export function uncertaintyOfStudy(
  study: Study,
  catalogue: Catalogue,
  parse: Parser,
  request: UncertaintyRequest = {},
): StudyUncertainty {
  const settings = uncertaintySection(study);
  const models = modelsOf(study, catalogue, parse);
  const chosen =
    request.design === undefined ? models : [designOf(study, models, request.design, undefined)];
  checkCorrelations(study, models, settings);
  const names =
    request.quantity === undefined
      ? (settings.quantities ?? REPORTED.map(({ name }) => name))
      : [request.quantity];
  const errors = catalogue.modelErrors();
  const designs = chosen.map((model) =>
    uncertainDesign(study, model, names, settings, errors, request.onProgress),
  );
  const targets = (settings.targets ?? []).map((target, i) =>
    answerTarget(study, models, target, `/uncertainty/targets/${i}`, settings),
  );
  return { study, settings, designs, targets, errors };
}

/** A name of a correlation must be an uncertain parameter of some design. */
function checkCorrelations(
  study: Study,
  models: readonly MacroModel[],
  settings: UncertaintySection,
) {
  const all = models.flatMap(({ parameters }) => parameters);
  correlationsFor(study, all, settings, true);
}

function uncertainDesign(
  study: Study,
  model: MacroModel,
  names: readonly string[],
  settings: UncertaintySection,
  errors: ModelErrors,
  onProgress: UncertaintyRequest["onProgress"],
): UncertainDesign {
  const { design } = model;
  const { name, title } = design;
  for (const [i, quantity] of names.entries()) {
    if (model.program.quantities.has(quantity)) continue;
    const known = [...model.program.quantities.keys()];
    const path = settings.quantities?.[i] === quantity ? `/uncertainty/quantities/${i}` : undefined;
    refuseWord(study, path, `\`${name}\` has no quantity \`${quantity}\``, quantity, known);
  }
  const values = model.nominal();
  const broken = conditionsOf(model.program).find(({ quantity }) => !(values.get(quantity)! > 0));
  if (broken !== undefined) {
    return { name, title, design, quantities: [], draws: 0, failed: 1, broken: broken.fails };
  }
  const all = new MacroUncertainty(names.map((quantity) => ({ model, quantity, name: quantity })));
  const correlations = correlationsFor(study, all.parameters, settings, false);
  const { seed, coverage } = study;
  const spread = propagateDistributions(all, {
    seed,
    coverage,
    correlations,
    ...(settings.sampling && { sampling: settings.sampling }),
    ...(settings.interval && { interval: settings.interval }),
    ...(settings.digits && { digits: settings.digits }),
    ...(settings.most_draws && { most: settings.most_draws }),
    scale: settings.scale ?? "logarithmic",
    ...(onProgress && { onProgress: (draws, most) => onProgress(name, draws, most) }),
  });
  const swings = tornadoes(all);
  const quantities = spread.quantities.map((one, k): UncertainQuantity => {
    const single = new MacroUncertainty([{ model, quantity: one.name, name: one.name }]);
    const sensitivity = sensitivityOf(single, swings[k]!.swings, {
      seed,
      correlations: correlationsFor(study, single.parameters, settings, false),
      ...(settings.shown && { shown: settings.shown }),
      scale: one.scale,
      ...(names.length === 1 && CLOSER),
    });
    const { unit, meaning } = model.program.quantities.get(one.name)!;
    const label = REPORTED.find((known) => known.name === one.name)?.label ?? meaning;
    const nominal = values.get(one.name)!;
    const basis = errorBasis(errors, one.name, memoryKind(design), coverage);
    return {
      ...one,
      label,
      unit,
      nominal,
      ...(basis && { model: modelInterval(nominal, one.name, basis) }),
      tornado: swings[k]!,
      sensitivity,
    };
  });
  return { name, title, design, quantities, draws: spread.draws, failed: spread.failed };
}
