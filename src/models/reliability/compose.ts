/** Which sheets make up the reliability of a memory macro, and what feeds what. */
import type { Instance } from "../../formulas/sheet.ts";
import { wordErrors } from "./codes.ts";
import { disturbCounts, disturbKinetics } from "./disturb.ts";
import { lognormalLife, wear } from "./life.ts";
import { optimumThreshold, switchSpread } from "./populations.ts";
import { statedRetention } from "./retention.ts";

/**
 * From a switch's spread, endurance and retention to the failure of words and of the macro. The
 * threshold is the one of least error; offset and noise of the amplifier come on top of it by
 * `sense_errors` or `current_errors`. Reads, besides what a study has anyway: `cells` (of the
 * macro), `corrected_errors`, `parallel_cells`, `rate_voltage`, `disturb_margin`, `write_rate`,
 * `write_amplification`, `wear_share`, `hot_line`, `life_spread`.
 */
export const MEMORY_RELIABILITY: readonly Instance[] = [
  { of: switchSpread },
  { of: optimumThreshold },
  { of: wordErrors, bind: { bit_error_rate: "least_read_error" } },
  { of: statedRetention },
  { of: lognormalLife, bind: { median_life: "endurance" } },
  { of: wear, bind: { endurance: "first_median_life" } },
  { of: disturbCounts },
  { of: disturbKinetics },
];
