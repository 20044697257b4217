/** The keys of a study that say how its memory is used, and what it may suffer. */

import type { Parameter } from "../quantities/parameter.ts";
import { group, list, positive, quantity, share } from "./define.ts";
import type { Field } from "./field.ts";

/** A share of the time at a temperature. */
export interface ProfileStep {
  readonly temperature?: Parameter;
  readonly share?: Parameter;
}

export interface Reliability {
  readonly mission_time?: Parameter;
  readonly temperature_profile?: readonly ProfileStep[];
  /** Words written in a second. */
  readonly write_rate?: Parameter;
  readonly write_amplification?: Parameter;
  readonly wear_share?: Parameter;
  readonly life_spread?: Parameter;
  readonly rate_voltage?: Parameter;
  readonly disturb_margin?: Parameter;
  readonly cell_fault?: Parameter;
  readonly line_fault?: Parameter;
  readonly defect_density?: Parameter;
  readonly clustering?: Parameter;
  readonly bit_flip_rate?: Parameter;
  readonly failure_rate_target?: Parameter;
}

/** Absolute zero is no place for a memory, nor is a furnace. */
const COLDEST = 1;
const HOTTEST = 1000;

const step = group<ProfileStep>("a share of the time at a temperature", {
  temperature: quantity("K", "temperature of the cells", {
    minimum: COLDEST,
    maximum: HOTTEST,
    required: true,
    example: "5 degC",
  }),
  share: share("share of the time", { required: true, example: "25 %" }),
});

/** `reliability:` of a design. What depends on a figure that nobody gives is not estimated. */
export const reliabilityField: Field<Reliability> = group<Reliability>(
  "how the memory is used and what it may suffer; without it reliability is not estimated",
  {
    mission_time: positive("s", "how long the data have to last", { example: "5 year" }),
    temperature_profile: list(
      "temperatures over the mission, in place of `temperature` for the loss of states",
      step,
    ),
    write_rate: positive("1/s", "words written per time, mean", { example: "1000 1/day" }),
    write_amplification: positive("1", "words written per word that the user writes", {
      minimum: 1,
      example: "1.2",
      default: { value: "1", source: "this project", note: "no copies beside the user's" },
    }),
    wear_share: share("share of the cells' endurance that spreading the writes makes usable", {
      example: "80 %",
      default: { value: "1", source: "this project", note: "perfect spreading, an upper bound" },
    }),
    life_spread: positive("1", "standard deviation of ln endurance from cell to cell", {
      example: "0.5",
    }),
    rate_voltage: positive("V", "scale voltage of the sinh law of the switching rate", {
      example: "0.05 V",
    }),
    disturb_margin: positive("1", "switching time over what disturbance may add up to", {
      minimum: 1,
      example: "10",
      default: { value: "10", low: "3", high: "100", source: "common practice" },
    }),
    cell_fault: share("probability that a cell is faulty", { example: "1e-6" }),
    line_fault: share("probability that a row or column wire is broken", { example: "1e-5" }),
    defect_density: positive("1/m^2", "defects per area of the periphery", {
      example: "0.1 1/cm^2",
    }),
    clustering: positive("1", "clustering of the defects: small is clustered", {
      example: "2",
      default: {
        value: "2",
        low: "0.5",
        high: "5",
        source: "common practice",
      },
    }),
    bit_flip_rate: positive("1/s", "rate at which a stored bit flips", { example: "1e-12 1/h" }),
    failure_rate_target: positive("1/s", "allowed rate of words lost in the macro", {
      example: "1e-8 1/h",
    }),
  },
);
