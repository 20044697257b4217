import {
  bankSpares,
  cellYield,
  defectYield,
  faultRepair,
  patternYield,
  repairablePatterns,
  rowPlacements,
  rowRepair,
  spareRows,
  stuckJunctions,
  triangleYield,
} from "../../../src/models/reliability/index.ts";
import { type Answer, type Case, firstWord, run, type Solver } from "./run.ts";

const LAWS: Record<string, string> = {
  poisson: "poisson_yield",
  poisson_loss: "poisson_loss",
  exponential_weighting: "exponential_weighted_yield",
  root_exponential: "root_exponential_yield",
  negative_binomial: "clustered_yield",
};

function models({ name, at }: Case): number {
  const law = firstWord(name);
  const x = { defect_count: at["AD"]! };
  if (law === "murphy") return run(triangleYield, x)["triangle_weighted_yield"]!;
  if (law === "murphy_loss") return run(triangleYield, x)["triangle_weighted_loss"]!;
  return run(defectYield, { ...x, clustering: at["alpha"] ?? 1 })[LAWS[law]!]!;
}

function cells({ name, at }: Case): number {
  const given = { cells: 2 ** 20, cell_fault: at["p"]!, repairable_cells: 3 };
  const names: Record<string, string> = {
    loss_no_repair: "any_cell_bad",
    yield_no_repair: "all_cells_good",
    loss_3_fixed: "cell_repair_loss",
  };
  return run(cellYield, given)[names[firstWord(name)]!]!;
}

/** "1/100" as it stands in the table. */
function fraction(text: unknown): number {
  const [top, bottom] = String(text).split("/").map(Number);
  return top! / (bottom ?? 1);
}

const known = new Map<string, number[]>();

function stuck({ name, at }: Case): Answer {
  const key = `${at["spare_rows"]} ${at["spare_columns"]}`;
  const counts =
    known.get(key) ?? repairablePatterns(4, 4, at["spare_rows"]!, at["spare_columns"]!);
  known.set(key, counts);
  if (name.startsWith("patterns")) {
    const last = counts.findLastIndex((count) => count > 0);
    return counts.slice(0, last + 1);
  }
  const result = patternYield(counts, fraction(at["p"]));
  return name.startsWith("loss") ? result.lost : result.yielded;
}

function placements({ name, at }: Case): number {
  const [k, spares] = [at["K"]!, at["spare_rows"]!];
  if (name.startsWith("good")) return Number(rowPlacements(8, 8, k, spares).good);
  return rowRepair(8, 8, k, spares).repaired;
}

function shortOpen({ name }: Case): number {
  const values = run(stuckJunctions, {
    rows: 16,
    columns: 16,
    short_fault: 1e-5,
    open_fault: 1e-4,
  });
  const answers: Record<string, number> = {
    cell_usable: 1 - values["junction_loss"]!,
    cell_loss: values["junction_loss"]!,
    expected_usable: values["usable_junctions"]!,
    all_usable: values["all_junctions_usable"]!,
  };
  return answers[name]!;
}

function rows({ name, at }: Case): number {
  const spares = { rows: 256, cells_per_row: 512, spare_rows: at["spares"] ?? 0 };
  const values = run(spareRows, { ...spares, cell_fault: at["p"]! });
  return values[name.startsWith("row_fails") ? "row_fault" : "spare_rows_loss"]!;
}

function repair({ name, at }: Case): number {
  const given = { faults: 2.5, clustering: 1.5, repairable_faults: at["R"]! };
  const values = run(faultRepair, given);
  const clustered = firstWord(name) === "clustered";
  return 1 - values[clustered ? "clustered_repair_loss" : "random_repair_loss"]!;
}

function shared({ name }: Case): number {
  const values = run(bankSpares, { banks: 8, faults_per_bank: 0.3 });
  const names: Record<string, string> = {
    local: "local_spare_yield",
    shared: "shared_spare_yield",
    shared_loss: "shared_spare_loss",
  };
  return values[names[name]!]!;
}

export const YIELD: Record<string, Solver> = {
  "yield-models": models,
  "yield-all-cells-good": cells,
  "yield-shorts-rows-8x8": placements,
  "yield-shorts-rows-256x256": ({ at }) => rowRepair(256, 256, at["K"]!, at["spare_rows"]!).lost,
  "yield-stuck-4x4-exact": stuck,
  "yield-short-open-16x16": shortOpen,
  "yield-spare-rows": rows,
  "yield-repair-clustered": repair,
  "yield-spares-local-or-shared": shared,
};
