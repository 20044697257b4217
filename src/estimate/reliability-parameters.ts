/** What a study says of reliability, under the names that the sheets read. */
import { type Problem, refuse } from "../errors/problem.ts";
import { levelName, profileNames } from "../models/reliability/index.ts";
import type { Parameter } from "../quantities/parameter.ts";
import type { Reliability } from "../schema/reliability.ts";
import { timesOf } from "./reliability-times.ts";

type Locate = (key: string) => Pick<Problem, "path" | "place">;
type Found = Parameter | undefined;

const named = (parameter: Found, name: string): Found => parameter && { ...parameter, name };

/** The same parameters under the names that the sheets read. @throws TenfoldError with its place */
export function reliabilityParameters(
  stated: Reliability | undefined,
  locate: Locate,
): readonly Found[] {
  if (stated === undefined) return [];
  const { temperature_profile, goal, levels, drift, reference, cell_spread, times, ...figures } =
    stated;
  if (temperature_profile !== undefined) requireWhole(temperature_profile, locate);
  if (figures.rate_voltage !== undefined && figures.voltage_per_decade !== undefined)
    requireOne(locate);
  return [
    ...Object.entries(figures).map(([name, parameter]) => named(parameter, name)),
    ...(temperature_profile ?? []).flatMap((step, i) => {
      const names = profileNames(i + 1);
      return [named(step.temperature, names.temperature), named(step.share, names.share)];
    }),
    ...(levels ?? []).flatMap((level, i) => [
      named(level.resistance, levelName("resistance", i + 1)),
      named(level.spread, `level_written_spread_${i + 1}`),
      named(level.drift, levelName("drift", i + 1)),
      named(level.drift_deviation, levelName("drift_deviation", i + 1)),
    ]),
    named(drift?.on, "drift_exponent_on"),
    named(drift?.off, "drift_exponent_off"),
    named(drift?.on_deviation, "drift_deviation_on"),
    named(drift?.off_deviation, "drift_deviation_off"),
    named(drift?.start, "drift_start"),
    named(reference?.offset, "reference_offset"),
    named(reference?.spread, "reference_spread"),
    named(cell_spread?.on, "on_spread"),
    named(cell_spread?.off, "off_spread"),
    ...timesOf(stated),
  ];
}

/** Shares add up to 1 but for their printed digits. */
const ROUNDING = 1e-6;

function requireWhole(
  profile: NonNullable<Reliability["temperature_profile"]>,
  locate: Locate,
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

function requireOne(locate: Locate): void {
  refuse({
    code: "conflicting-keys",
    what: "`rate_voltage` and `voltage_per_decade` say the same thing twice",
    ...locate("reliability/voltage_per_decade"),
    fix: "leave one of them out: a decade is 2.3 times the scale voltage",
  });
}
