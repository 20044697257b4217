import type { ExtraFormula } from "../formulas/program.ts";
import type { Instance } from "../formulas/sheet.ts";
import type { Correction } from "../models/periphery/index.ts";
import {
  allowedScrubInterval,
  defectYield,
  lognormalLife,
  profileInstance,
  SCRUB_TIME,
  scrubLogic,
  statedRetention,
  tileRepair,
  wear,
  wearSpreading,
} from "../models/reliability/index.ts";
import { disturbRecipe } from "./reliability-disturb.ts";
import type { ReliabilityParts } from "./reliability-parts.ts";
import { readRecipe } from "./reliability-read-recipe.ts";

const extra = (name: string, unit: string, formula: string, meaning: string, note?: string) => ({
  name,
  unit,
  formula,
  meaning,
  source: "this project",
  ...(note === undefined ? {} : { note }),
});

const CORRECTED: Readonly<Record<Correction, string>> = {
  none: "0",
  single: "1",
  "single-double": "1",
  multiple: "corrected_bits",
};

/** Sheets, procedures and formulas of a design's reliability. */
export function reliabilityRecipe(
  parts: ReliabilityParts,
  correction: Correction,
): { readonly instances: readonly Instance[]; readonly extra: readonly ExtraFormula[] } {
  const { reads, aging, retention, mission, faults, defects, scrub } = parts;
  const read = readRecipe(parts);
  const disturb = disturbRecipe(parts);
  const instances: Instance[] = [...read.instances, ...disturb.instances];
  const formulas: ExtraFormula[] = [...read.extra, ...disturb.extra];
  if (reads || aging || scrub)
    formulas.push(
      extra("corrected_errors", "1", CORRECTED[correction], "errors of a word that are corrected"),
    );
  if (retention !== undefined)
    instances.push(retention === 0 ? { of: statedRetention } : profileInstance(retention));
  if (mission)
    formulas.push(
      extra("retention_margin", "1", "retention / mission_time", "retention over the mission"),
    );
  if (parts.verified)
    formulas.push(
      extra(
        "verify_pulses",
        "1",
        "unheld_pulses / (1 - pulse_failure)",
        "pulses of one write, those that miss the tolerance repeated",
      ),
    );
  if (parts.wear !== undefined) addWear(parts.wear, instances, formulas);
  if (faults) addYield(defects, instances, formulas);
  if (scrub !== undefined) {
    if (scrub === "allowed") instances.push({ of: allowedScrubInterval });
    else formulas.push(SCRUB_TIME);
    instances.push({
      of: scrubLogic,
      bind: {
        scrub_period: scrub === "stated" ? "scrub_interval" : "allowed_scrub_interval",
        // Stands beside power at rest, which has what leaks.
        read_energy: "active_read_energy",
        write_energy: "active_write_energy",
      },
    });
  }
  return { instances, extra: formulas };
}

function addWear(
  kind: "as-stated" | "first-cell",
  instances: Instance[],
  formulas: ExtraFormula[],
): void {
  const first = kind === "first-cell";
  if (first) instances.push({ of: lognormalLife, bind: { median_life: "endurance" } });
  instances.push({
    of: wear,
    bind: {
      write_rate: "bit_write_rate",
      hot_line: "word",
      ...(first && { endurance: "first_median_life" }),
    },
  });
  // Logic by count, like all of the macro.
  instances.push({ of: wearSpreading, bind: { unit_gate_energy: "logic_pair_energy" } });
  formulas.push(
    extra("bit_write_rate", "1/s", "write_rate * word", "bits written per time by the user"),
  );
}

function addYield(defects: boolean, instances: Instance[], formulas: ExtraFormula[]): void {
  instances.push({ of: tileRepair });
  if (defects) {
    instances.push({ of: defectYield });
    formulas.push(
      extra(
        "defect_count",
        "1",
        "defect_density * max(macro_area - all_cells_area, 0)",
        "mean defects of the periphery",
        "the cells' own faults are counted by cell_fault",
      ),
    );
  }
  const periphery = defects ? "clustered_yield * " : "";
  formulas.push(
    extra(
      "yield_unrepaired",
      "1",
      `${periphery}exp(tiles * log1p(-tile_loss_unrepaired))`,
      "share of macros without a fault",
    ),
    extra(
      "yield_repaired",
      "1",
      `${periphery}exp(tiles * log1p(-tile_loss_repaired))`,
      "share of macros whose spare lines suffice",
    ),
    extra(
      "array_loss_unrepaired",
      "1",
      "-expm1(tiles * log1p(-tile_loss_unrepaired))",
      "share of macros with a faulty cell or line",
    ),
    extra(
      "array_loss_repaired",
      "1",
      "-expm1(tiles * log1p(-tile_loss_repaired))",
      "share of macros whose spare lines do not suffice",
    ),
  );
}
