/**
 * The crossbar problem and its solution, in SI. An array of `rows` row wires and `columns` column wires; at every
 * crossing a two-terminal element joins the row node to the column node. Layout is row-major: junction (i, j) stands
 * at i * columns + j.
 */

/** Current through one element as a function of its own voltage. All are strictly increasing. */
export type Law =
  | { readonly law: "ohmic"; readonly resistance: number }
  | { readonly law: "sinh"; readonly resistance: number; readonly scaleVoltage: number }
  | {
      readonly law: "threshold";
      readonly onResistance: number;
      readonly offResistance: number;
      readonly thresholdVoltage: number;
      readonly widthVoltage: number;
    }
  | {
      readonly law: "diode";
      readonly saturationCurrent: number;
      readonly emissionVoltage: number;
      /** In parallel; none when left out. */
      readonly leakResistance?: number;
    };

/** What joins a row node to a column node: a switch, or a switch with a selector in series. */
export interface JunctionKind {
  readonly element: Law;
  readonly selector?: Law;
}

/** The junctions: ohmic ones by their conductances [S], others by kinds and the kind of every junction. */
export type Junctions =
  | { readonly conductance: Float64Array }
  | { readonly kinds: readonly JunctionKind[]; readonly kindOf: Uint8Array };

/**
 * The terminals of one side, one per line: a source `voltage` [V] behind `resistance` [ohm]; a resistance of NaN means
 * that the line has no terminal here; 0 is an ideal source.
 */
export interface TerminalSide {
  readonly voltage: Float64Array;
  readonly resistance: Float64Array;
}

/** left and right end the rows, top and bottom the columns. A side that is left out floats. */
export type SideName = "left" | "right" | "top" | "bottom";

export interface CrossbarProblem {
  readonly rows: number;
  readonly columns: number;
  /** One segment of a row wire between neighbouring junctions [ohm], zero allowed. */
  readonly rowResistance: number;
  readonly columnResistance: number;
  readonly junctions: Junctions;
  readonly terminals: { readonly [side in SideName]?: TerminalSide };
}

export interface CrossbarSolution {
  /** False when the iteration gave up: the numbers then are no solution, `residual` says how far off. */
  readonly converged: boolean;
  /** Largest Kirchhoff error of a node, relative to the sum of the magnitudes of its currents. */
  readonly residual: number;
  /** |supplied - dissipated| / (sum of the magnitudes of both). */
  readonly energyError: number;
  /** Conjugate-gradient steps in all, and linear systems solved (Newton steps and refinements). */
  readonly iterations: number;
  readonly linearSolves: number;
  /** Voltages of the nodes against ground [V], rows x columns. */
  readonly rowVoltages: Float64Array;
  readonly columnVoltages: Float64Array;
  /** Row node minus column node [V], right to the last digits however small; current from row to column [A]. */
  readonly junctionVoltages: Float64Array;
  readonly junctionCurrents: Float64Array;
  /** Into the array through left and right, out of it through top and bottom [A]; 0 where there is no terminal. */
  readonly terminalCurrents: { readonly [side in SideName]: Float64Array };
  /** Both ends of a line together [A]. */
  readonly rowCurrents: Float64Array;
  readonly columnCurrents: Float64Array;
  /** [W]; a source that absorbs counts negative. */
  readonly power: {
    readonly source: number;
    readonly junction: number;
    readonly wire: number;
    readonly driver: number;
  };
}

/** What the solver may be told; every option has a default. */
export interface SolveOptions {
  /** Bound on Newton steps and refinements; default 100. */
  readonly maxSolves?: number;
  /** Use the line method alone, or the coarsened one; chosen by size when left out. */
  readonly method?: "line" | "coarsened";
  /** Where Newton's method starts: the solution of a network like this one. Linear networks need none. */
  readonly start?: StartVoltages;
}

/** Node voltages against ground [V], rows x columns, as a solution has them. */
export interface StartVoltages {
  readonly rowVoltages: Float64Array;
  readonly columnVoltages: Float64Array;
}
