/** The published grid of cases on which a crossbar's closed forms are held against its solve. */
import { assemble } from "../../formulas/assemble.ts";
import { compile } from "../../formulas/compile.ts";
import type { Parser } from "../../formulas/expand.ts";
import { CLOSED } from "../../models/crossbar/closed/corrected.ts";
import type { Scheme, SolvedOutput } from "../../models/crossbar/contract.ts";
import { crosspointCellModel } from "../../models/registry.ts";
import type { SelectorKind } from "../../models/selector/bias.ts";
import { DEFAULTS } from "../parameters.ts";
import { crossbarSolve, SOLVED_NAMES, solveInputs } from "./procedure.ts";
import { dropOf, findingNames, hasClosedForm } from "./ratios.ts";

/** Figures of the grid: invented, and spread around those of real junctions. */
const SWITCH = {
  on_resistance: 100e3,
  off_resistance: 5e6,
  read_voltage: 0.3,
  scale_voltage: 0.25,
  set_voltage: 1,
  reset_voltage: 1.2,
  set_time: 1e-8,
  reset_time: 1e-8,
  current_limit: 20e-6,
};
const SELECTORS: Readonly<Record<SelectorKind, Readonly<Record<string, number>>>> = {
  none: {},
  diode: {
    selector_saturation_current: 1e-12,
    selector_emission_voltage: 0.06,
    selector_on_resistance: 2e3,
  },
  threshold: {
    selector_threshold_voltage: 1.5,
    selector_hold_voltage: 0.9,
    selector_off_current: 1e-9,
    selector_on_resistance: 2e3,
    selector_off_nonlinearity: 100,
    selector_turn_on_time: 5e-9,
  },
  tunnel: {
    selector_nonlinearity: 100,
    selector_nonlinearity_voltage: 1,
    selector_on_resistance: 20e3,
  },
  mixed_conductor: {
    selector_off_current: 1e-10,
    selector_nonlinearity_voltage: 1.2,
    selector_emission_voltage: 0.06,
    selector_on_resistance: 2e3,
  },
  complementary: {},
};
export const GRID = {
  selectors: Object.keys(SELECTORS) as SelectorKind[],
  schemes: ["grounded", "one-half", "one-third"] as const satisfies readonly Scheme[],
  sizes: [
    [8, 8],
    [32, 32],
    [48, 12],
    [12, 48],
  ] as const,
  /** Wire between two cells [ohm]. */
  segments: [0.5, 2, 8, 32] as const,
};
const FEATURE = 1e-7;

/** One case: what its lines take, and how much each closed form errs, relative to the solve. */
export interface GridCase {
  readonly selector: SelectorKind;
  readonly scheme: Scheme;
  readonly rows: number;
  readonly columns: number;
  readonly segment: number;
  readonly drop: number;
  readonly errors: ReadonlyMap<SolvedOutput, number>;
}

/** Closed forms against the solve, case by case. Some seconds. */
export function* gridCases(parse: Parser): Generator<GridCase> {
  for (const selector of GRID.selectors) {
    for (const scheme of GRID.schemes) {
      if (!hasClosedForm(selector, { read: scheme, write: scheme })) continue;
      yield* casesOf(selector, scheme, parse);
    }
  }
}

function* casesOf(selector: SelectorKind, scheme: Scheme, parse: Parser): Generator<GridCase> {
  const schemes = { read: scheme, write: scheme };
  const { instances } = crosspointCellModel(selector, schemes);
  const units = new Map<string, string>();
  for (const { of, bind = {} } of instances) {
    for (const [local, { unit }] of Object.entries(of.inputs)) {
      const name = bind[local] ?? local;
      if (!units.has(name)) units.set(name, unit);
    }
  }
  const fixed: Record<string, number> = { ...SWITCH, ...SELECTORS[selector], feature: FEATURE };
  const whole: Record<string, number> = { bits_per_cell: 1, decks: 1, rows: 1, columns: 1 };
  const wires = { row_wire_resistance_per_length: 0, column_wire_resistance_per_length: 0 };
  const standard = Object.fromEntries(
    [...DEFAULTS.values()].map(({ name, value }) => [name, value]),
  );
  const given: Record<string, number> = { ...standard, ...fixed, ...whole, ...wires };
  const list = Object.keys(given)
    .filter((name) => units.has(name))
    .map((name) => ({ name, unit: units.get(name)! }));
  const program = compile(assemble(instances, list, parse), findingNames(selector));
  const solve = crossbarSolve(selector, schemes);
  const solved = new Float64Array(SOLVED_NAMES.length);
  const values = new Float64Array(program.names.length);
  for (const [rows, columns] of GRID.sizes) {
    for (const segment of GRID.segments) {
      const perLength = segment / (2 * FEATURE);
      Object.assign(given, {
        rows,
        columns,
        row_wire_resistance_per_length: perLength,
        column_wire_resistance_per_length: perLength,
      });
      program.evaluate(
        Float64Array.from(program.inputs, (name) => given[name]!),
        values,
      );
      const found = new Map(program.names.map((name, k) => [name, values[k]!]));
      solve.run(
        Float64Array.from(solveInputs(selector), (name) => found.get(name)!),
        solved,
      );
      const errors = new Map<SolvedOutput, number>();
      SOLVED_NAMES.forEach((name, k) => {
        const closed = found.get(CLOSED + name)!;
        if (closed !== 0) errors.set(name, Math.abs(closed / solved[k]! - 1));
      });
      yield { selector, scheme, rows, columns, segment, drop: dropOf(found), errors };
    }
  }
}

/** Outputs by how well closed forms give them. */
export const OUTPUT_CLASSES: Readonly<Record<"far" | "leak", readonly SolvedOutput[]>> = {
  far: [
    "cell_on_current",
    "cell_off_current",
    "read_on_column_current",
    "read_off_column_current",
    "write_delivered_voltage",
    "disturb_voltage",
  ],
  leak: [
    "column_leak_current",
    "row_leak_current",
    "read_line_drop",
    "write_line_drop",
    "write_leak_current",
    "half_selected_power",
  ],
};

/** Upper ends of the classes of drop that the table has. */
export const DROPS = [0.005, 0.02, 0.05, 0.1, 0.2, 0.5, Number.POSITIVE_INFINITY] as const;

/** One row of the table: the worst error in a class of drop. */
export interface ErrorRow {
  readonly scheme: (typeof GRID.schemes)[number];
  readonly from: number;
  readonly upTo: number;
  readonly cases: number;
  readonly far: number;
  readonly leak: number;
}

/** The worst errors by scheme and by what the lines take. */
export function errorTable(cases: Iterable<GridCase>): readonly ErrorRow[] {
  const all = [...cases];
  return GRID.schemes
    .flatMap((scheme) =>
      DROPS.map((upTo, k) => {
        const from = k === 0 ? 0 : DROPS[k - 1]!;
        const inside = all.filter(
          (one) => one.scheme === scheme && one.drop > from && one.drop <= upTo,
        );
        const worst = (names: readonly SolvedOutput[]) =>
          Math.max(
            0,
            ...inside.flatMap(({ errors }) => names.map((name) => errors.get(name) ?? 0)),
          );
        const { far, leak } = OUTPUT_CLASSES;
        return { scheme, from, upTo, cases: inside.length, far: worst(far), leak: worst(leak) };
      }),
    )
    .filter(({ cases: count }) => count > 0);
}
