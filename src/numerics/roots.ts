/** Roots of functions of one variable, always kept inside a bracket. */
import { fail } from "../errors/problem.ts";

export interface RootOptions {
  /** Largest error of the root relative to its size; the default is all that a double holds. */
  readonly relative?: number;
  readonly absolute?: number;
  readonly steps?: number;
}

/**
 * The root of a continuous function between two points where it has opposite signs, by inverse
 * quadratic interpolation safeguarded with bisection ("A new hybrid quadratic/bisection algorithm
 * for finding the zero of a nonlinear function without using derivatives", Advances in
 * Engineering Software 28 (1997) 145-149, doi 10.1016/S0965-9978(96)00051-8).
 *
 * Fails when the signs agree or a value is not a number.
 */
export function solve(
  f: (x: number) => number,
  low: number,
  high: number,
  options: RootOptions = {},
): number {
  const relative = options.relative ?? 2e-16;
  const absolute = options.absolute ?? 0;
  let b = low;
  let a = high;
  let fb = f(b);
  let fa = f(a);
  if (fb === 0) return b;
  if (fa === 0) return a;
  requireBracket(low, high, fb, fa);
  let c = b;
  let fc = fb;
  let share = 0.5;
  for (let step = 0; step < (options.steps ?? 300); step++) {
    const x = a + share * (b - a);
    const fx = f(x);
    if (Number.isNaN(fx)) requireBracket(low, high, fx, fx);
    const sameSide = Math.sign(fx) === Math.sign(fa);
    c = sameSide ? a : b;
    fc = sameSide ? fa : fb;
    if (!sameSide) {
      b = a;
      fb = fa;
    }
    a = x;
    fa = fx;
    const best = Math.abs(fa) < Math.abs(fb) ? a : b;
    const margin = 2 * relative * Math.abs(best) + absolute / 2;
    const least = margin / Math.abs(b - a);
    if (least > 0.5 || fa === 0 || (margin === 0 && a === b)) return best;
    share = nextShare(a, b, c, fa, fb, fc);
    share = Math.min(Math.max(share, least), 1 - least);
  }
  return fail({
    code: "root-not-found",
    what: "the search for a root did not end in the allowed number of steps",
    got: `${a} to ${b}`,
    fix: "narrow the bracket, or search in the logarithm of the variable",
  });
}

/** Where between a (0) and b (1) to look next. */
function nextShare(a: number, b: number, c: number, fa: number, fb: number, fc: number): number {
  const xi = (a - b) / (c - b);
  const phi = (fa - fb) / (fc - fb);
  if (!(phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi)) return 0.5;
  const first = (fa / (fb - fa)) * (fc / (fb - fc));
  const second = ((c - a) / (b - a)) * (fa / (fc - fa)) * (fb / (fc - fb));
  return first + second;
}

function requireBracket(low: number, high: number, flow: number, fhigh: number): void {
  if (flow * fhigh < 0 || (Math.sign(flow) === -Math.sign(fhigh) && flow !== 0)) return;
  fail({
    code: "no-bracket",
    what: "the function has no change of sign between the two ends",
    got: `${flow} at ${low}, ${fhigh} at ${high}`,
  });
}
