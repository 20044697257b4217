import type { Catalogue, Entry } from "../../catalogue/index.ts";
import { refuse } from "../../errors/problem.ts";
import { conditionsOf } from "../../estimate/conditions.ts";
import { macroModelOf } from "../../estimate/crossbar/auto.ts";
import type { Parser } from "../../formulas/expand.ts";
import type { Study } from "../../schema/study.ts";
import type { ComparedQuantity, PlannedChip } from "./plan.ts";

/** One figure of one chip beside what its study predicts, both in SI. */
export interface Compared {
  readonly chip: string;
  readonly kind: string;
  readonly quantity: ComparedQuantity;
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

/** Predicts one chip at the nominal parameters of its study and compares what the plan names. */
export function compareChip(
  plan: PlannedChip,
  study: Study,
  catalogue: Catalogue,
  parse: Parser,
): ComparedChip {
  const model = macroModelOf(study, "chip", catalogue, parse);
  const values = model.nominal();
  const failing = conditionsOf(model.program).find(({ quantity }) => !(values.get(quantity)! > 0));
  if (failing !== undefined) {
    return { plan, figures: [], unpredicted: { chip: plan.name, reason: failing.fails } };
  }
  const entry = catalogue.find("chip", plan.name);
  const predicted = (name: string) => values.get(name)!;
  const figures = plan.compared.map(([quantity, figure]): Compared => {
    const { value, recalled, note } = measuredOf(entry, figure, predicted);
    const ours =
      quantity === "array_efficiency"
        ? (predicted("capacity") * predicted("cell_area")) /
          (predicted("macro_area") * (values.get("decks") ?? 1))
        : predicted(quantity);
    const why = plan.why[quantity];
    return {
      chip: plan.name,
      kind: plan.kind,
      quantity,
      predicted: ours,
      measured: value,
      ratio: ours / value,
      recalled,
      capacity: predicted("capacity"),
      ...(note !== undefined && { remark: note }),
      ...(why !== undefined && { why }),
    };
  });
  return { plan, figures };
}

interface Measured {
  readonly value: number;
  readonly recalled: boolean;
  readonly note?: string | undefined;
}

/** A figure of the chip, or one that follows from its figures by arithmetic alone. */
function measuredOf(entry: Entry, figure: string, predicted: (name: string) => number): Measured {
  const derived = (names: readonly string[], value: number): Measured => ({
    value,
    recalled: names.some((name) => recalledIn(entry, name)),
    note: noteOf(entry, names[0]!),
  });
  const of = (name: string) => valueIn(entry, name);
  switch (figure) {
    case "density":
      return derived(["density"], predicted("capacity") / of("density"));
    case "cell_area_in_feature_squared":
      return derived([figure], of(figure) * of("node") ** 2);
    case "cell_area_to_sram_6t":
      return derived([figure], of(figure) * predicted("sram_6t_cell_area"));
    case "cell_share":
      return cellShare(entry, derived);
    default:
      return derived([figure], of(figure));
  }
}

function cellShare(
  entry: Entry,
  derived: (names: readonly string[], value: number) => Measured,
): Measured {
  const of = (name: string) => valueIn(entry, name);
  const [cellName, cell] =
    entry.values["cell_area"] === undefined
      ? ["cell_area_in_feature_squared", of("cell_area_in_feature_squared") * of("node") ** 2]
      : ["cell_area", of("cell_area")];
  if (entry.values["density"] !== undefined) {
    return derived(["density", cellName], of("density") * cell);
  }
  const decks = Number((entry.more["organisation"] as { decks?: number } | undefined)?.decks ?? 1);
  return derived(["area", cellName], (of("capacity") * cell) / (of("area") * decks));
}

function valueIn(entry: Entry, name: string): number {
  const found = entry.values[name];
  if (found !== undefined) return found.value;
  return refuse({
    code: "missing-key",
    what: `the chip ${entry.name} has no ${name} to compare with`,
    expected: Object.keys(entry.values).join(", "),
  });
}

const recalledIn = (entry: Entry, name: string): boolean => entry.values[name]?.basis === "memory";
const noteOf = (entry: Entry, name: string): string | undefined => entry.values[name]?.note;
