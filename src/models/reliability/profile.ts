/** Retention over a profile of temperatures: a season, a drive, a shelf. */
import type { Instance } from "../../formulas/sheet.ts";
import { type InputDefinition, type Sheet, sheet } from "../../formulas/sheet.ts";

const SOURCE = "jesd91";

/** Names of the temperature and the share of one step of a profile; steps count from 1. */
export function profileNames(step: number): { temperature: string; share: string } {
  return { temperature: `profile_temperature_${step}`, share: `profile_share_${step}` };
}

const INPUTS: Readonly<Record<string, InputDefinition>> = {
  retention_time: { unit: "s", meaning: "retention that is stated" },
  retention_temperature: { unit: "K", meaning: "temperature at which it is stated" },
  activation_energy: {
    unit: "J",
    meaning: "activation energy of the loss of a state",
    symbol: "E_a",
  },
};

const kept = new Map<number, Sheet>();

/** The sheet of a profile of so many steps: the mean of the Arrhenius rate over them. */
export function profileRetention(steps: number): Sheet {
  const known = kept.get(steps);
  if (known !== undefined) return known;
  const numbers = Array.from({ length: steps }, (_, i) => profileNames(i + 1));
  const rates = numbers.map(
    ({ temperature, share }) =>
      `${share} * exp(activation_energy / boltzmann_constant * (1 / retention_temperature - 1 / ${temperature}))`,
  );
  const made = sheet({
    name: `profile_retention_${steps}`,
    title: "Retention over a temperature profile",
    about:
      "Losses add up by the share of the time at each temperature, each by Arrhenius from the " +
      "stated retention: the hot days decide. One activation energy over the whole profile.",
    inputs: {
      ...INPUTS,
      ...Object.fromEntries(
        numbers.flatMap(({ temperature, share }, i) => [
          [temperature, { unit: "K", meaning: `temperature of step ${i + 1}` }],
          [share, { unit: "1", meaning: `share of the time in step ${i + 1}` }],
        ]),
      ),
    },
    formulas: {
      profile_rate: {
        unit: "1",
        formula: rates.join(" + "),
        meaning: "mean rate of loss over that at the temperature of the stated retention",
        source: SOURCE,
      },
      retention: {
        unit: "s",
        formula: "retention_time / profile_rate",
        meaning: "time for which a state is kept in use",
        source: SOURCE,
      },
      profile_effective_temperature: {
        unit: "K",
        formula:
          "1 / (1 / retention_temperature - boltzmann_constant * log(profile_rate) / activation_energy)",
        meaning: "constant temperature with the same loss",
        source: SOURCE,
      },
    },
  });
  kept.set(steps, made);
  return made;
}

/** The use of such a sheet. */
export function profileInstance(steps: number): Instance {
  return { of: profileRetention(steps) };
}
