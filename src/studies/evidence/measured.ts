import type { Entry } from "../../catalogue/index.ts";
import { refuse } from "../../errors/problem.ts";
import { pow } from "../../numerics/special/elementary.ts";
import type { ComparedFigure } from "./plan.ts";

/** A published figure as the quantity that it stands for, in SI. */
export interface Measured {
  readonly value: number;
  /** Whether any of its figures was recalled and not read. */
  readonly recalled: boolean;
  /** What the figure is, as the chip's file says it. */
  readonly remark?: string;
}

/** Nominal quantities of the chip's study. */
export type Nominal = (name: string) => number;

interface Derivation {
  readonly from: readonly string[];
  of(figure: (name: string) => number, nominal: Nominal): number;
}

/** Figures that follow from others of the chip by arithmetic alone. */
const DERIVED: Readonly<Partial<Record<ComparedFigure, Derivation>>> = {
  density: { from: ["density"], of: (of, nominal) => nominal("capacity") / of("density") },
  cell_area_in_feature_squared: {
    from: ["cell_area_in_feature_squared"],
    of: (of) => of("cell_area_in_feature_squared") * pow(of("node"), 2),
  },
  cell_area_to_sram_6t: {
    from: ["cell_area_to_sram_6t"],
    of: (of, nominal) => of("cell_area_to_sram_6t") * nominal("sram_6t_cell_area"),
  },
  word_over_write_bandwidth: {
    from: ["write_bandwidth"],
    of: (of, nominal) => nominal("word") / of("write_bandwidth"),
  },
  energy_per_access: {
    from: ["energy_per_access"],
    of: (of, nominal) => of("energy_per_access") / nominal("word"),
  },
  read_current_over_clock: {
    from: ["read_current", "clock"],
    of: (of, nominal) => (of("read_current") * nominal("supply")) / of("clock") / nominal("word"),
  },
};

/**
 * A figure of a chip, or what follows from its figures.
 * @throws TenfoldError `missing-key` where the chip's file does not have it
 */
export function measuredOf(entry: Entry, figure: ComparedFigure, nominal: Nominal): Measured {
  const { from, of } = figure === "cell_share" ? cellShare(entry) : derivation(figure);
  const value = of((name) => valueIn(entry, name), nominal);
  const remark = from.map((name) => entry.values[name]?.note).find((note) => note !== undefined);
  return {
    value,
    recalled: from.some((name) => entry.values[name]?.basis === "memory"),
    ...(remark !== undefined && { remark }),
  };
}

function derivation(figure: ComparedFigure): Derivation {
  return DERIVED[figure] ?? { from: [figure], of: (of) => of(figure) };
}

/** Capacity times cell area over the area; decks lie above each other, so their cells share it. */
function cellShare(entry: Entry): Derivation {
  const { values, more } = entry;
  const inSquares = values["cell_area"] === undefined;
  const cellName = inSquares ? "cell_area_in_feature_squared" : "cell_area";
  const cell = (of: (name: string) => number) =>
    of(cellName) * (inSquares ? pow(of("node"), 2) : 1);
  if (values["density"] !== undefined) {
    return { from: ["density", cellName], of: (of) => of("density") * cell(of) };
  }
  const decks = Number((more["organisation"] as { decks?: number } | undefined)?.decks ?? 1);
  return {
    from: ["area", cellName],
    of: (of) => (of("capacity") * cell(of)) / (of("area") * decks),
  };
}

function valueIn(entry: Entry, name: string): number {
  const found = entry.values[name];
  if (found !== undefined) return found.value;
  return refuse({
    code: "missing-key",
    what: `the chip ${entry.name} has no \`${name}\` to compare with`,
    expected: `a figure under its \`values\`; it has ${Object.keys(entry.values).join(", ")}`,
    fix: `add \`${name}\` with its source to the file of the chip, or compare another figure`,
  });
}
