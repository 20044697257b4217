// The crossbars that the benchmark times, and their node equations as a file for the direct solvers.
import { writeFileSync } from "node:fs";

function stream(seed) {
  let s = seed >>> 0;
  return () => {
    s = (Math.imul(s, 1664525) + 1013904223) >>> 0;
    return s / 4294967296;
  };
}

const PATTERNS = {
  log: (next) => () => 1e-3 * 1e4 ** -next(),
  checkerboard: () => (i, j) => ((i + j) % 2 === 0 ? 1e-4 : 1e-6),
  wide: (next) => () => 1e12 ** -next(),
  "1k": () => () => 1e-3,
  50: () => () => 0.02,
};

/** Row 0 at 1 V on the left, the last column at 0 V at the bottom; all other lines at 0 V, or floating. */
export function problemOf(pattern, rows, columns, r, floating) {
  const next = stream(7);
  const of = PATTERNS[pattern](next);
  const conductance = new Float64Array(rows * columns);
  for (let i = 0, k = 0; i < rows; i++)
    for (let j = 0; j < columns; j++) conductance[k++] = of(i, j);
  const side = (count, selected, volts) => {
    const voltage = new Float64Array(count);
    const resistance = new Float64Array(count).fill(floating ? Number.NaN : 100);
    voltage[selected] = volts;
    resistance[selected] = 100;
    return { voltage, resistance };
  };
  return {
    rows,
    columns,
    rowResistance: r,
    columnResistance: r,
    junctions: { conductance },
    terminals: { left: side(rows, 0, 1), bottom: side(columns, columns - 1, 0) },
  };
}

export function writeEquations(problem, file) {
  const { rows: m, columns: n, terminals } = problem;
  const ends = (side) => side.resistance.map((r) => (Number.isNaN(r) ? 0 : 1 / r));
  const [left, bottom] = [ends(terminals.left), ends(terminals.bottom)];
  const b = new Float64Array(2 * m * n);
  for (let i = 0; i < m; i++) b[i * n] = left[i] * terminals.left.voltage[i];
  for (let j = 0; j < n; j++) b[m * n + (m - 1) * n + j] = bottom[j] * terminals.bottom.voltage[j];
  const parts = [
    Int32Array.of(m, n),
    Float64Array.of(1 / problem.rowResistance, 1 / problem.columnResistance),
    problem.junctions.conductance,
    left,
    new Float64Array(m),
    new Float64Array(n),
    bottom,
    b,
  ];
  writeFileSync(
    file,
    Buffer.concat(parts.map((p) => Buffer.from(p.buffer, p.byteOffset, p.byteLength))),
  );
}
