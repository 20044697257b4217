/** Small dense linear systems by elimination with partial pivoting. Row-major. */

export interface Factors {
  readonly size: number;
  readonly entries: Float64Array;
  readonly order: Int32Array;
}

/** Factorises in place; undefined when singular or not finite. */
export function factorise(matrix: Float64Array, size: number): Factors | undefined {
  const order = new Int32Array(size);
  for (let k = 0; k < size; k++) {
    let pivot = k;
    for (let i = k + 1; i < size; i++) {
      if (Math.abs(matrix[i * size + k]!) > Math.abs(matrix[pivot * size + k]!)) pivot = i;
    }
    const largest = matrix[pivot * size + k]!;
    if (!(Math.abs(largest) > 0 && Number.isFinite(largest))) return undefined;
    order[k] = pivot;
    if (pivot !== k) swapRows(matrix, size, k, pivot);
    eliminate(matrix, size, k);
  }
  return { size, entries: matrix, order };
}

function swapRows(matrix: Float64Array, size: number, a: number, b: number): void {
  for (let j = 0; j < size; j++) {
    const kept = matrix[a * size + j]!;
    matrix[a * size + j] = matrix[b * size + j]!;
    matrix[b * size + j] = kept;
  }
}

function eliminate(matrix: Float64Array, size: number, k: number): void {
  for (let i = k + 1; i < size; i++) {
    const factor = matrix[i * size + k]! / matrix[k * size + k]!;
    matrix[i * size + k] = factor;
    for (let j = k + 1; j < size; j++) {
      matrix[i * size + j] = matrix[i * size + j]! - factor * matrix[k * size + j]!;
    }
  }
}

/** Solves in place for one right-hand side. */
export function substitute(factors: Factors, rhs: Float64Array): void {
  const { size, entries, order } = factors;
  for (let k = 0; k < size; k++) {
    const pivot = order[k]!;
    const kept = rhs[k]!;
    rhs[k] = rhs[pivot]!;
    rhs[pivot] = kept;
  }
  for (let i = 1; i < size; i++) {
    for (let j = 0; j < i; j++) rhs[i] = rhs[i]! - entries[i * size + j]! * rhs[j]!;
  }
  for (let i = size - 1; i >= 0; i--) {
    for (let j = i + 1; j < size; j++) rhs[i] = rhs[i]! - entries[i * size + j]! * rhs[j]!;
    rhs[i] = rhs[i]! / entries[i * size + i]!;
  }
}
