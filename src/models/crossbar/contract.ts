/**
 * What any model of a crossbar gives to cells and estimates: the closed forms do, and the procedure
 * around the exact network solve, under the same names.
 */
export const SCHEMES = ["floating", "grounded", "one-half", "one-third"] as const;
/**
 * What the unselected rows and columns get: nothing, zero, half, or one and two thirds of the
 * voltage.
 */
export type Scheme = (typeof SCHEMES)[number];

/** Reads and writes may hold the unselected lines differently. */
export interface SchemePair {
  readonly read: Scheme;
  readonly write: Scheme;
}

/** All pairs of schemes. */
export const SCHEME_PAIRS: readonly SchemePair[] = SCHEMES.flatMap((read) =>
  SCHEMES.map((write) => ({ read, write })),
);

type Outputs = Readonly<Record<string, readonly [unit: string, meaning: string]>>;

/** Quantities that a network solve gives: name, SI unit, meaning. */
export const SOLVED_OUTPUTS = {
  cell_on_current: ["A", "current of the selected far-corner cell in its on state, worst pattern"],
  cell_off_current: [
    "A",
    "current of the selected far-corner cell in its off state, worst pattern",
  ],
  read_on_column_current: ["A", "least current of the selected column with its cell on"],
  read_off_column_current: ["A", "largest current of the selected column with its cell off"],
  column_leak_current: ["A", "largest current of all unselected cells of a column in a read"],
  row_leak_current: ["A", "largest current of all unselected cells of the selected row in a read"],
  read_line_drop: ["V", "voltage lost along row and column on the way to the far corner in a read"],
  write_line_drop: [
    "V",
    "voltage beyond the cell's own that a driver must give to the far corner in a write",
  ],
  write_delivered_voltage: [
    "V",
    "junction voltage at the far corner in a write, drivers uncompensated",
  ],
  write_leak_current: ["A", "current of all half-selected cells of the selected row in a write"],
  half_selected_power: ["W", "power in the unselected junctions that carry current during a write"],
  disturb_voltage: ["V", "largest voltage of an unselected junction in a write"],
} as const satisfies Outputs;
export type SolvedOutput = keyof typeof SOLVED_OUTPUTS;

/** Quantities that a crossbar model defines: name, SI unit, meaning. */
export const CROSSBAR_OUTPUTS = {
  half_select_share: [
    "1",
    "largest voltage of an unselected junction over that of the selected one, in a write",
  ],
  row_bias_share: ["1", "voltage of an unselected row over that of the selected row in a read"],
  column_bias_share: [
    "1",
    "voltage of an unselected column over that of the selected row in a read",
  ],
  write_row_bias_share: [
    "1",
    "voltage of an unselected row over that of the selected row in a write",
  ],
  write_column_bias_share: [
    "1",
    "voltage of an unselected column over that of the selected row in a write",
  ],
  ...SOLVED_OUTPUTS,
  read_margin_current: [
    "A",
    "least difference of column current between the two states, over all patterns",
  ],
  write_delivery_share: ["1", "share of the write voltage that reaches the far corner"],
} as const satisfies Outputs;
export type CrossbarOutput = keyof typeof CROSSBAR_OUTPUTS;
