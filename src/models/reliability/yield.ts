/** Yield: how many defects a macro has, and what faulty cells and lines leave usable. */
import { expm1 } from "../../numerics/special/elementary.ts";
import { formula, reliabilityProcedure, reliabilitySheet } from "./define.ts";

const REVIEW = "yield-review";
const NAMED = { note: "named by its formula: textbooks give one name to two of these laws" };

export const defectYield = reliabilitySheet(
  "defect_yield",
  "Yield from area and defect density",
  "Five laws of how defects spread over wafers; the losses are computed by themselves, so that " +
    "small ones keep their digits.",
  {
    poisson_yield: formula("1", "exp(-defect_count)", "yield, defects at random", REVIEW),
    poisson_loss: formula("1", "-expm1(-defect_count)", "loss, defects at random", REVIEW),
    exponential_weighted_yield: formula(
      "1",
      "1 / (1 + defect_count)",
      "yield, exponentially distributed density",
      REVIEW,
      NAMED,
    ),
    exponential_weighted_loss: formula(
      "1",
      "defect_count / (1 + defect_count)",
      "loss, exponentially distributed density",
      REVIEW,
      NAMED,
    ),
    root_exponential_yield: formula(
      "1",
      "exp(-sqrt(defect_count))",
      "yield falling with the root of the area",
      REVIEW,
      NAMED,
    ),
    root_exponential_loss: formula(
      "1",
      "-expm1(-sqrt(defect_count))",
      "loss rising with the root of the area",
      REVIEW,
      NAMED,
    ),
    clustered_yield: formula(
      "1",
      "exp(-clustering * log1p(defect_count / clustering))",
      "yield, clustered defects (negative binomial)",
      REVIEW,
    ),
    clustered_loss: formula(
      "1",
      "-expm1(-clustering * log1p(defect_count / clustering))",
      "loss, clustered defects",
      REVIEW,
    ),
  },
);

/** ((1 - e^-x)/x)^2 and one minus it, both with all their digits. */
export function triangleWeighted(x: number): { yielded: number; lost: number } {
  if (x === 0) return { yielded: 1, lost: 0 };
  const mean = -expm1(-x) / x;
  // One minus the mean, by its series where the difference would cancel.
  let missing = 1 - mean;
  if (x < 0.5) {
    missing = 0;
    let term = 1;
    for (let k = 1; k < 30; k++) {
      term *= -x / (k + 1);
      missing -= term;
      if (Math.abs(term) < 1e-18 * missing) break;
    }
  }
  return { yielded: mean * mean, lost: missing * (1 + mean) };
}

export const triangleYield = reliabilityProcedure(
  "triangle_yield",
  {
    title: "Yield of a triangular spread of defect densities",
    about: "The square of (1 - exp(-x))/x, and its complement by a series; both to 1e-15.",
    source: REVIEW,
  },
  ["defect_count"],
  {
    triangle_weighted_yield: { unit: "1", meaning: "yield, density spread as a triangle" },
    triangle_weighted_loss: { unit: "1", meaning: "loss, density spread as a triangle" },
  },
  (x) => {
    const { yielded, lost } = triangleWeighted(x!);
    return [yielded, lost];
  },
);

export const cellYield = reliabilitySheet(
  "cell_yield",
  "Yield of an array of cells",
  "Faulty cells at random, none or a few of them repairable one by one.",
  {
    all_cells_good: formula(
      "1",
      "exp(cells * log1p(-cell_fault))",
      "probability that no cell is faulty",
      REVIEW,
    ),
    any_cell_bad: formula(
      "1",
      "-expm1(cells * log1p(-cell_fault))",
      "probability that some cell is faulty",
      REVIEW,
    ),
    cell_repair_loss: formula(
      "1",
      "binomial_tail(cells, repairable_cells + 1, cell_fault)",
      "probability of more faulty cells than can be repaired",
      REVIEW,
    ),
  },
);

export const stuckJunctions = reliabilitySheet(
  "stuck_junctions",
  "Stuck junctions of a bare crossbar",
  "A junction that is stuck short takes its row and column with it, one that is stuck open only " +
    "itself; one that is both counts as short.",
  {
    junction_loss: formula(
      "1",
      "-expm1((rows + columns - 1) * log1p(-short_fault) + log1p(-open_fault))",
      "probability that a given junction cannot be used",
      "counting",
    ),
    usable_junctions: formula(
      "1",
      "rows * columns * (1 - junction_loss)",
      "mean number of usable junctions",
      "counting",
    ),
    all_junctions_usable: formula(
      "1",
      "exp(rows * columns * (log1p(-short_fault) + log1p(-open_fault)))",
      "probability that all junctions can be used",
      "counting",
    ),
  },
);

export const spareRows = reliabilitySheet(
  "spare_rows_yield",
  "Yield with spare rows",
  "A row fails with any of its cells; the spare rows can fail as well.",
  {
    row_fault: formula(
      "1",
      "-expm1(cells_per_row * log1p(-cell_fault))",
      "probability that a row is faulty",
      REVIEW,
    ),
    spare_rows_loss: formula(
      "1",
      "binomial_tail(rows + spare_rows, spare_rows + 1, row_fault)",
      "probability that too few rows are good",
      REVIEW,
    ),
  },
);

export const brokenLines = reliabilitySheet(
  "broken_lines",
  "Yield with broken lines and spares",
  "Row and column wires break at random, spares like all others; a tile is good when enough of " +
    "both are whole.",
  {
    broken_rows_loss: formula(
      "1",
      "binomial_tail(rows + spare_rows, spare_rows + 1, line_fault)",
      "probability that too few rows are whole",
      "counting",
    ),
    broken_columns_loss: formula(
      "1",
      "binomial_tail(columns + spare_columns, spare_columns + 1, line_fault)",
      "probability that too few columns are whole",
      "counting",
    ),
    broken_lines_loss: formula(
      "1",
      "-expm1(log1p(-broken_rows_loss) + log1p(-broken_columns_loss))",
      "probability that the tile is lost",
      "counting",
    ),
  },
);

export const bankSpares = reliabilitySheet(
  "bank_spares",
  "Spares of each bank or of all",
  "Faults at random; one spare for each bank, or as many shared by all.",
  {
    local_spare_yield: formula(
      "1",
      "exp(banks * (log1p(faults_per_bank) - faults_per_bank))",
      "yield with one spare in each bank",
      REVIEW,
    ),
    shared_spare_loss: formula(
      "1",
      "poisson_tail(banks + 1, banks * faults_per_bank)",
      "loss with as many spares shared",
      REVIEW,
    ),
    shared_spare_yield: formula("1", "1 - shared_spare_loss", "yield with them shared", REVIEW),
  },
);
