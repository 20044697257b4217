/** Closed forms and the ratios that a network solve puts on them. */
import type { FormulaDefinition, InputDefinition } from "../../../formulas/sheet.ts";
import { defaultsOf, formula } from "../../define.ts";
import { SOLVED_OUTPUTS, type SolvedOutput } from "../contract.ts";

/** Before the name of an output: the closed form alone, and the solve's result over it. */
export const CLOSED = "closed_";
export const RATIO = "solve_ratio_";

const outputs = Object.keys(SOLVED_OUTPUTS) as SolvedOutput[];

/** The ratios: 1 unless the estimate has solved the network. */
export const ratioDefaults = defaultsOf(
  outputs.map((name) => [
    RATIO + name,
    "1",
    1,
    1,
    1,
    "this project",
    "default",
    `network solve over closed form, ${SOLVED_OUTPUTS[name][1]}`,
  ]),
);

/** Figures of a crossbar that no file has. */
export const crossbarDefaults = [
  ...ratioDefaults,
  ...defaultsOf([
    [
      "least_write_delivery",
      "1",
      0.8,
      0.8,
      0.8,
      "common practice",
      "memory",
      "least share of the write voltage at the far corner: beyond it cells near the drivers get " +
        "too much of what the far ones need",
    ],
  ]),
];

/** The ratios as inputs of a sheet. */
export const correctionInputs: Readonly<Record<string, InputDefinition>> = Object.fromEntries(
  outputs.map((name) => [
    RATIO + name,
    { unit: "1", meaning: `network solve over closed form, ${SOLVED_OUTPUTS[name][1]}` },
  ]),
);

/** Each closed form under its own name, and the output as that times its ratio. */
export function corrected(
  forms: Readonly<Partial<Record<SolvedOutput, FormulaDefinition>>>,
): Record<string, FormulaDefinition> {
  const made: Record<string, FormulaDefinition> = {};
  for (const [name, form] of Object.entries(forms)) {
    made[CLOSED + name] = { ...form, meaning: `${form.meaning}; closed form` };
    made[name] = formula(
      form.unit,
      `${CLOSED}${name} * ${RATIO}${name}`,
      form.meaning,
      "this project",
      { note: "the ratio is 1 where the closed form's error is below its bound" },
    );
  }
  return made;
}
