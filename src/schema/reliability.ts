/** The keys of a study that say how its memory is used, and what it may suffer. */

import type { Parameter } from "../quantities/parameter.ts";
import { choice, group, list, positive, quantity, share } from "./define.ts";
import type { Field } from "./field.ts";

/** A share of the time at a temperature. */
export interface ProfileStep {
  readonly temperature?: Parameter;
  readonly share?: Parameter;
}

/** How resistances change as a power of the time since the write. */
export interface Drift {
  /** Exponents of the two states; positive where the resistance rises. */
  readonly on?: Parameter;
  readonly off?: Parameter;
  readonly on_deviation?: Parameter;
  readonly off_deviation?: Parameter;
  readonly start?: Parameter;
}

/** One level of a cell of several bits. */
export interface StatedLevel {
  readonly resistance?: Parameter;
  readonly spread?: Parameter;
  readonly drift?: Parameter;
  readonly drift_deviation?: Parameter;
}

/** What a cell is compared with. */
export interface ReadReference {
  readonly kind?: "fixed" | "tracking";
  readonly offset?: Parameter;
  readonly spread?: Parameter;
}

/** Spreads of cells that are no switches. */
export interface CellSpread {
  readonly on?: Parameter;
  readonly off?: Parameter;
}

/** What shall be met. */
export interface Goal {
  readonly bit_errors?: Parameter;
  readonly word_failure?: Parameter;
  readonly macro_failure?: Parameter;
  readonly yield?: Parameter;
  readonly life?: Parameter;
}

export interface Reliability {
  /** What shall be met; the fixes that meet it are compared. */
  readonly goal?: Goal;
  readonly levels?: readonly StatedLevel[];
  readonly drift?: Drift;
  readonly reference?: ReadReference;
  readonly cell_spread?: CellSpread;
  readonly read_noise?: Parameter;
  readonly level_tolerance?: Parameter;
  /** Times since the write. */
  readonly times?: readonly Parameter[];
  /** Share of the states that are lost by the retention time. */
  readonly lost_share?: Parameter;
  readonly loss_shape?: Parameter;
  readonly scrub_interval?: Parameter;
  readonly voltage_per_decade?: Parameter;
  readonly rotation_interval?: Parameter;
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

const exponent = (meaning: string, example: string) =>
  quantity("1", meaning, { minimum: -1, maximum: 1, example });
const deviation = (meaning: string, example: string) =>
  quantity("1", meaning, { minimum: 0, maximum: 10, example });

const drift = group<Drift>("how resistances change as a power of the time since the write", {
  on: exponent("exponent of the on resistance; positive where it rises", "0.005"),
  off: exponent("exponent of the off resistance; positive where it rises", "0.05"),
  on_deviation: deviation("standard deviation of the exponent, on", "0.002"),
  off_deviation: deviation("standard deviation of the exponent, off", "0.02"),
  start: positive("s", "time since the write at which the resistances are stated", {
    example: "1 s",
    default: { value: "1 s", source: "common practice" },
  }),
});

const level = group<StatedLevel>("one level of a cell of several bits", {
  resistance: positive("ohm", "median resistance", { required: true, example: "20 kohm" }),
  spread: deviation("standard deviation of ln R, in place of what lies between the states", "0.1"),
  drift: exponent("exponent of its drift, in place of what lies between the states", "0.02"),
  drift_deviation: deviation("standard deviation of that exponent", "0.008"),
});

const reference = group<ReadReference>("what a cell is compared with", {
  kind: choice("whether references move with the levels as time goes by", {
    fixed: "they stay where they are best right after the write",
    tracking: "they are best at any time, as those made of cells of the same age",
  }),
  offset: quantity("1", "by what share all references stand off their best place", {
    minimum: -0.9,
    maximum: 0.9,
    example: "5 %",
  }),
  spread: share("standard deviation of the references over their value, shared by a word", {
    example: "3 %",
  }),
});

const cellSpread = group<CellSpread>(
  "standard deviations of the signals of cells that are no switches",
  {
    on: deviation("of ln of the on current, or of the shared charge over its mean", "0.1"),
    off: deviation("of ln of the off current", "0.3"),
  },
);

const goal = group<Goal>("what shall be met: fixes and what they cost are compared", {
  bit_errors: share("largest probability that a bit is read wrong, uncorrected", {
    example: "1e-6",
  }),
  word_failure: share("largest probability that a word fails", { example: "1e-12" }),
  macro_failure: share("largest probability that a word of the macro is lost", {
    example: "1e-6",
  }),
  yield: share("least share of macros that are good", { example: "99 %" }),
  life: positive("s", "least life under the writes", { example: "10 year" }),
});

/** `reliability:` of a design. What depends on a figure that nobody gives is not estimated. */
export const reliabilityField: Field<Reliability> = group<Reliability>(
  "how the memory is used and what it may suffer; without it reliability is not estimated",
  {
    goal,
    levels: list("levels of a cell of several bits, from the least resistance on", level),
    drift,
    reference,
    cell_spread: cellSpread,
    read_noise: deviation("standard deviation of ln R from read to read", "0.05"),
    level_tolerance: positive(
      "1",
      "half-width in ln R within which a verified write is accepted; wider ones are repeated",
      { example: "0.2" },
    ),
    times: list(
      "times since the write at which errors are told; the mission's end is always one",
      positive("s", "a time since the write", { example: "30 day" }),
    ),
    lost_share: share("share of the states that are lost by the retention time of the switch", {
      example: "1e-6",
    }),
    loss_shape: positive("1", "shape of the Weibull law by which states are lost", {
      example: "1.5",
      default: { value: "1", source: "this project", note: "a constant rate" },
    }),
    scrub_interval: positive("s", "time after which all words are read, corrected and rewritten", {
      example: "30 day",
    }),
    voltage_per_decade: positive(
      "V",
      "by how much less voltage switching takes ten times as long",
      { example: "0.1 V" },
    ),
    rotation_interval: positive("1", "writes between two steps of the word that spreads writes", {
      minimum: 1,
      example: "100",
      default: { value: "100", source: "common practice" },
    }),
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
