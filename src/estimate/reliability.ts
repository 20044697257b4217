import { type Problem, refuse } from "../errors/problem.ts";
import type { ExtraFormula } from "../formulas/program.ts";
import type { Instance } from "../formulas/sheet.ts";
import type { Correction } from "../models/periphery/index.ts";
import {
  allowedScrubInterval,
  arrayReadErrors,
  defectYield,
  lognormalLife,
  profileInstance,
  profileNames,
  statedRetention,
  tileRepair,
  wear,
  wordErrors,
} from "../models/reliability/index.ts";
import type { Parameter } from "../quantities/parameter.ts";
import type { Reliability } from "../schema/reliability.ts";
import type { Design } from "../schema/study.ts";
import type { ResolvedCell } from "./cell.ts";

/** Which of the reliability's models a design has the figures for. */
export interface ReliabilityParts {
  /** Two states that are told apart by a current, with a spread each. */
  readonly reads: boolean;
  /** Steps of the temperature profile; 0 for the one temperature of the study. */
  readonly retention?: number;
  readonly mission: boolean;
  readonly wear?: "as-stated" | "first-cell";
  readonly disturb: boolean;
  readonly faults: boolean;
  readonly defects: boolean;
  readonly scrub: boolean;
}

/** A figure that is not estimated, and what it would take. */
interface Gap {
  readonly figure: string;
  readonly needs: string;
}

/** What a design's reliability can be estimated from, and what is left out for want of a figure. */
export interface ReliabilityChoice {
  readonly parts: ReliabilityParts;
  readonly gaps: readonly Gap[];
}

const RETENTION = ["retention_time", "retention_temperature", "activation_energy"];

/** @param cell its switch tells which of the figures nobody gave */
export function reliabilityOf(
  { reliability: stated, cell: asked, error_correction }: Design,
  cell: ResolvedCell,
): ReliabilityChoice | undefined {
  if (stated === undefined) return undefined;
  const device = cell.switch;
  const given = (field: string) => device !== undefined && !device.defaulted.includes(field);
  const twoStates = (asked?.bits ?? 1) === 1;
  const compared = cell.kind === "crosspoint" || cell.kind === "resistive-transistor";
  const gaps: Gap[] = [];
  const need = (holds: boolean, figure: string, needs: string): boolean => {
    if (!holds) gaps.push({ figure, needs });
    return holds;
  };
  const hasSpread = given("device_spread_on") && given("device_spread_off");
  const isSwitch = device !== undefined;
  const reads =
    isSwitch &&
    need(twoStates, "bit errors", "cells of one bit each") &&
    need(compared, "bit errors", "cells that are compared with a reference") &&
    need(hasSpread, "bit errors", "the device_spread of the switch");
  const unknown = RETENTION.filter((field) => !given(field));
  const kept =
    isSwitch && need(unknown.length === 0, "retention", `${unknown.join(" and ")} of the switch`);
  const worn =
    isSwitch &&
    need(given("endurance"), "life under writes", "the endurance of the switch") &&
    need(stated.write_rate !== undefined, "life under writes", "`write_rate`");
  const crosspoint = cell.kind === "crosspoint";
  const disturb =
    crosspoint && need(stated.rate_voltage !== undefined, "disturbed accesses", "`rate_voltage`");
  const faults = need(
    stated.cell_fault !== undefined || stated.line_fault !== undefined,
    "yield",
    "`cell_fault` or `line_fault`",
  );
  const corrects = error_correction !== undefined && error_correction !== "none";
  const flips = stated.bit_flip_rate !== undefined && stated.failure_rate_target !== undefined;
  const scrub =
    need(flips, "scrub interval", "`bit_flip_rate` and `failure_rate_target`") &&
    need(corrects, "scrub interval", "an `error_correction`");
  return {
    parts: {
      reads,
      ...(kept && { retention: stated.temperature_profile?.length ?? 0 }),
      mission: kept && stated.mission_time !== undefined,
      ...(worn && { wear: stated.life_spread === undefined ? "as-stated" : "first-cell" }),
      disturb,
      faults,
      defects: faults && stated.defect_density !== undefined,
      scrub,
    },
    gaps,
  };
}

/** One sentence on what is not estimated for want of a figure. */
export function gapsText(gaps: readonly Gap[]): string | undefined {
  if (gaps.length === 0) return undefined;
  const texts = gaps.map(({ figure, needs }) => `${figure} (needs ${needs})`);
  return `not estimated for want of a figure: ${texts.join("; ")}`;
}

/** The same parameters under the names that the sheets read. */
export function reliabilityParameters(
  stated: Reliability | undefined,
  locate: (key: string) => Pick<Problem, "path" | "place">,
): readonly (Parameter | undefined)[] {
  if (stated === undefined) return [];
  const { temperature_profile: profile, ...figures } = stated;
  if (profile !== undefined) requireWhole(profile, locate);
  return [
    ...Object.entries(figures).map(([name, parameter]) => parameter && { ...parameter, name }),
    ...(profile ?? []).flatMap((step, i) => {
      const names = profileNames(i + 1);
      return [
        step.temperature && { ...step.temperature, name: names.temperature },
        step.share && { ...step.share, name: names.share },
      ];
    }),
  ];
}

/** Shares add up to 1 but for their printed digits. */
const ROUNDING = 1e-6;

function requireWhole(
  profile: NonNullable<Reliability["temperature_profile"]>,
  locate: (key: string) => Pick<Problem, "path" | "place">,
): void {
  const total = profile.reduce((sum, { share }) => sum + (share?.value ?? 0), 0);
  if (Math.abs(total - 1) <= ROUNDING) return;
  refuse({
    code: "out-of-range",
    what: "the shares of a temperature profile must add up to 1",
    ...locate("reliability/temperature_profile"),
    got: String(Number(total.toPrecision(6))),
    fix: "state for each temperature the share of the time that is spent there",
  });
}

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
