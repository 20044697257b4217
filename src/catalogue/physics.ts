/** What no device can be, and what a user should be told. */

import type { Problem } from "../errors/problem.ts";
import type { Parameters } from "./entry.ts";
import type { Kind } from "./kinds.ts";
import type { Merged } from "./layers.ts";

/** Two fields of which the first must be above the second. */
interface Order {
  readonly kind: Kind;
  readonly above: string;
  readonly below: string;
  readonly code: string;
  readonly why: string;
}

const ORDERS: readonly Order[] = [
  {
    kind: "switch",
    above: "off_resistance",
    below: "on_resistance",
    code: "off-below-on",
    why: "on is the low-resistance state",
  },
  {
    kind: "selector",
    above: "threshold_voltage",
    below: "hold_voltage",
    code: "out-of-range",
    why: "a selector that snaps on at its threshold holds below it",
  },
  {
    kind: "technology",
    above: "supply",
    below: "threshold_voltage",
    code: "supply-below-threshold",
    why: "a transistor must turn on",
  },
  {
    kind: "technology",
    above: "nmos_on_current",
    below: "nmos_off_current",
    code: "out-of-range",
    why: "a transistor must turn off",
  },
];

/** Fields that have a smallest value. */
const LEAST: Readonly<Partial<Record<Kind, Readonly<Record<string, readonly [number, string]>>>>> =
  {
    switch: {
      on_off_ratio: [1, "the off resistance is above the on resistance"],
      nonlinearity: [2, "an ohmic device has 2, and none conducts less than in proportion"],
      verify_pulses: [1, "a write has at least one pulse"],
      film_permittivity: [1, "that of vacuum is 1"],
    },
    selector: { nonlinearity: [2, "an ohmic device has 2"] },
  };

/** The refusals; values are nominal ones. */
export function physicalProblems(kind: Kind, path: string, values: Parameters): Problem[] {
  const problems: Problem[] = [];
  for (const { above, below, code, why } of ORDERS.filter((order) => order.kind === kind)) {
    const high = values[above];
    const low = values[below];
    if (high === undefined || low === undefined || high.value > low.value) continue;
    problems.push({
      code,
      what: `\`${above}\` of the ${kind} isn't above its \`${below}\``,
      path: `${path}/${above}`,
      got: `${high.value} ${high.unit} and ${low.value} ${low.unit}`,
      expected: why,
    });
  }
  for (const [name, [least, why]] of Object.entries(LEAST[kind] ?? {})) {
    const value = values[name];
    const tooSmall = name === "on_off_ratio" ? value?.value === least : false;
    if (value === undefined || (value.value >= least && !tooSmall)) continue;
    problems.push({
      code: name === "on_off_ratio" ? "off-below-on" : "out-of-range",
      what: `\`${name}\` of the ${kind} is too small`,
      path: `${path}/${name}`,
      got: String(value.value),
      expected: `more than ${least}: ${why}`,
    });
  }
  return problems;
}

/** What isn't wrong but has to be known. */
export function cautionsOf(kind: Kind, merged: Merged, values: Parameters): string[] {
  const cautions: string[] = [];
  for (const { above, below } of ORDERS.filter((order) => order.kind === kind)) {
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
