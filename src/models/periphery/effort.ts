/**
 * Logical effort: what all parts share, and the formulas of a path of gates or a chain of
 * inverters.
 */
import { type Formulas, given, part } from "./define.ts";

/**
 * The best stage effort, and the unit of effort of thick-oxide inverters. Instantiated once,
 * without a prefix.
 */
export const effort = part({
  name: "logical_effort",
  title: "Logical effort",
  about:
    "The stage effort rho that makes a chain fastest solves p + rho (1 - ln rho) = 0. Two Newton " +
    "steps from the straight line 2.82 + 0.71 p solve it to a part in a hundred million for p " +
    "from 0.3 to 2.",
  formulas: {
    first_stage_effort: given(
      "(2.82 + 0.71 * inverter_parasitic + inverter_parasitic) / log(2.82 + 0.71 * " +
        "inverter_parasitic)",
      "1",
      "stage effort after one Newton step",
      "logical-effort",
    ),
    best_stage_effort: given(
      "(first_stage_effort + inverter_parasitic) / log(first_stage_effort)",
      "1",
      "stage effort that makes a chain fastest",
      "logical-effort",
    ),
    thick_unit_capacitance: given(
      "thick_gate_capacitance * thick_gate_length * (1 + 1 / p_to_n_current)",
      "F",
      "input capacitance of the smallest thick-oxide inverter",
      "this project",
      "its n-type device is as wide as long, its p-type one wider for an equal current",
    ),
    thick_tau: given(
      "log(2) * thick_unit_resistance * thick_gate_capacitance * (1 + 1 / p_to_n_current)",
      "s",
      "unit of logical effort of thick-oxide inverters",
      "logical-effort",
    ),
  },
});

/** Effort and parasitic delay of a gate of several inputs; `gate_inputs` [1] is how many. */
export const gateEffort = part({
  name: "gate_effort",
  title: "Logical effort of gates",
  about:
    "Gates whose devices are widened until they pull like the smallest inverter, with p-type " +
    "devices wider by the ratio of the currents.",
  inputs: { gate_inputs: { unit: "1", meaning: "inputs of the gate" } },
  formulas: {
    nand_effort: given(
      nandEffort("gate_inputs"),
      "1",
      "logical effort of a gate with n-type devices in series",
      "logical-effort",
    ),
    nor_effort: given(
      "(1 + gate_inputs / p_to_n_current) / (1 + 1 / p_to_n_current)",
      "1",
      "logical effort of a gate with p-type devices in series",
      "logical-effort",
    ),
    gate_parasitic: given(
      "gate_inputs * inverter_parasitic",
      "1",
      "parasitic delay of either gate",
      "logical-effort",
      "drains at the output only; inner nodes of the stack are left out",
    ),
  },
});

/** Logical effort of a gate with n-type devices in series, as a formula of its inputs. */
export function nandEffort(inputs: string): string {
  return `(${inputs} + 1 / p_to_n_current) / (1 + 1 / p_to_n_current)`;
}

/** The delay of a path of some stages in units of effort, as a formula: N F^(1/N) + N p. */
export function delayOfStages(effort: string, stages: string): string {
  return `${stages} * ${effort} ^ (1 / ${stages}) + ${stages} * inverter_parasitic`;
}

export interface Path {
  /** Prefix of the formulas' names. */
  readonly name: string;
  /** The path effort G B H, as a formula. */
  readonly effort: string;
  /** Fewest stages, and by how many they may grow without changing the polarity. */
  readonly fewest: number;
  readonly step: 1 | 2;
  /**
   * Parasitic delay of the gates that are no inverters beyond that of inverters in their place,
   * as a formula.
   */
  readonly extraParasitic?: string;
  /** Unit of effort in which the delay is counted. */
  readonly tau?: "tau" | "thick_tau";
}

/**
 * Formulas of a path of gates: `_effort`, `_stages`, `_stage_effort`, `_delay`. The number of
 * stages is the best that
 * the polarity allows: the delay is convex in it, so the best is one of two neighbours of log F
 * / log rho.
 * Source: logical-effort (D = N F^(1/N) + P).
 */
export function path({ name, effort, fewest, step, extraParasitic, tau = "tau" }: Path): Formulas {
  const delayOf = (stages: string) => delayOfStages(`${name}_effort`, stages);
  const extra = extraParasitic === undefined ? "" : ` + ${extraParasitic}`;
  const free = `log(${name}_effort) / log(best_stage_effort)`;
  const source = "logical-effort";
  return {
    [`${name}_effort`]: given(`max(1, ${effort})`, "1", "path effort", source),
    [`${name}_fewer`]: given(
      `${fewest} + ${step} * max(0, floor((${free} - ${fewest}) / ${step}))`,
      "1",
      "number of stages at or below the best",
      source,
    ),
    [`${name}_more`]: given(`${name}_fewer + ${step}`, "1", "next number of stages", source),
    [`${name}_fewer_delay`]: given(
      delayOf(`${name}_fewer`),
      "1",
      "delay with fewer stages",
      source,
    ),
    [`${name}_more_delay`]: given(delayOf(`${name}_more`), "1", "delay with more stages", source),
    [`${name}_stages`]: given(
      `${name}_fewer_delay <= ${name}_more_delay ? ${name}_fewer : ${name}_more`,
      "1",
      "number of stages",
      source,
    ),
    [`${name}_stage_effort`]: given(
      `${name}_effort ^ (1 / ${name}_stages)`,
      "1",
      "effort of each stage",
      source,
    ),
    [`${name}_delay`]: given(
      `${tau} * (min(${name}_fewer_delay, ${name}_more_delay)${extra})`,
      "s",
      "delay of the path",
      source,
    ),
  };
}

/**
 * Formulas of a chain of inverters that ends at a line, sized from the line backwards: each
 * inverter has
 * `drive_effort`, the first (smallest) one what is left. That is larger than the fastest effort,
 * because inverters of
 * the fastest chain cost more area and energy than a line is worth. `_stages`, `_delay`,
 * `_width` (all device widths).
 * `load` is a formula in farads. With `odd`, one more smallest inverter makes the number odd
 * where it is not.
 */
export function chain(options: {
  name: string;
  load: string;
  odd?: boolean;
  thick?: boolean;
}): Formulas {
  const { name, load, odd = false, thick = false } = options;
  const first = thick ? "thick_unit_capacitance" : "unit_gate_input_capacitance";
  const gate = thick ? "thick_gate_capacitance" : "gate_capacitance";
  const tau = thick ? "thick_tau" : "tau";
  const source = "logical-effort";
  const needed = `${name}_needed`;
  return {
    [`${name}_effort`]: given(`max(1, (${load}) / ${first})`, "1", "effort of the chain", source),
    [needed]: given(
      `max(1, ceil(log(${name}_effort) / log(drive_effort)))`,
      "1",
      "inverters that the effort needs",
      source,
    ),
    [`${name}_stages`]: given(
      odd ? `2 * floor(${needed} / 2) + 1` : needed,
      "1",
      odd ? "inverters of the chain, an odd number" : "inverters of the chain",
      source,
    ),
    [`${name}_first_effort`]: given(
      `${name}_effort / drive_effort ^ (${needed} - 1)`,
      "1",
      "effort of the first inverter",
      source,
    ),
    [`${name}_delay`]: given(
      `${tau} * ((${needed} - 1) * drive_effort + ${name}_first_effort + ${name}_stages - ` +
        `${needed} + ` +
        `${name}_stages * inverter_parasitic)`,
      "s",
      "delay of the chain",
      source,
    ),
    [`${name}_size`]: given(
      `1 + ${name}_stages - ${needed} + ${name}_effort * (1 - drive_effort ^ (1 - ${needed})) / ` +
        `(drive_effort - 1)`,
      "1",
      "sizes of all inverters of the chain together, in smallest inverters",
      source,
      "a geometric series from the line backwards",
    ),
    [`${name}_width`]: given(
      `${name}_size * ${first} / ${gate}`,
      "m",
      "widths of all devices of the chain together",
      source,
    ),
  };
}
