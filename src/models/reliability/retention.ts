/** Retention: thermally activated loss, tests at high temperature, temperature over time. */
import { refuse } from "../../errors/problem.ts";
import { periodicMean } from "../../numerics/quadrature.ts";
import { exp, log, sin } from "../../numerics/special/elementary.ts";
import { BOLTZMANN_CONSTANT } from "../../quantities/constants.ts";
import { neededBarrier } from "../thermal.ts";
import { formula, reliabilityProcedure, reliabilitySheet } from "./define.ts";

const SOURCE = "jesd91";

export const acceleration = reliabilitySheet(
  "temperature_acceleration",
  "Acceleration by temperature",
  "Arrhenius: one activation energy from the temperature of use to that of the test. Below 1 " +
    "where the test is colder than the use.",
  {
    temperature_acceleration: formula(
      "1",
      "exp(activation_energy / boltzmann_constant * (1 / use_temperature - 1 / stress_temperature))",
      "how much faster the loss is in the test",
      SOURCE,
      { symbol: "A" },
    ),
    equivalent_time: formula(
      "s",
      "stress_time * temperature_acceleration",
      "time in use that the test stands for",
      SOURCE,
    ),
  },
);

export const statedRetention = reliabilitySheet(
  "stated_retention",
  "Retention at the temperature of use",
  "The stated retention of the switch carried by Arrhenius to the temperature of the study.",
  {
    retention: formula(
      "s",
      "retention_time * exp(activation_energy / boltzmann_constant * (1 / temperature - 1 / retention_temperature))",
      "time for which a state is kept in use",
      SOURCE,
    ),
  },
);

export const twoTests = reliabilitySheet(
  "two_retention_tests",
  "Retention from two tests",
  "The activation energy from the times to failure at two temperatures, and what follows from it.",
  {
    fitted_activation_energy: formula(
      "J",
      "boltzmann_constant * log(stress_time / second_time) / (1 / stress_temperature - 1 / second_temperature)",
      "activation energy of the two tests",
      SOURCE,
      { symbol: "E_a" },
    ),
    colder_by: formula(
      "1/K",
      "1 / use_temperature - 1 / stress_temperature",
      "difference of the inverse temperatures of use and test",
      SOURCE,
    ),
    retention_in_use: formula(
      "s",
      "stress_time * exp(fitted_activation_energy / boltzmann_constant * colder_by)",
      "retention at the temperature of use",
      SOURCE,
    ),
    highest_temperature: formula(
      "K",
      "1 / (1 / stress_temperature + boltzmann_constant * log(wanted_time / stress_time) / fitted_activation_energy)",
      "temperature at which the wanted retention is just met",
      SOURCE,
    ),
  },
);

export const thermalLoss = reliabilitySheet(
  "thermal_loss",
  "Loss over an energy barrier",
  "Thermally activated loss with an attempt time, the barrier in units of kT.",
  {
    bit_loss: formula(
      "1",
      "-expm1(-storage_time / attempt_time * exp(-stability))",
      "probability that a bit is lost",
      "thermal",
    ),
    needed_stability: formula(
      "1",
      neededBarrier("storage_time", "words", "macro_loss_target"),
      "barrier that keeps the loss of any bit below its target",
      "thermal",
      { note: "`words` counts all independent bits here" },
    ),
  },
);

/** A share of the time spent at a temperature [K]. */
export interface TemperatureShare {
  readonly temperature: number;
  readonly share: number;
}

/** The constant temperature [K] with the same loss as a profile; activation energy in J. */
export function effectiveTemperature(profile: readonly TemperatureShare[], energy: number): number {
  const { reference, mean } = meanRate(profile, energy);
  return 1 / (1 / reference - (BOLTZMANN_CONSTANT * log(mean)) / energy);
}

/** Share of the loss that each step of a profile causes. */
export function lossShares(profile: readonly TemperatureShare[], energy: number): number[] {
  const { reference, mean } = meanRate(profile, energy);
  return profile.map((step) => {
    return (step.share * relativeRate(energy, reference, step.temperature)) / mean;
  });
}

/** Mean rate over the profile, relative to the rate at its hottest temperature. */
function meanRate(
  profile: readonly TemperatureShare[],
  energy: number,
): { reference: number; mean: number } {
  const total = profile.reduce((sum, step) => sum + step.share, 0);
  if (!(Math.abs(total - 1) < 1e-9)) {
    refuse({
      code: "out-of-range",
      what: "the shares of a temperature profile must add up to 1",
      got: String(total),
      fix: "state for each temperature the share of the time that is spent there",
    });
  }
  const reference = Math.max(...profile.map((step) => step.temperature));
  const mean = profile.reduce((sum, step) => {
    return sum + step.share * relativeRate(energy, reference, step.temperature);
  }, 0);
  return { reference, mean };
}

/** Rate at a temperature over the rate at the reference. */
export function relativeRate(energy: number, reference: number, temperature: number): number {
  return exp((energy / BOLTZMANN_CONSTANT) * (1 / reference - 1 / temperature));
}

export const season = reliabilityProcedure(
  "seasonal_retention",
  {
    title: "Loss over a yearly temperature",
    about:
      "Mean over a yearly sine of the Arrhenius rate, by the trapezoidal rule over the period " +
      "until it is steady to 1e-14.",
    source: SOURCE,
  },
  ["mean_temperature", "temperature_amplitude", "activation_energy"],
  {
    seasonal_rate_ratio: { unit: "1", meaning: "mean rate over the rate at the mean temperature" },
    seasonal_temperature: { unit: "K", meaning: "constant temperature with the same loss" },
  },
  (mean, amplitude, energy) => {
    const ratio = periodicMean((angle) =>
      relativeRate(energy!, mean!, mean! + amplitude! * sin(angle)),
    );
    return [ratio, 1 / (1 / mean! - (BOLTZMANN_CONSTANT * log(ratio)) / energy!)];
  },
);
