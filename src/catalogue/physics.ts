/** What no device can be, and what a user should be told. */

import type { Problem } from "../errors/problem.ts";
import { checkSelector, checkSupply, checkSwitch, type Locate } from "../schema/checks.ts";
import type { Parameters } from "./entry.ts";
import type { Kind } from "./kinds.ts";
import type { Merged } from "./layers.ts";

/** Two fields of which the first is above the second by nature. */
const ORDERS: Readonly<Partial<Record<Kind, readonly (readonly [string, string])[]>>> = {
  switch: [["off_resistance", "on_resistance"]],
  selector: [["threshold_voltage", "hold_voltage"]],
  technology: [
    ["supply", "threshold_voltage"],
    ["nmos_on_current", "nmos_off_current"],
  ],
};

/** Fields that have a smallest value, with the reason. */
const LEAST: Readonly<Partial<Record<Kind, Readonly<Record<string, readonly [number, string]>>>>> =
  {
    switch: {
      nonlinearity: [2, "an ohmic device has 2, and none conducts less than in proportion"],
      verify_pulses: [1, "a write has at least one pulse"],
      film_permittivity: [1, "that of vacuum is 1"],
    },
    selector: { nonlinearity: [2, "an ohmic device has 2"] },
  };

/** The refusals, by nominal values. */
export function physicalProblems(kind: Kind, path: string, values: Parameters): Problem[] {
  const locate: Locate = (name) => ({ path: `${path}/${name}` });
  return [...orderProblems(kind, values, locate), ...leastProblems(kind, values, locate)];
}

function orderProblems(kind: Kind, values: Parameters, locate: Locate): Problem[] {
  if (kind === "switch") return checkSwitch(values, locate);
  if (kind === "selector") return checkSelector(values, locate);
  if (kind !== "technology") return [];
  const { supply, threshold_voltage, nmos_on_current: on, nmos_off_current: off } = values;
  const problems = checkSupply(supply, threshold_voltage, locate);
  if (on === undefined || off === undefined || on.value > off.value) return problems;
  return [
    ...problems,
    {
      code: "out-of-range",
      what: "the on-current of the transistor isn't above its off-current",
      ...locate("nmos_on_current"),
      got: `${on.value} and ${off.value} ${on.unit}`,
      expected: "a transistor that turns off",
    },
  ];
}

function leastProblems(kind: Kind, values: Parameters, locate: Locate): Problem[] {
  return Object.entries(LEAST[kind] ?? {}).flatMap(([name, [least, why]]): Problem[] => {
    const value = values[name];
    if (value === undefined || value.value >= least) return [];
    return [
      {
        code: "out-of-range",
        what: `\`${name}\` of the ${kind} is too small`,
        ...locate(name),
        got: String(value.value),
        expected: `at least ${least}: ${why}`,
      },
    ];
  });
}

/** What isn't wrong but has to be known. */
export function cautionsOf(kind: Kind, merged: Merged, values: Parameters): string[] {
  const cautions: string[] = [];
  for (const [above, below] of ORDERS[kind] ?? []) {
    const high = values[above];
    const low = values[below];
    if (high === undefined || low === undefined || high.low > low.high) continue;
    cautions.push(
      `the ranges of ${above} and ${below} meet: some samples have them the wrong way round`,
    );
  }
  const classes = merged.chain.filter((_, i) => i > 0);
  if (classes.length > 0) {
    cautions.push(
      `what ${merged.chain[0]} doesn't give itself is that of ${classes.join(" and ")}`,
    );
  }
  return cautions;
}
