import { formula, model } from "../../define.ts";

/** Voltage lost along a line with equal sinks: as currents, and as resistances. */
export const lineDrop = model({
  name: "line_drop",
  title: "Voltage lost along a line",
  about:
    "N segments, a sink after each. Equal current sinks give the sum; equal resistances to " +
    "ground give the hyperbolic form, which is exact for an ohmic ladder.",
  inputs: {
    sinks: { unit: "1", meaning: "sinks along the line, one segment apart", symbol: "N" },
    segment_resistance: { unit: "ohm", meaning: "resistance of a segment", symbol: "r" },
    sink_current: { unit: "A", meaning: "current of each sink", symbol: "I" },
    sink_resistance: { unit: "ohm", meaning: "resistance of each sink to ground", symbol: "R_s" },
  },
  formulas: {
    sink_drop: formula(
      "V",
      "sink_current * segment_resistance * sinks * (sinks + 1) / 2",
      "voltage lost to the far end",
      "cross",
      { symbol: "\\Delta V" },
    ),
    ladder_angle: formula(
      "1",
      "acosh(1 + segment_resistance / (2 * sink_resistance))",
      "change per segment of the hyperbolic profile",
      "cross",
      { symbol: "x" },
    ),
    far_end_ratio: formula(
      "1",
      "cosh(ladder_angle / 2) / cosh((sinks + 0.5) * ladder_angle)",
      "voltage at the far end over that at the driver",
      "cross",
    ),
  },
});
