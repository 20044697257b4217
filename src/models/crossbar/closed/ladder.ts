import { formula, model } from "../../define.ts";

/** A line with equal junctions along it, seen from its far end. */
export const lineLadder = model({
  name: "line_ladder",
  title: "Line with equal junctions, seen from its far end",
  about:
    "A driver at the first of N + 1 junctions, one segment from each to the next; all but the " +
    "last conduct alike to lines at one level. What the last junction sees is a source behind " +
    "a resistance, by the hyperbolic functions of a ladder: exact for ohmic junctions and ideal " +
    "unselected lines. A junction's conductance is its current over its voltage at the driver, " +
    "so that a nonlinear one conducts less further on than is counted here.",
  inputs: {
    ladder_junctions: { unit: "1", meaning: "unselected junctions of the line", symbol: "N" },
    ladder_segment: { unit: "ohm", meaning: "wire between two junctions", symbol: "r" },
    ladder_conductance: {
      unit: "1/ohm",
      meaning: "conductance of an unselected junction",
      symbol: "g",
    },
  },
  formulas: {
    ladder_root: formula(
      "1",
      "sqrt(max(ladder_segment * ladder_conductance, 1e-18))",
      "twice the sinh of half the change per segment",
      "cross",
      { symbol: "s", note: "never zero, so that ideal wires are no special case" },
    ),
    ladder_sinks: formula(
      "1",
      "max(ladder_junctions - 1, 0)",
      "junctions between driver and last junction; the one at the driver takes no voltage away",
    ),
    ladder_tanh: formula(
      "1",
      "tanh(2 * asinh(ladder_root / 2) * ladder_sinks)",
      "of the change along the whole line",
      "cross",
      { symbol: "T" },
    ),
    ladder_bend: formula(
      "1",
      "sqrt(1 + ladder_root^2 / 4) + ladder_tanh * ladder_root / 2",
      "cosh of the change up to half a segment beyond the end, over that up to the end",
      "cross",
      { symbol: "b" },
    ),
    ladder_share: formula(
      "1",
      "sqrt(1 + ladder_root^2 / 4) / ladder_bend / " +
        "cosh(min(2 * asinh(ladder_root / 2) * ladder_sinks, 700))",
      "what is left at the open far end of the driver's voltage against the other lines' level",
      "cross",
    ),
    ladder_count: formula(
      "1",
      "min(ladder_junctions, 1) + ladder_tanh / (ladder_root * ladder_bend)",
      "current of the unselected junctions over that of the one at the driver, open far end",
      "cross",
      { note: "N with ideal wires" },
    ),
    ladder_resistance: formula(
      "ohm",
      "ladder_segment * ladder_count",
      "resistance that the last junction sees",
      "cross",
      { symbol: "R_{th}", note: "r N without unselected junctions" },
    ),
  },
});
