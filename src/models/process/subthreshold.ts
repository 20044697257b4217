import { formula, model } from "../define.ts";
import { processDefaults } from "./defaults.ts";

/** Swing and off-current from the slope factor, for a technology that gives no off-current. */
export const subthreshold = model({
  parameters: processDefaults,
  name: "subthreshold",
  title: "Subthreshold swing and off-current",
  about:
    "The diffusion current below threshold. The current at threshold is a convention of the " +
    "book used; drain-induced barrier lowering is left out.",
  inputs: {
    slope_factor: { unit: "1", meaning: "swing over its least value", symbol: "n" },
    threshold_current: { unit: "A/m", meaning: "current per width at threshold", symbol: "I_0" },
  },
  formulas: {
    least_swing: formula(
      "V",
      "boltzmann_constant * temperature / elementary_charge * log(10)",
      "least gate voltage per decade",
      "tm",
    ),
    swing: formula("V", "slope_factor * least_swing", "gate voltage per decade", "tm", {
      symbol: "S",
    }),
    off_current: formula(
      "A/m",
      "threshold_current * 10^(-threshold_voltage / swing)",
      "off-current per width",
      "tm",
      { symbol: "I_{off}" },
    ),
  },
});
