/**
 * Binomial, Poisson and negative binomial probabilities. A tail is summed from its own largest
 * term by the ratio of neighbouring terms: it is never one minus something near one.
 *
 * Terms far from small counts use the deviance form of "Fast and accurate computation of binomial
 * probabilities" (2000).
 */
import { exp, log, log1p } from "./elementary.ts";
import { erfcx } from "./erf.ts";
import { deviance, incompleteGamma, logPoissonTerm, stirlingCorrection } from "./gamma.ts";

/** Beyond this variance terms fall too slowly near the mean to be summed one by one. */
const WIDE = 1e12;
/** Fall of a term to the next, as a logarithm, from which the sum is short all the same. */
const STEEP = 1e-4;
/** Counts beyond which a clustered count is as good as continuous. */
const MANY = 1e6;

const LOG_TWO_PI = 1.8378770664093456;
const FEW = 40;
/** Below this logarithm a probability is no good first factor of a product: the smallest double is exp(-745). */
const LEAST_LOG = -600;

/** ln of C(n,k) p^k (1-p)^(n-k). */
export function logBinomialTerm(n: number, k: number, p: number): number {
  if (k < 0 || k > n) return Number.NEGATIVE_INFINITY;
  if (p === 0) return k === 0 ? 0 : Number.NEGATIVE_INFINITY;
  if (p === 1) return k === n ? 0 : Number.NEGATIVE_INFINITY;
  if (k <= FEW) return logOfFew(n, k, p);
  if (k === n) return n * log(p);
  const rest = n - k;
  const corrections = stirlingCorrection(n) - stirlingCorrection(k) - stirlingCorrection(rest);
  const deviances = deviance(k, n * p) + deviance(rest, n * (1 - p));
  return corrections - deviances + 0.5 * (log(n / k / rest) - LOG_TWO_PI);
}

/** For small k the factors are multiplied in pairs, so that ln n! never appears. */
function logOfFew(n: number, k: number, p: number): number {
  let product = 1;
  let sum = 0;
  for (let i = 0; i < k; i++) {
    product *= ((n - i) / (i + 1)) * p;
    if (product < 1e-200 || product > 1e200) {
      sum += log(product);
      product = 1;
    }
  }
  return sum + log(product) + (n - k) * log1p(-p);
}

/** C(n,k) p^k (1-p)^(n-k). */
export function binomialTerm(n: number, k: number, p: number): number {
  if (k < 0 || k > n) return 0;
  let product = 1;
  if (k > FEW || n * p > FEW || p === 1) return exp(logBinomialTerm(n, k, p));
  for (let i = 0; i < k; i++) product *= ((n - i) / (i + 1)) * p;
  return product * exp((n - k) * log1p(-p));
}

/**
 * Sum of terms that fall by `fall` at first and ever faster, as a normal law of that variance does, over the first of
 * them: the integral with the first correction of Euler and Maclaurin; right to a few parts in the standard deviation.
 *
 * @returns undefined where the terms can be summed one by one
 */
function wideRatio(fall: number, variance: number): number | undefined {
  if (!(variance > WIDE) || fall > STEEP) return undefined;
  const sigma = Math.sqrt(variance);
  // The fall is the slope half a count further on.
  const slope = fall - 0.5 / variance;
  return sigma * Math.sqrt(Math.PI / 2) * erfcx((slope * sigma) / Math.SQRT2) + 0.5;
}

/** Sum over j >= k of the terms, divided by the term at k. */
function upwardRatio(n: number, k: number, p: number): number {
  const odds = p / (1 - p);
  const wide = wideRatio(-log(((n - k) / (k + 1)) * odds), n * p * (1 - p));
  if (wide !== undefined) return wide;
  let term = 1;
  let sum = 1;
  for (let j = k; j < n; j++) {
    term *= ((n - j) / (j + 1)) * odds;
    sum += term;
    if (term < 1e-18 * sum && j > n * p) break;
  }
  return sum;
}

/** Sum over j <= k of the terms, divided by the term at k. */
function downwardRatio(n: number, k: number, p: number): number {
  const odds = (1 - p) / p;
  const wide = wideRatio(-log((k / (n - k + 1)) * odds), n * p * (1 - p));
  if (wide !== undefined) return wide;
  let term = 1;
  let sum = 1;
  for (let j = k; j > 0; j--) {
    term *= (j / (n - j + 1)) * odds;
    sum += term;
    if (term < 1e-18 * sum && j < n * p) break;
  }
  return sum;
}

/** P(X >= k) for X binomial (n, p). */
export function binomialTail(n: number, k: number, p: number): number {
  if (k <= 0) return 1;
  if (k > n || p === 0) return 0;
  if (p === 1) return 1;
  if (k > n * p) return binomialTerm(n, k, p) * upwardRatio(n, k, p);
  return 1 - binomialTerm(n, k - 1, p) * downwardRatio(n, k - 1, p);
}

/** P(X <= k) for X binomial (n, p). */
export function binomialCumulative(n: number, k: number, p: number): number {
  if (k < 0) return 0;
  if (k >= n || p === 0) return 1;
  if (p === 1) return 0;
  if (k < n * p) return binomialTerm(n, k, p) * downwardRatio(n, k, p);
  return 1 - binomialTerm(n, k + 1, p) * upwardRatio(n, k + 1, p);
}

/** ln P(X >= k): also where the tail itself is below the smallest double. */
export function logBinomialTail(n: number, k: number, p: number): number {
  if (k <= 0) return 0;
  if (k > n || p === 0) return Number.NEGATIVE_INFINITY;
  if (p === 1) return 0;
  if (k > n * p) return logBinomialTerm(n, k, p) + log(upwardRatio(n, k, p));
  return log1p(-binomialTerm(n, k - 1, p) * downwardRatio(n, k - 1, p));
}

/** P(X >= k) for X Poisson of that mean. */
export function poissonTail(k: number, mean: number): number {
  if (k <= 0) return 1;
  if (mean === 0) return 0;
  if (k <= mean) return 1 - poissonDown(k - 1, mean);
  const wide = wideRatio(-log(mean / (k + 1)), mean);
  if (wide !== undefined) return exp(logPoissonTerm(k, mean)) * wide;
  let term = 1;
  let sum = 1;
  for (let j = k + 1; term > 1e-18 * sum; j++) {
    term *= mean / j;
    sum += term;
  }
  return exp(logPoissonTerm(k, mean)) * sum;
}

function poissonDown(k: number, mean: number): number {
  const wide = wideRatio(-log(k / mean), mean);
  if (wide !== undefined) return exp(logPoissonTerm(k, mean)) * wide;
  let term = 1;
  let sum = 1;
  for (let j = k; j > 0 && term > 1e-18 * sum; j--) {
    term *= j / mean;
    sum += term;
  }
  return exp(logPoissonTerm(k, mean)) * sum;
}

/** P(X = k) for a negative binomial count of that mean and clustering parameter alpha. */
export function clusteredTerm(k: number, mean: number, alpha: number): number {
  if (mean === 0) return k === 0 ? 1 : 0;
  const logOfNone = -alpha * log1p(mean / alpha);
  // Where no count at all is less likely than the smallest double, others still are likely.
  if (k > 1000 || (k > 0 && logOfNone < LEAST_LOG)) return exp(logClusteredTerm(k, mean, alpha));
  let product = exp(logOfNone);
  for (let j = 0; j < k; j++) product *= (((j + alpha) / (j + 1)) * mean) / (mean + alpha);
  return product;
}

/** ln P(X = k), k > 0: alpha/(k + alpha) times the binomial term of k in k + alpha, in the deviance form. */
function logClusteredTerm(k: number, mean: number, alpha: number): number {
  const n = k + alpha;
  const corrections = stirlingCorrection(n) - stirlingCorrection(k) - stirlingCorrection(alpha);
  const whole = mean + alpha;
  const deviances = deviance(k, n * (mean / whole)) + deviance(alpha, n * (alpha / whole));
  return corrections - deviances + 0.5 * (log(alpha / n / k) - LOG_TWO_PI);
}

/** P(X >= k) of the same count, summed away from k on its side of the mean. */
export function clusteredTail(k: number, mean: number, alpha: number): number {
  if (k <= 0) return 1;
  // The mean of each cluster is a gamma variable, beside whose spread that of the count is nothing.
  if (k > MANY || mean > MANY * alpha) return incompleteGamma(alpha, alpha * (k / mean)).upper;
  const ratio = mean / (mean + alpha);
  if (k > mean) {
    let term = clusteredTerm(k, mean, alpha);
    let sum = term;
    for (let j = k; term > 1e-18 * sum; j++) {
      term *= ((j + alpha) / (j + 1)) * ratio;
      sum += term;
    }
    return sum;
  }
  let term = clusteredTerm(k - 1, mean, alpha);
  let below = term;
  for (let j = k - 1; j > 0 && term > 1e-18 * below; j--) {
    term *= j / ((j - 1 + alpha) * ratio);
    below += term;
  }
  return 1 - below;
}
