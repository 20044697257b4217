/** Sums whose rounding error does not grow with the number of terms. */

/**
 * A running compensated sum (second-order variant of Kahan's, "A generalized Kahan-Babuska
 * summation algorithm", Computing 76 (2006) 279-293, doi 10.1007/s00607-005-0139-x).
 */
export class CompensatedSum {
  private sum = 0;
  private first = 0;
  private second = 0;

  add(term: number): void {
    let total = this.sum + term;
    const lost =
      Math.abs(this.sum) >= Math.abs(term) ? this.sum - total + term : term - total + this.sum;
    this.sum = total;
    total = this.first + lost;
    const lostAgain =
      Math.abs(this.first) >= Math.abs(lost)
        ? this.first - total + lost
        : lost - total + this.first;
    this.first = total;
    this.second += lostAgain;
  }

  get value(): number {
    return this.sum + (this.first + this.second);
  }
}

/** The compensated sum of all terms. */
export function sumOf(terms: ArrayLike<number>): number {
  const sum = new CompensatedSum();
  for (let i = 0; i < terms.length; i++) sum.add(terms[i]!);
  return sum.value;
}

/** Arithmetic mean; NaN of nothing. */
export function meanOf(values: ArrayLike<number>): number {
  return sumOf(values) / values.length;
}

/** Unbiased sample covariance of two equally long series (divisor n - 1), two passes. */
export function covarianceOf(a: ArrayLike<number>, b: ArrayLike<number>): number {
  const meanA = meanOf(a);
  const meanB = meanOf(b);
  const sum = new CompensatedSum();
  for (let i = 0; i < a.length; i++) sum.add((a[i]! - meanA) * (b[i]! - meanB));
  return sum.value / (a.length - 1);
}

/** Unbiased sample variance (divisor n - 1). */
export function varianceOf(values: ArrayLike<number>): number {
  return covarianceOf(values, values);
}
