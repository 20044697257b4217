/**
 * Linear least squares by reflections, "Unitary triangularization of a nonsymmetric matrix",
 * Journal of the ACM 5 (1958) 339-342, doi 10.1145/320941.320947. Forming the product of a matrix
 * with its transpose would lose half of the digits.
 */
import { sqrt } from "../special/elementary.ts";

/** A matrix of `rows` × `columns`, row-major; as many rows as columns or more. */
export interface Rows {
  readonly rows: number;
  readonly columns: number;
  readonly entries: Float64Array;
}

/** The upper triangle of a matrix, and what the same reflections make of a right-hand side. */
export interface Reduced {
  readonly triangle: Float64Array;
  readonly rhs: Float64Array;
}

/** Reduces to a triangle; the inputs are copied. */
export function reduce({ rows, columns, entries }: Rows, rhs: Float64Array): Reduced {
  const a = entries.slice();
  const b = rhs.slice();
  const mirror = new Float64Array(rows);
  for (let k = 0; k < columns; k++) {
    const length = lengthOfColumn({ rows, columns, entries: a }, k, k);
    if (!(length > 0)) continue;
    const head = a[k * columns + k]!;
    const target = head > 0 ? -length : length;
    for (let i = k; i < rows; i++) mirror[i] = a[i * columns + k]!;
    mirror[k] = head - target;
    // Half of the squared length of the mirror's normal, without cancellation.
    const half = length * (length + Math.abs(head));
    for (let j = k; j < columns; j++) reflect(a, columns, j, mirror, k, half);
    reflect(b, 1, 0, mirror, k, half);
  }
  const triangle = a.slice(0, columns * columns);
  return { triangle, rhs: b.slice(0, columns) };
}

/** Length of a column, from a row on. */
export function lengthOfColumn({ rows, columns, entries }: Rows, column: number, from = 0): number {
  let sum = 0;
  for (let i = from; i < rows; i++) {
    const entry = entries[i * columns + column]!;
    sum += entry * entry;
  }
  return sqrt(sum);
}

function reflect(
  matrix: Float64Array,
  columns: number,
  column: number,
  mirror: Float64Array,
  from: number,
  half: number,
): void {
  let dot = 0;
  for (let i = from; i < mirror.length; i++) dot += mirror[i]! * matrix[i * columns + column]!;
  const scale = dot / half;
  for (let i = from; i < mirror.length; i++) {
    const at = i * columns + column;
    matrix[at] = matrix[at]! - scale * mirror[i]!;
  }
}

/** Solves triangle x = rhs; not finite where the triangle is singular. */
export function solveTriangle(triangle: Float64Array, rhs: Float64Array): Float64Array {
  const n = rhs.length;
  const x = rhs.slice();
  for (let k = n - 1; k >= 0; k--) {
    for (let j = k + 1; j < n; j++) x[k] = x[k]! - triangle[k * n + j]! * x[j]!;
    x[k] = x[k]! / triangle[k * n + k]!;
  }
  return x;
}

/** The inverse of the product of a triangle's transpose with the triangle: a covariance's shape. */
export function inverseOfSquare(triangle: Float64Array, n: number): Float64Array {
  const inverse = Array.from({ length: n }, (_, k) => {
    const unit = new Float64Array(n);
    unit[k] = 1;
    return solveTriangle(triangle, unit);
  });
  const out = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      let sum = 0;
      for (let k = 0; k < n; k++) sum += inverse[k]![i]! * inverse[k]![j]!;
      out[i * n + j] = sum;
    }
  }
  return out;
}
