/** How long a state withstands a voltage below that of a write, by the sinh law of the switching. */
import type { ExtraFormula } from "../../formulas/program.ts";
import { formula, reliabilitySheet } from "./define.ts";

/** Where the voltage scale is stated as volts per decade of the switching time. */
export const rateFromDecades: ExtraFormula = {
  name: "rate_voltage",
  unit: "V",
  formula: "voltage_per_decade / log(10)",
  meaning: "scale voltage of the sinh law of the switching rate",
  source: "ionic",
  note: "far above the scale voltage the law is exponential",
};

export const readHold = reliabilitySheet(
  "read_hold",
  "How long a state withstands the read voltage",
  "The law of the switching rate through the stated pulses, carried down to the read voltage, in " +
    "whichever direction is faster. Ratios of sinh as exponentials, which overflow later.",
  {
    set_hold: formula(
      "s",
      "set_time * exp((set_voltage - read_voltage) / rate_voltage) * " +
        "expm1(-2 * set_voltage / rate_voltage) / expm1(-2 * read_voltage / rate_voltage)",
      "time for which the read voltage doesn't set",
      "ionic",
    ),
    reset_hold: formula(
      "s",
      "reset_time * exp((reset_voltage - read_voltage) / rate_voltage) * " +
        "expm1(-2 * reset_voltage / rate_voltage) / expm1(-2 * read_voltage / rate_voltage)",
      "time for which the read voltage doesn't reset",
      "ionic",
    ),
    read_hold_time: formula(
      "s",
      "min(set_hold, reset_hold)",
      "time for which a state withstands the read voltage",
      "ionic",
    ),
  },
);

/** Accesses from the time that a state withstands. */
export const READ_DISTURB: ExtraFormula = {
  name: "read_disturb_accesses",
  unit: "1",
  formula: "read_hold_time / (bit_line_delay + sense_delay) / disturb_margin",
  meaning: "reads that a state survives",
  source: "this project",
  note: "the read voltage stands for as long as the column settles and the amplifier decides",
};
