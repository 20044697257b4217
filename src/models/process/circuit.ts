import { formula, model } from "../define.ts";
import { processDefaults } from "./defaults.ts";

/** Charging energy and noise of a capacitance, and the time a current takes to move it. */
export const capacitance = model({
  parameters: processDefaults,
  name: "capacitance",
  title: "Energy, noise and slewing of a capacitance",
  about:
    "Elementary laws of a capacitance, used where a line is charged, sampled or discharged by " +
    "a cell.",
  inputs: {
    charged_capacitance: { unit: "F", meaning: "capacitance", symbol: "C" },
    charged_voltage: { unit: "V", meaning: "supply it is charged from", symbol: "V" },
    voltage_step: { unit: "V", meaning: "by how much its voltage moves", symbol: "\\Delta V" },
    moving_current: { unit: "A", meaning: "current that moves it", symbol: "I" },
  },
  formulas: {
    supply_energy: formula(
      "J",
      "charged_capacitance * charged_voltage^2",
      "energy from the supply for a full charge",
      "dic",
    ),
    stored_energy: formula(
      "J",
      "charged_capacitance * charged_voltage^2 / 2",
      "energy stored after a full charge",
      "dic",
    ),
    swing_energy: formula(
      "J",
      "charged_capacitance * charged_voltage * voltage_step",
      "energy from the supply for a small swing",
      "dic",
    ),
    slewing_time: formula(
      "s",
      "charged_capacitance * voltage_step / moving_current",
      "time in which the current makes the step",
      "dic",
    ),
    sampled_noise: formula(
      "V",
      "sqrt(boltzmann_constant * temperature / charged_capacitance)",
      "standard deviation of the sampled voltage",
      "noise",
    ),
    sampled_electrons: formula(
      "1",
      "sqrt(boltzmann_constant * temperature * charged_capacitance) / elementary_charge",
      "standard deviation of the sampled charge in electrons",
      "noise",
    ),
  },
});

/** Thermal noise of a resistance in a bandwidth. */
export const resistorNoise = model({
  parameters: processDefaults,
  name: "resistor_noise",
  title: "Thermal noise of a resistance",
  about: "White noise of a resistance in equilibrium, far below the quantum limit.",
  inputs: {
    noisy_resistance: { unit: "ohm", meaning: "resistance", symbol: "R" },
    bandwidth: { unit: "1/s", meaning: "noise bandwidth", symbol: "B" },
  },
  formulas: {
    noise_voltage: formula(
      "V",
      "sqrt(4 * boltzmann_constant * temperature * noisy_resistance * bandwidth)",
      "standard deviation of the open-circuit voltage",
      "noise",
    ),
    noise_current: formula(
      "A",
      "sqrt(4 * boltzmann_constant * temperature * bandwidth / noisy_resistance)",
      "standard deviation of the short-circuit current",
      "noise",
    ),
  },
});
