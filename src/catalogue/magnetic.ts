/** Magnetic junctions whose write current follows from their retention. */

import type { Problem } from "../errors/problem.ts";
import type { Sheet } from "../formulas/sheet.ts";
import { spinOverdrive } from "../models/switch/spin-overdrive.ts";
import {
  barrierOfRetention,
  barrierSlope,
  retentionOfBarrier,
  spinTorque,
  spinTorqueCurrent,
  spinTorqueResetVoltage,
  spinTorqueSetVoltage,
} from "../models/switch/spin-torque.ts";
import type { Parameter } from "../quantities/parameter.ts";
import type { Alternative } from "./alternatives.ts";
import type { Parameters } from "./entry.ts";

const THERMAL = ["bloch_temperature", "barrier_exponent", "retention_temperature", "stability"];
const PULSE = ["set_time", "reset_time", "write_error_rate"];
const TORQUE = [...THERMAL, "layer_moment", "element_area", ...PULSE];

const by = (
  gives: string,
  needs: readonly string[],
  sheet: Sheet,
  also: Alternative["also"] = [],
): Alternative => ({ kind: "switch", gives, needs, sheet, also });

/**
 * In the order in which they are tried: a stated barrier gives the retention, else the retention
 * gives the barrier.
 */
export const MAGNETIC_ALTERNATIVES: readonly Alternative[] = [
  by(
    "retention_time",
    ["attempt_time", "retention_failure_share", "stability"],
    retentionOfBarrier,
  ),
  by(
    "stability",
    ["retention_time", "attempt_time", "retention_failure_share"],
    barrierOfRetention,
  ),
  by("activation_energy", [...THERMAL, "retention_failure_share"], barrierSlope),
  by("current_limit", [...TORQUE, "damping"], spinTorqueCurrent, [spinTorque, spinOverdrive]),
  by("set_voltage", ["on_resistance", "current_limit", "layer_moment"], spinTorqueSetVoltage),
  by("reset_voltage", ["on_resistance", "current_limit", "layer_moment"], spinTorqueResetVoltage),
];

/** What these say in place of other fields. */
export const MAGNETIC_DISPLACES: Readonly<Record<string, string[]>> = {
  damping: ["current_limit", "switching_current_density", "set_voltage", "reset_voltage"],
  stability: ["retention_time", "activation_energy"],
  retention_failure_share: ["activation_energy"],
};

/** Pairs that say the same thing twice. */
export const MAGNETIC_EXCLUDES: readonly (readonly string[])[] = [
  ["damping", "current_limit"],
  ["damping", "switching_current_density"],
  ["stability", "retention_time"],
];

const SHARES = ["retention_failure_share", "write_error_rate"];

/**
 * Why the write current of a junction that says its damping can't be computed.
 *
 * @param known whether a field is given, computed or has a default
 */
export function magneticProblems(
  path: string,
  values: Parameters,
  known: (name: string) => boolean,
): Problem[] {
  const problems = SHARES.flatMap((name) => shareProblems(`${path}/${name}`, name, values[name]));
  const { bloch_temperature: bloch, retention_temperature: kept } = values;
  if (bloch !== undefined && kept !== undefined && bloch.value <= kept.value) {
    problems.push({
      code: "out-of-range",
      what: "the junction has no magnetisation at the temperature of its retention",
      path: `${path}/bloch_temperature`,
      got: `${bloch.value} K`,
      expected: `more than ${kept.value} K, its retention_temperature`,
    });
  }
  if (values["damping"] === undefined) return problems;
  const missing = TORQUE.filter((name) => !known(name)).map((name) => `\`${name}\``);
  if (missing.length === 0) return problems;
  return [
    ...problems,
    {
      code: "missing-key",
      what: "the switch has `damping`, but not all that its write current follows from",
      path,
      expected: `${missing.join(", ")} too`,
      fix: "start `from: magnetic-for-retention`, or give `current_limit` instead",
    },
  ];
}

function shareProblems(path: string, name: string, share: Parameter | undefined): Problem[] {
  if (share === undefined || (share.value > 0 && share.value < 1)) return [];
  return [
    {
      code: "out-of-range",
      what: `\`${name}\` is a share of some but not all`,
      path,
      got: String(share.value),
      expected: "more than 0 and less than 1, such as 1e-6",
    },
  ];
}
