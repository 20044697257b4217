// The closed forms of a read and a write against the network that they stand for: the selected row and column with
// their wires, ohmic junctions to lines at the scheme's levels, solved by Gaussian elimination, node by node.
import { beforeAll, describe, expect, test } from "vitest";
import { closedCrossbar } from "../../../src/models/crossbar/closed/forms.ts";
import { readForms } from "../../../src/models/crossbar/closed/read.ts";
import { SCHEMES, type Scheme } from "../../../src/models/crossbar/contract.ts";
import { evaluate, evaluateOne } from "../evaluate.ts";

const ON = 2e4;
const OFF = 3e5;
/** Of the array that is being tested. */
let [ROWS, COLUMNS] = [7, 12];
const READ = 0.3;
const WRITE = 1.7;
const WRITTEN = 45e-6;
const ROW_WIRE = 90;
const COLUMN_WIRE = 40;

/** Solves a x = b by elimination with pivots. */
function solve(a: number[][], b: number[]): number[] {
  const n = b.length;
  for (let i = 0; i < n; i++) {
    let pivot = i;
    for (let k = i; k < n; k++) if (Math.abs(a[k]![i]!) > Math.abs(a[pivot]![i]!)) pivot = k;
    [a[i], a[pivot]] = [a[pivot]!, a[i]!];
    [b[i], b[pivot]] = [b[pivot]!, b[i]!];
    for (let k = i + 1; k < n; k++) {
      const factor = a[k]![i]! / a[i]![i]!;
      for (let j = i; j < n; j++) a[k]![j]! -= factor * a[i]![j]!;
      b[k]! -= factor * b[i]!;
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let i = n - 1; i >= 0; i--) {
    let sum = b[i]!;
    for (let j = i + 1; j < n; j++) sum -= a[i]![j]! * x[j]!;
    x[i] = sum / a[i]![i]!;
  }
  return x;
}

interface Lines {
  /** At the drivers of row and column, and of the unselected rows and columns. */
  readonly drive: number;
  readonly row: number;
  readonly column: number;
  /** Unselected junctions of the selected row and of the selected column. */
  readonly onRow: number;
  readonly onColumn: number;
  /** The far corner: a resistance, or a current that it takes. */
  readonly cell?: number;
  readonly taken?: number;
}

/** Voltages along both lines, drivers first; the far corner is last. */
function network(lines: Lines) {
  const { drive, row, column, onRow, onColumn, cell = Number.POSITIVE_INFINITY, taken = 0 } = lines;
  const n = COLUMNS - 1;
  const size = n + ROWS - 1;
  const a = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  const b = new Array<number>(size).fill(0);
  const join = (i: number, j: number, g: number) => {
    a[i]![i]! += g;
    a[j]![j]! += g;
    a[i]![j]! -= g;
    a[j]![i]! -= g;
  };
  const hold = (i: number, level: number, g: number) => {
    a[i]![i]! += g;
    b[i]! += g * level;
  };
  const ladder = (
    first: number,
    count: number,
    driver: number,
    wire: number,
    r: number,
    to: number,
  ) => {
    hold(first, driver, 1 / wire);
    for (let k = 1; k < count; k++) join(first + k - 1, first + k, 1 / wire);
    for (let k = 0; k < count - 1; k++) hold(first + k, to, 1 / r);
  };
  ladder(0, n, drive, ROW_WIRE, onRow, column);
  ladder(n, ROWS - 1, 0, COLUMN_WIRE, onColumn, row);
  join(n - 1, size - 1, 1 / cell);
  b[n - 1]! -= taken;
  b[size - 1]! += taken;
  const v = solve(a, b);
  const along = [drive, ...v.slice(0, n)];
  const down = [0, ...v.slice(n)];
  const corner = along.at(-1)! - down.at(-1)!;
  const sum = (list: readonly number[], to: number, r: number) =>
    list.slice(0, -1).reduce((all, at) => all + (at - to) / r, 0);
  const squares = (list: readonly number[], to: number, r: number, wire: number) =>
    list
      .slice(0, -1)
      .reduce((all, at, k) => all + (at - to) ** 2 / r + (at - list[k + 1]!) ** 2 / wire, 0);
  return {
    corner,
    current: corner / cell,
    rowLeak: sum(along, column, onRow),
    columnLeak: -sum(down, row, onColumn),
    /** What arrives at the column's end. */
    sensed: (down[1]! - down[0]!) / COLUMN_WIRE - (down[0]! - row) / onColumn,
    power: squares(along, column, onRow, ROW_WIRE) + squares(down, row, onColumn, COLUMN_WIRE),
  };
}

/** Levels of the unselected rows and columns over the applied voltage; floating ones by three groups in series. */
function levelsOf(scheme: Scheme): { row: number; column: number } {
  if (scheme === "grounded") return { row: 0, column: 0 };
  if (scheme === "one-half") return { row: 1 / 2, column: 1 / 2 };
  if (scheme === "one-third") return { row: 1 / 3, column: 2 / 3 };
  const groups = [1 / (COLUMNS - 1), 1 / ((COLUMNS - 1) * (ROWS - 1)), 1 / (ROWS - 1)];
  const all = groups[0]! + groups[1]! + groups[2]!;
  return { row: groups[2]! / all, column: 1 - groups[0]! / all };
}

/** Currents of ohmic junctions at the voltages that the sheets ask for. */
function junctions(at: "read" | "write", voltage: number): Record<string, number> {
  return Object.fromEntries(
    [
      ["on", ON],
      ["off", OFF],
    ].flatMap(([state, r]) => [
      [`${at}_${state}_full`, voltage / (r as number)],
      [`${at}_${state}_unselected`, voltage / (r as number)],
      [`${at}_${state}_half`, voltage / 2 / (r as number)],
      [`${at}_${state}_third`, voltage / 3 / (r as number)],
      [`${at}_${state}_slope`, 1 / (r as number)],
    ]),
  );
}

const GIVEN = {
  array_read_voltage: READ,
  array_write_voltage: WRITE,
  switch_write_current: WRITTEN,
  least_write_delivery: 0.8,
  cell_width: 3e-7,
  cell_height: 2e-7,
  row_wire_resistance_per_length: ROW_WIRE / 3e-7,
  column_wire_resistance_per_length: COLUMN_WIRE / 2e-7,
  ...junctions("read", READ),
  ...junctions("write", WRITE),
};

const RATIOS = [
  "cell_on_current",
  "cell_off_current",
  "read_on_column_current",
  "read_off_column_current",
  "column_leak_current",
  "row_leak_current",
  "read_line_drop",
  "write_line_drop",
  "write_delivered_voltage",
  "write_leak_current",
  "half_selected_power",
  "disturb_voltage",
];
const unsolved = Object.fromEntries(RATIOS.map((name) => [`solve_ratio_${name}`, 1]));

const closed = (scheme: Scheme, more: Readonly<Record<string, number>> = {}) =>
  evaluate(closedCrossbar({ read: scheme, write: scheme }), {
    rows: ROWS,
    columns: COLUMNS,
    ...GIVEN,
    ...unsolved,
    ...more,
  });
const near = (got: number | undefined, wanted: number, what: string) =>
  expect(Math.abs(got! / wanted - 1), `${what}: ${got} for ${wanted}`).toBeLessThan(1e-9);

/** Which junctions of row and column are on where a question's data are worst: `patterns.ts`, searched elsewhere. */
const WORST = {
  floating: { on: [OFF, OFF], off: [ON, ON] },
  grounded: { on: [ON, ON], off: [OFF, OFF] },
  "one-half": { on: [ON, OFF], off: [OFF, ON] },
  "one-third": { on: [ON, OFF], off: [OFF, ON] },
} as const;

const SIZES = [
  [7, 12],
  [2, 2],
  [2, 6],
  [9, 2],
] as const;
const CASES = SCHEMES.flatMap((scheme) =>
  SIZES.map(([rows, columns]) => ({ scheme, rows, columns })),
);

describe.each(CASES)("$scheme, $rows rows and $columns columns", ({ scheme, rows, columns }) => {
  beforeAll(() => {
    [ROWS, COLUMNS] = [rows, columns];
  });
  // Also while the tests are declared.
  [ROWS, COLUMNS] = [rows, columns];
  const levels = levelsOf(scheme);
  const read = (state: "on" | "off", cell?: number) => {
    const [onRow, onColumn] = WORST[scheme][state];
    const at = { drive: READ, row: levels.row * READ, column: levels.column * READ };
    return network({ ...at, onRow, onColumn, ...(cell !== undefined && { cell }) });
  };
  const write = (drive: number, taken: { cell?: number; taken?: number }) =>
    network({
      drive,
      row: levels.row * drive,
      column: levels.column * drive,
      onRow: ON,
      onColumn: scheme === "grounded" ? OFF : ON,
      ...taken,
    });
  const values = closed(scheme);

  test("levels of the lines are those of the scheme", () => {
    for (const name of ["row_bias_share", "write_row_bias_share"]) {
      expect(values[name]).toBeCloseTo(levels.row, 12);
    }
    for (const name of ["column_bias_share", "write_column_bias_share"]) {
      expect(values[name]).toBeCloseTo(levels.column, 12);
    }
  });

  test("the far corner's currents are those of the network, in both states", () => {
    near(values["cell_on_current"], read("on", ON).current, "on");
    near(values["cell_off_current"], read("off", OFF).current, "off");
    near(values["read_line_drop"], READ - read("on", ON).corner, "drop");
  });

  test("the amplifier's currents are what arrives at the end of the column", () => {
    near(values["read_on_column_current"], read("on", ON).sensed, "on");
    near(values["read_off_column_current"], read("off", OFF).sensed, "off");
    const margin = read("on", ON).sensed - read("off", OFF).sensed;
    near(values["read_margin_current"], margin, "margin");
  });

  test("leaks are those of the lines with the far corner open", () => {
    const rowLeak = Math.max(read("on").rowLeak, read("off").rowLeak);
    near(values["row_leak_current"], rowLeak, "row");
    const columnLeak = read("off").columnLeak;
    if (scheme === "grounded") expect(values["column_leak_current"]).toBe(0);
    else near(values["column_leak_current"], columnLeak, "column");
  });

  // The voltage at the driver that leaves the cell its own voltage at its own current: two solves give the line.
  const open = write(1, {}).corner;
  const needed = (WRITE - write(0, { taken: WRITTEN }).corner) / open;

  test("a write gives the far corner its voltage at its current", () => {
    near(values["write_line_drop"], needed - WRITE, "drop");
    near(write(needed, { taken: WRITTEN }).corner, WRITE, "voltage of the cell");
    const uncompensated = write(WRITE, { cell: WRITE / WRITTEN }).corner;
    near(values["write_delivered_voltage"], uncompensated, "delivered");
    near(values["write_delivery_share"], uncompensated / WRITE, "share");
    const margin = uncompensated / WRITE - 0.8;
    near(values["write_delivery_margin"], margin, "margin");
  });

  test("leak and power of a write are those of all unselected junctions at the raised voltage", () => {
    const raised = write(needed, {});
    near(values["write_leak_current"], raised.rowLeak, "leak");
    const rest = ((ROWS - 1) * (COLUMNS - 1) * (needed / 3) ** 2) / ON;
    const path = ON * (1 / (ROWS - 1) + 1 / (COLUMNS - 1) + 1 / ((ROWS - 1) * (COLUMNS - 1)));
    const power = {
      floating: needed ** 2 / path,
      // The column's junctions have nothing across them but what its own wire drops.
      grounded: network({ drive: needed, row: 0, column: 0, onRow: ON, onColumn: 1e30 }).power,
      "one-half": raised.power,
      "one-third": raised.power + rest,
    }[scheme];
    near(values["half_selected_power"], power, "power");
    const share = { floating: 1, grounded: 1, "one-half": 1 / 2, "one-third": 1 / 3 }[scheme];
    near(values["disturb_voltage"], share * needed, "disturb");
    expect(values["half_select_share"]).toBe(share);
    near(values["disturb_on_current"], (share * WRITE) / ON, "on");
    near(values["disturb_off_current"], (share * WRITE) / OFF, "off");
  });

  test("each figure is its closed form times its own ratio to the solve", () => {
    for (const [k, name] of RATIOS.entries()) {
      const ratio = 1 + (k + 1) / 100;
      const solved = closed(scheme, { [`solve_ratio_${name}`]: ratio });
      expect(solved[`closed_${name}`]).toBe(values[`closed_${name}`]);
      expect(solved[name]).toBeCloseTo(values[name]! * ratio, 14);
    }
  });

  test("a single row or column has no unselected junctions, and no division by none", () => {
    for (const one of [{ rows: 1 }, { columns: 1 }]) {
      const own = closed(scheme, one);
      for (const [name, value] of Object.entries(own))
        expect(Number.isFinite(value), name).toBe(true);
    }
  });
});

test("a cell that follows a power law has its current at what the lines leave it", () => {
  const power = 3.5;
  const full = 12e-6;
  const line = { ladder_share: 1, ladder_count: 1, ladder_resistance: 0 };
  const views = Object.fromEntries(
    ["read_on", "read_off"].flatMap((view) =>
      ["row", "column"].flatMap((side) =>
        Object.entries(line).map(([name, value]) => [`${view}_${side}_${name}`, value]),
      ),
    ),
  );
  const law = { full, slope: (power * full) / READ };
  const own = Object.fromEntries(
    ["on", "off"].flatMap((state) =>
      Object.entries(law).map(([k, v]) => [`read_${state}_${k}`, v]),
    ),
  );
  const given = { rows: 7, columns: 12, ...GIVEN, ...unsolved, ...views, ...own };
  // A tenth is lost along the row: (0.95)^3.5 where half of the voltage lies between row and columns.
  const lossy = { read_on_row_ladder_share: 0.9, read_off_row_ladder_share: 0.9 };
  const got = evaluateOne(readForms["one-half"], { ...given, ...lossy });
  near(got["cell_on_current"], full * 0.95 ** power, "on");
  near(got["cell_off_current"], full * 0.95 ** power, "off");
  // A small resistance takes its current times itself, which the current follows with its slope.
  const [r, step] = [2, law.slope * full * 2];
  const resistive = { read_on_row_ladder_resistance: r, read_off_column_ladder_resistance: r };
  const behind = evaluateOne(readForms["one-half"], { ...given, ...resistive });
  for (const state of ["on", "off"]) {
    const lost = full - behind[`cell_${state}_current`]!;
    expect(Math.abs(lost / step - 1)).toBeLessThan(2 * law.slope * r);
  }
});
