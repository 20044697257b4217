import {
  COMPARED,
  RELIABILITY,
  REPORTED,
  REPORTED_WHERE,
  type ReportedQuantity,
} from "../estimate/quantities.ts";
import type { EstimatedDesign, StudyEstimate } from "./estimate.ts";
import { type EstimatedFigure, figureOf, paired } from "./figures.ts";
import {
  type ErrorBasis,
  errorBasis,
  type Interval,
  memoryKind,
  modelInterval,
  ratioInterval,
} from "./model-error.ts";

/** One quantity over all designs, with each design's ratio to the baseline. */
export interface ComparedQuantity extends ReportedQuantity {
  /** By design, in the order of the study; undefined where the design has no such figure. */
  readonly figures: readonly (ComparedFigure | undefined)[];
}

export interface ComparedFigure extends EstimatedFigure {
  /** Where a measurement would lie, by the error that the models had on published silicon. */
  readonly model?: Interval;
  readonly ratio?: EstimatedFigure & { readonly model?: Interval };
}

/** Quantities of which a ratio to the baseline says nothing. */
const WITHOUT_RATIO = new Set([
  "array_efficiency",
  "switches",
  "transistors_saved",
  "transistors_saved_per_switch",
]);

/** The designs side by side: REPORTED and COMPARED quantities, with paired ratios to the baseline. */
export function compareDesigns(estimate: StudyEstimate): readonly ComparedQuantity[] {
  const { designs, baseline, study } = estimate;
  const reported = REPORTED.map((quantity) => ({
    ...quantity,
    figures: designs.map((design) => compared(estimate, design, quantity.name)),
  }));
  const saved = COMPARED.map((quantity) => ({
    ...quantity,
    figures: designs.map((design) => savedFigure(design, quantity.name, baseline, study.coverage)),
  }));
  const crossbars = [...REPORTED_WHERE, ...RELIABILITY]
    .map((quantity) => ({
      ...quantity,
      figures: designs.map(({ figures }) => figures.get(quantity.name)),
    }))
    .filter(({ figures }) => figures.some((figure) => figure !== undefined));
  return [...reported, ...(baseline === undefined ? [] : saved), ...crossbars];
}

/** What the model interval of a quantity of a design rests on; undefined where no evidence gives it. */
export function basisOf(
  { errors = {}, study }: Pick<StudyEstimate, "errors" | "study">,
  { design }: Pick<EstimatedDesign, "design">,
  name: string,
): ErrorBasis | undefined {
  return errorBasis(errors, name, memoryKind(design), study.coverage);
}

/** A quantity of a design, with its model interval where evidence gives one. */
export function figureWithModel(
  estimate: StudyEstimate,
  design: EstimatedDesign,
  name: string,
): ComparedFigure | undefined {
  const figure = design.figures.get(name);
  if (figure === undefined) return undefined;
  const basis = basisOf(estimate, design, name);
  return basis === undefined
    ? figure
    : { ...figure, model: modelInterval(figure.value, name, basis) };
}

function compared(
  estimate: StudyEstimate,
  design: EstimatedDesign,
  name: string,
): ComparedFigure | undefined {
  const { baseline, errors = {}, study } = estimate;
  const figure = figureWithModel(estimate, design, name);
  const reference = baseline?.figures.get(name);
  if (figure === undefined || baseline === undefined || reference === undefined) return figure;
  if (design === baseline || WITHOUT_RATIO.has(name) || reference.value === 0) return figure;
  const value = figure.value / reference.value;
  const [own, other] = [design, baseline].map((one) => basisOf(estimate, one, name));
  const model = own && other && ratioInterval(value, errors, name, [own, other], study.coverage);
  const draws = paired(
    design.samples.get(name)!,
    baseline.samples.get(name)!,
    (own, other) => own / other,
  );
  return {
    ...figure,
    ratio: { ...figureOf(value, draws, study.coverage), ...(model && { model }) },
  };
}

/** Transistors that the baseline has more, in all or for each switch. */
function savedFigure(
  design: EstimatedDesign,
  name: string,
  baseline: EstimatedDesign | undefined,
  coverage: number,
): EstimatedFigure | undefined {
  const switches = design.figures.get("switches")?.value ?? 0;
  const of = design.figures.get("transistors");
  const other = baseline?.figures.get("transistors");
  if (of === undefined || other === undefined || design === baseline) return undefined;
  const perSwitch = name === "transistors_saved_per_switch";
  if (perSwitch && !(switches > 0)) return undefined;
  const divisor = perSwitch ? switches : 1;
  const draws = paired(
    design.samples.get("transistors")!,
    baseline!.samples.get("transistors")!,
    (own, base) => (base - own) / divisor,
  );
  return figureOf((other.value - of.value) / divisor, draws, coverage);
}

/** The saved transistors of each design as further figures of `estimate --format json`. */
export function savedFigures(
  estimate: StudyEstimate,
  design: EstimatedDesign,
): ReadonlyMap<string, EstimatedFigure> {
  const found = COMPARED.map(
    ({ name }) =>
      [name, savedFigure(design, name, estimate.baseline, estimate.study.coverage)] as const,
  );
  return new Map(found.filter((one): one is [string, EstimatedFigure] => one[1] !== undefined));
}
