import { type Problem, refuse } from "../errors/problem.ts";
import { profileNames } from "../models/reliability/index.ts";
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
