import type { Reliability } from "../schema/reliability.ts";
import type { Design } from "../schema/study.ts";
import type { ResolvedCell } from "./cell.ts";
import type {
  AgingPart,
  Gap,
  Need,
  ReadModel,
  ReliabilityChoice,
  ReliabilityParts,
} from "./reliability-parts.ts";
import { readModelOf } from "./reliability-reads.ts";
import { timesOf } from "./reliability-times.ts";

const RETENTION = ["retention_time", "retention_temperature", "activation_energy"];

/** @param cell its switch tells which of the figures nobody gave */
export function reliabilityOf(
  { reliability: stated, cell: asked, error_correction }: Design,
  cell: ResolvedCell,
): ReliabilityChoice | undefined {
  if (stated === undefined) return undefined;
  const device = cell.switch;
  const given = (field: string) => device !== undefined && !device.defaulted.includes(field);
  const gaps: Gap[] = [];
  const need: Need = (holds, figure, needs) => {
    if (!holds) gaps.push({ figure, needs });
    return holds;
  };
  const isSwitch = device !== undefined;
  const reads = readModelOf(stated, asked, cell, given, need);
  const unknown = RETENTION.filter((field) => !given(field));
  const kept =
    isSwitch && need(unknown.length === 0, "retention", `${unknown.join(" and ")} of the switch`);
  const endures = isSwitch
    ? given("endurance")
    : cell.baseline?.parameters["endurance"] !== undefined;
  const worn =
    (isSwitch || cell.model.structure.erasedByBlock) &&
    need(endures, "life under writes", "the endurance of the cell") &&
    need(stated.write_rate !== undefined, "life under writes", "`write_rate`");
  const rate = isSwitch ? rateOf(stated, cell) : undefined;
  if (isSwitch)
    need(
      rate !== undefined,
      "disturbed accesses",
      "`voltage_per_decade` or `rate_voltage`, or a switch from its geometry",
    );
  const faults = need(
    stated.cell_fault !== undefined || stated.line_fault !== undefined,
    "yield",
    "`cell_fault` or `line_fault`",
  );
  const scrub = scrubOf(stated, error_correction, need);
  const parts: ReliabilityParts = {
    ...(reads && { reads }),
    ...(stated.level_tolerance !== undefined && isSwitch && { verified: true }),
    ...agingOf(stated, reads, kept, isSwitch, need),
    ...(kept && { retention: stated.temperature_profile?.length ?? 0 }),
    mission: kept && stated.mission_time !== undefined,
    ...(worn && { wear: stated.life_spread === undefined ? "as-stated" : "first-cell" }),
    ...(rate && { rate }),
    ...(rate && cell.selectorKind && { disturb: cell.selectorKind }),
    faults,
    defects: faults && stated.defect_density !== undefined,
    ...(scrub && { scrub }),
  };
  return { parts, gaps };
}

/** Where the law of the switching rate comes from, what the study states before anything else. */
function rateOf(stated: Reliability, cell: ResolvedCell): ReliabilityParts["rate"] {
  if (stated.rate_voltage !== undefined) return "stated";
  if (stated.voltage_per_decade !== undefined) return "decades";
  return cell.switch?.parameters["most_gap"] === undefined ? undefined : "geometry";
}

function scrubOf(
  stated: Reliability,
  correction: Design["error_correction"],
  need: Need,
): ReliabilityParts["scrub"] {
  const corrects = correction !== undefined && correction !== "none";
  if (stated.scrub_interval !== undefined) {
    const coded = need(corrects, "cost of the scrub", "an `error_correction`");
    return coded ? "stated" : undefined;
  }
  const flips = stated.bit_flip_rate !== undefined && stated.failure_rate_target !== undefined;
  const allowed =
    need(
      flips,
      "scrub interval",
      "`scrub_interval`, or `bit_flip_rate` and `failure_rate_target`",
    ) && need(corrects, "scrub interval", "an `error_correction`");
  return allowed ? "allowed" : undefined;
}

/** What time changes, where the study says for how long. */
function agingOf(
  stated: Reliability,
  reads: ReadModel | undefined,
  kept: boolean,
  isSwitch: boolean,
  need: Need,
): { readonly aging?: AgingPart } {
  const times = timesOf(stated).length;
  const lost = kept && stated.lost_share !== undefined;
  const flipped = stated.bit_flip_rate !== undefined;
  const drifts = reads !== undefined && (stated.drift !== undefined || statedDrift(stated));
  const FIGURE = "bit errors over time";
  if (isSwitch) need(drifts || lost || flipped, FIGURE, "`drift`, `lost_share` or `bit_flip_rate`");
  if (!(drifts || lost || flipped)) return {};
  if (isSwitch && reads === undefined) return {};
  if (!need(times > 0, FIGURE, "`mission_time` or `times`")) return {};
  const losses = lost ? (flipped ? "lost-flipped" : "lost") : flipped ? "flipped" : "kept";
  return {
    aging: {
      times,
      losses,
      tracking: stated.reference?.kind === "tracking",
      scrubbed: stated.scrub_interval !== undefined && stated.mission_time !== undefined,
      mission: stated.mission_time !== undefined,
    },
  };
}

function statedDrift({ levels }: Reliability): boolean {
  return levels?.every(({ drift }) => drift !== undefined) === true;
}

/** One sentence on what is not estimated for want of a figure. */
export function gapsText(gaps: readonly Gap[]): string | undefined {
  if (gaps.length === 0) return undefined;
  const texts = gaps.map(({ figure, needs }) => `${figure} (needs ${needs})`);
  return `not estimated for want of a figure: ${texts.join("; ")}`;
}
