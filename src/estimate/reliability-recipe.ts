import type { ExtraFormula } from "../formulas/program.ts";
import type { Instance } from "../formulas/sheet.ts";
import type { Correction } from "../models/periphery/index.ts";
import {
  allowedScrubInterval,
  arrayReadErrors,
  defectYield,
  lognormalLife,
  profileInstance,
  statedRetention,
  tileRepair,
  wear,
  wordErrors,
} from "../models/reliability/index.ts";
import type { ReliabilityParts } from "./reliability.ts";

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
  const { reads, retention, mission, disturb, faults, defects, scrub } = parts;
  const instances: Instance[] = [];
  const formulas: ExtraFormula[] = [];
  if (reads || scrub)
    formulas.push(
      extra("corrected_errors", "1", CORRECTED[correction], "errors of a word that are corrected"),
    );
  if (reads) instances.push({ of: arrayReadErrors }, { of: wordErrors });
  if (retention !== undefined)
    instances.push(retention === 0 ? { of: statedRetention } : profileInstance(retention));
  if (mission)
    formulas.push(
      extra("retention_margin", "1", "retention / mission_time", "retention over the mission"),
    );
  if (parts.wear !== undefined) addWear(parts.wear, instances, formulas);
  if (disturb) formulas.push(...DISTURB);
  if (faults) addYield(defects, instances, formulas);
  if (scrub) {
    instances.push({ of: allowedScrubInterval });
    formulas.push(
      extra(
        "scrub_power",
        "W",
        "words * (read_energy + write_energy) / allowed_scrub_interval",
        "power of reading and rewriting every word once per interval",
      ),
    );
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
  formulas.push(
    extra("bit_write_rate", "1/s", "write_rate * word", "bits written per time by the user"),
  );
}

const DISTURB: readonly ExtraFormula[] = [
  extra(
    "disturb_slowdown",
    "1",
    "sinh(min(set_voltage, reset_voltage) / rate_voltage) / sinh(disturb_voltage / rate_voltage)",
    "switching time at the disturb voltage over that at the write voltage",
    "sinh law of the switching rate; the disturb voltage is the largest of a half-selected junction",
  ),
  extra(
    "disturb_accesses",
    "1",
    "disturb_slowdown / disturb_margin",
    "writes beside it that a state survives",
  ),
  extra(
    "disturb_rewrites",
    "1",
    "disturb_accesses / (rows + columns - 2)",
    "full rewrites of the tile that a state survives, cell by cell",
  ),
];

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
