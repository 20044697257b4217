import type { Catalogue, Entry } from "../../catalogue/index.ts";
import { refuse, TenfoldError } from "../../errors/problem.ts";
import { conditionsOf } from "../../estimate/conditions.ts";
import { macroModelOf } from "../../estimate/crossbar/auto.ts";
import type { Parser } from "../../formulas/expand.ts";
import type { Design, Study } from "../../schema/study.ts";
import { type Measured, measuredOf, type Nominal } from "./measured.ts";
import type { ComparedQuantity, EvidencePlan, PlannedChip, PlannedFigure, Region } from "./plan.ts";

/** One figure of one chip beside what its study predicts, both in SI. */
export interface Compared {
  readonly chip: string;
  readonly kind: string;
  readonly quantity: ComparedQuantity;
  /** Of areas and shares of areas. */
  readonly region?: Region;
  readonly predicted: number;
  readonly measured: number;
  /** Predicted over measured. */
  readonly ratio: number;
  /** Whether the measured value was recalled: it weighs half. */
  readonly recalled: boolean;
  readonly capacity: number;
  /** What the measured figure is, as the chip's file says it. */
  readonly remark?: string;
  readonly why?: string;
}

/** A chip whose design does not work with the defaults: it has no prediction. */
export interface Unpredicted {
  readonly chip: string;
  readonly reason: string;
}

export interface ComparedChip {
  readonly plan: PlannedChip;
  readonly figures: readonly Compared[];
  readonly unpredicted?: Unpredicted;
}

/** The design of a chip's study that is compared, where it has several. */
const DESIGN = "chip";

/**
 * The design of a chip's study that is compared: its only one, or the one with the name `chip`.
 * @throws TenfoldError `unknown-design`
 */
function comparedDesign(name: string, study: Study): string {
  const names = Object.keys(study.designs);
  if (names.includes(DESIGN)) return DESIGN;
  if (names.length === 1) return names[0]!;
  return refuse({
    code: "unknown-design",
    what: `the study of ${name} has several designs`,
    place: study.place("/designs"),
    path: "/designs",
    got: names.join(", "),
    expected: `one design, or one with the name \`${DESIGN}\``,
  });
}

/** All that one comparison needs. */
export interface ChipMatter {
  /** Published figures. */
  readonly entry: Entry;
  /** What the paper states of organisation, device, process and voltages. */
  readonly study: Study;
  readonly catalogue: Catalogue;
}

/** Predicts one chip at the nominal parameters of its study and compares what the plan names. */
export function compareChip(
  chip: PlannedChip,
  { entry, study, catalogue }: ChipMatter,
  parse: Parser,
  place: EvidencePlan["place"],
): ComparedChip {
  const design = comparedDesign(chip.name, study);
  const model = macroModelOf(study, design, catalogue, parse);
  const values = model.nominal();
  const nominal: Nominal = (name) => values.get(name)!;
  // What can't be compared is a mistake also where the design does not work.
  const published = chip.compared.map((planned) =>
    at(place, `/chips/${chip.name}/compared/${planned.quantity}`, () => {
      checkRegion(chip, planned, study.designs[design]!);
      return measuredOf(entry, planned.figure, nominal);
    }),
  );
  const failing = conditionsOf(model.program).find(({ quantity }) => !(values.get(quantity)! > 0));
  if (failing !== undefined) {
    const unpredicted = { chip: chip.name, reason: failing.fails };
    return { plan: chip, figures: [], unpredicted };
  }
  const figures = chip.compared.map((planned, i) => row(chip, planned, published[i]!, values));
  return { plan: chip, figures };
}

/** Quantities that are of a region of the chip. */
const OF_REGION: ReadonlySet<ComparedQuantity> = new Set(["macro_area", "array_efficiency"]);

/** A whole die is what the study's `die:` adds to a macro: like is compared with like. */
function checkRegion({ name }: PlannedChip, { quantity, region }: PlannedFigure, design: Design) {
  if (!OF_REGION.has(quantity)) return;
  const isDie = design.die !== undefined;
  if (isDie === (region === "die")) return;
  refuse({
    code: "conflicting-keys",
    what: isDie
      ? `the study of ${name} is of a whole die, and is compared with the ${region}`
      : `${name} is compared with a whole die, and its study is of a macro`,
    expected: isDie ? "`of: die`" : "`die: {pads: auto}` in the design of the study",
  });
}

function row(
  { name, kind, why }: PlannedChip,
  { quantity, region }: PlannedFigure,
  { value, recalled, remark }: Measured,
  values: ReadonlyMap<string, number>,
): Compared {
  const predicted = predictedOf(quantity, region, values);
  const reason = why[quantity];
  return {
    chip: name,
    kind,
    quantity,
    ...(OF_REGION.has(quantity) && { region }),
    predicted,
    measured: value,
    ratio: predicted / value,
    recalled,
    capacity: values.get("capacity")!,
    ...(remark !== undefined && { remark }),
    ...(reason !== undefined && { why: reason }),
  };
}

function predictedOf(
  quantity: ComparedQuantity,
  region: Region,
  values: ReadonlyMap<string, number>,
): number {
  const of: Nominal = (name) => values.get(name)!;
  switch (quantity) {
    case "macro_area":
      return areaOf(region, of);
    case "array_efficiency":
      // As papers count it: stored bits only, without spares and check bits. The area of a cell
      // is its share of the stack already.
      return (of("capacity") * of("cell_area")) / areaOf(region, of);
    case "cell_area":
      // As papers count it: what a cell takes in its own deck.
      return of("cell_area") * (values.get("decks") ?? 1);
    case "sensing_time":
      // From a column that is let go to a decided bit, as energies and verify reads count it.
      return of("bit_line_delay") + of("sense_delay");
    default:
      return of(quantity);
  }
}

/** Of a study that states a die, the macro is the die. */
function areaOf(region: Region, of: Nominal): number {
  return region === "array" ? of("tiles") * of("tile_area") : of("macro_area");
}

/** Gives what is wrong with a figure the place of the plan that asks for it. */
function at<T>(place: EvidencePlan["place"], path: string, run: () => T): T {
  try {
    return run();
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    throw new TenfoldError(error.problems.map((one) => ({ path, place: place(path), ...one })));
  }
}
