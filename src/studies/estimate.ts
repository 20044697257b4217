import type { Catalogue, ModelErrors } from "../catalogue/index.ts";
import { TenfoldError } from "../errors/problem.ts";
import { type Condition, conditionsOf } from "../estimate/conditions.ts";
import { macroModelOf } from "../estimate/crossbar/auto.ts";
import { cornerRemarks } from "../estimate/crossbar/remark.ts";
import type { ResolvedDesign } from "../estimate/design.ts";
import { Draws } from "../estimate/draws.ts";
import type { MacroModel } from "../estimate/model.ts";
import { reportedOf } from "../estimate/quantities.ts";
import { gapsText } from "../estimate/reliability.ts";
import type { Parser } from "../formulas/expand.ts";
import type { Study } from "../schema/study.ts";
import { type AgedErrors, agedErrors, agingNames, decidingLevels } from "./aging.ts";
import { type EstimatedFigure, figureOf } from "./figures.ts";
import { type DesignFixes, fixesOfStudy, hasGoals } from "./fixes/fixes.ts";
import { type WorkingSamples, workingSamples } from "./working.ts";

/** One line of a breakdown, in the unit of its total. */
export interface Share {
  readonly part: string;
  readonly value: number;
}

export interface Remark {
  readonly level: "note" | "caution" | "warning";
  readonly text: string;
}

/** What keeps a design from working, and what may help. */
export type Obstacle = Pick<Condition, "fails" | "fix">;

/** One design with its figures, or with the reasons why it has none. */
export interface EstimatedDesign {
  readonly name: string;
  readonly title: string;
  readonly design: ResolvedDesign;
  readonly model: MacroModel;
  /** All quantities of the program at the nominal parameters. */
  readonly nominal: ReadonlyMap<string, number>;
  /** The reported quantities; empty where the design cannot work. */
  readonly figures: ReadonlyMap<string, EstimatedFigure>;
  /** Errors as time goes by, where the study says enough; empty where it cannot work. */
  readonly aging: readonly AgedErrors[];
  /** Draws of the reported quantities, NaN where the design does not work. */
  readonly samples: ReadonlyMap<string, Float64Array>;
  /** The parts of each total, by its name, at the nominal parameters; empty where it cannot work. */
  readonly breakdown: ReadonlyMap<string, readonly Share[]>;
  /** What keeps it from working, at the nominal parameters or in every draw of them. */
  readonly broken: readonly Obstacle[];
  readonly remarks: readonly Remark[];
}

export interface StudyEstimate {
  readonly study: Study;
  readonly designs: readonly EstimatedDesign[];
  readonly baseline?: EstimatedDesign;
  /** What it takes to meet the goals of `reliability:`, where there are any. */
  readonly fixes?: readonly DesignFixes[];
  /** How far the models were from published silicon; without it nothing is said of it. */
  readonly errors?: ModelErrors;
}

/**
 * Estimates every design of a study. Designs share the draws of what they share.
 *
 * @param study from `readStudy`
 * @param catalogue with the study's own entries
 * @param parse text to tree, see `formulas`
 * @throws TenfoldError with the problems of all designs
 */
export function estimateStudy(study: Study, catalogue: Catalogue, parse: Parser): StudyEstimate {
  const models = modelsOf(study, catalogue, parse);
  const draws = new Draws(study.seed, study.samples);
  const designs = models.map((model) => estimateDesign(model, study.coverage, draws));
  const fixes = hasGoals(study) ? fixesOfStudy(study, catalogue, parse) : undefined;
  return { ...estimateOf(study, designs, catalogue.modelErrors()), ...(fixes && { fixes }) };
}

/**
 * The same without intervals, in a fraction of the time: each figure is its own only draw.
 *
 * @throws TenfoldError with the problems of all designs
 */
export function nominalStudy(study: Study, catalogue: Catalogue, parse: Parser): StudyEstimate {
  const models = modelsOf(study, catalogue, parse);
  const designs = models.map((model) => estimateDesign(model, study.coverage));
  return estimateOf(study, designs, catalogue.modelErrors());
}

/** A study's estimate from those of its designs. */
export function estimateOf(
  study: Study,
  designs: readonly EstimatedDesign[],
  errors: ModelErrors,
): StudyEstimate {
  const baseline = designs.find(({ name }) => name === study.baseline);
  return { study, designs, errors, ...(baseline && { baseline }) };
}

/** The study with the reliability of every design, also where it says nothing of it. */
export function withReliability(study: Study): Study {
  const designs = Object.entries(study.designs).map(([name, design]) => [
    name,
    { ...design, reliability: design.reliability ?? {} },
  ]);
  return { ...study, designs: Object.fromEntries(designs) };
}

/** The models of all designs; what is wrong with several designs is said at once. */
export function modelsOf(study: Study, catalogue: Catalogue, parse: Parser): MacroModel[] {
  const problems: TenfoldError["problems"][number][] = [];
  const models: MacroModel[] = [];
  for (const name of Object.keys(study.designs)) {
    try {
      models.push(macroModelOf(study, name, catalogue, parse));
    } catch (error) {
      if (!(error instanceof TenfoldError)) throw error;
      problems.push(...error.problems);
    }
  }
  if (problems.length > 0) throw new TenfoldError(problems);
  return models;
}

/** @param draws none: the nominal parameters are the only draw */
function estimateDesign(model: MacroModel, coverage: number, draws?: Draws): EstimatedDesign {
  const { design } = model;
  const conditions = conditionsOf(model.program);
  const nominal = model.nominal();
  const names = reportedOf(model.program).map(({ name }) => name);
  const sampled = [...names, ...agingNames(model.program)];
  const unmet = conditions.filter(({ quantity }) => !(nominal.get(quantity)! > 0));
  const drawn =
    unmet.length > 0
      ? NOTHING_DRAWN
      : draws === undefined
        ? nominalDraw(nominal, sampled)
        : workingSamples(model, draws, conditions, sampled);
  const { samples, failed, cause } = drawn;
  const broken = failed > 0 && failed === draws?.count ? [neverWorks(cause!)] : unmet;
  const works = broken.length === 0;
  return {
    name: design.name,
    title: design.title,
    design,
    model,
    nominal,
    samples,
    figures: new Map(
      works
        ? names.map((name) => [name, figureOf(nominal.get(name)!, samples.get(name)!, coverage)])
        : [],
    ),
    aging: works ? agedErrors(model.program, nominal, samples, coverage) : [],
    breakdown: new Map(
      (works ? model.totals : []).map((total) => [
        total.name,
        total.parts.map(({ part, quantity }) => ({ part, value: nominal.get(quantity)! })),
      ]),
    ),
    broken,
    remarks: [
      ...brokenRemarks(broken),
      ...(works && draws !== undefined ? shareRemark(drawn, draws.count, coverage) : []),
      ...largestRemark(design),
      ...gapRemark(design),
      ...(works ? levelRemark(nominal) : []),
      ...(works ? cornerRemarks(model) : []),
      ...design.cautions.map((text) => ({ level: "caution", text }) as const),
      ...model.unread.map(
        (name) => ({ level: "caution", text: `nothing reads its ${name}` }) as const,
      ),
    ],
  };
}

function largestRemark({ organised }: ResolvedDesign): Remark[] {
  const { largest } = organised;
  return largest === undefined ? [] : [{ level: "note", text: largest }];
}

function gapRemark({ reliability }: ResolvedDesign): Remark[] {
  const text = reliability && gapsText(reliability.gaps);
  return text === undefined ? [] : [{ level: "note", text }];
}

function levelRemark(nominal: ReadonlyMap<string, number>): Remark[] {
  const text = decidingLevels(nominal);
  return text === undefined ? [] : [{ level: "note", text }];
}

const NOTHING_DRAWN: WorkingSamples = { samples: new Map(), failed: 0 };

function nominalDraw(
  nominal: ReadonlyMap<string, number>,
  names: readonly string[],
): WorkingSamples {
  const samples = new Map(names.map((name) => [name, Float64Array.of(nominal.get(name)!)]));
  return { samples, failed: 0 };
}

function neverWorks(cause: string): Obstacle {
  return {
    fails: `${cause}, in every draw of its parameters`,
    fix: "narrower ranges, or another nominal value",
  };
}

function brokenRemarks(broken: readonly Obstacle[]): Remark[] {
  return broken.map(({ fails, fix }) => ({
    level: "warning",
    text: `does not work: ${fails}. What may help: ${fix}.`,
  }));
}

function shareRemark({ failed, cause }: WorkingSamples, count: number, coverage: number): Remark[] {
  if (failed === 0) return [];
  const percent = Math.max(1, Math.round((100 * failed) / count));
  const held = Math.round(100 * coverage);
  return [
    {
      level: "caution",
      text:
        `does not work in ${percent} % of the draws of its parameters; its ${held} % intervals are of the others. ` +
        `In most of those draws: ${cause}.`,
    },
  ];
}
