/** One macrospin by its equations, for checks of closed forms. */

const CHARGE = 1.602176634e-19;
const HBAR = 1.054571817e-34;
/** Gyromagnetic ratio of the free electron with a g-factor of 2: e / m. */
const GYROMAGNETIC = CHARGE / 9.1093837139e-31;

export interface Macrospin {
  readonly damping: number;
  /** [A m²] */
  readonly moment: number;
  /** [J] */
  readonly barrier: number;
  readonly efficiency: number;
}

type Vector = readonly [number, number, number];

const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const sum = (a: Vector, b: Vector, share = 1): Vector => [
  a[0] + share * b[0],
  a[1] + share * b[1],
  a[2] + share * b[2],
];

/**
 * Rate [1/s] at which a small precession about the axis grows under a current [A] that pushes
 * against it: the equation of Landau, Lifshitz and Gilbert with the torque of a current polarised
 * along -z, by Runge and Kutta's method of order four over 10 turns.
 */
export function growth(spin: Macrospin, current: number): number {
  const field = (2 * spin.barrier) / spin.moment;
  const torque = ((HBAR / (2 * CHARGE)) * spin.efficiency * current) / spin.moment;
  const axis: Vector = [0, 0, -1];
  const rate = (m: Vector): Vector => {
    // dm/dt = -γ m × B + α m × dm/dt - γ a m × (m × p), solved for dm/dt.
    const b: Vector = [0, 0, field * m[2]];
    const push = cross(m, cross(m, axis));
    const free = sum(cross(m, b), push, torque);
    const damped = sum(free, cross(m, free), spin.damping);
    const scale = -GYROMAGNETIC / (1 + spin.damping ** 2);
    return [scale * damped[0], scale * damped[1], scale * damped[2]];
  };
  const angle = 1e-3;
  let m: Vector = [Math.sin(angle), 0, Math.cos(angle)];
  const turn = (2 * Math.PI) / (GYROMAGNETIC * field);
  const h = turn / 200;
  for (let step = 0; step < 10 * 200; step++) {
    const a = rate(m);
    const b = rate(sum(m, a, h / 2));
    const c = rate(sum(m, b, h / 2));
    const d = rate(sum(m, c, h));
    m = sum(sum(sum(sum(m, a, h / 6), b, h / 3), c, h / 3), d, h / 6);
  }
  return Math.log(Math.hypot(m[0], m[1]) / Math.sin(angle)) / (10 * turn);
}

/**
 * Share of junctions still on their side after a pulse, by the Fokker-Planck equation of x = cos θ,
 * dp/dτ = d/dx ((1 - x²) ((i - x) p + dp/dx / (2 Δ))), from a thermal start; finite volumes, implicit
 * in time.
 */
export function unwritten(stability: number, current: number, pulse: number): number {
  const cells = 1500;
  const steps = 3000;
  // Cells are even in the angle, so that the pole from which the spins start is resolved.
  const edges = Array.from({ length: cells + 1 }, (_, k) => Math.cos((Math.PI * k) / cells));
  const middle = (k: number) => (edges[k]! + edges[k + 1]!) / 2;
  const width = (k: number) => edges[k]! - edges[k + 1]!;
  let mass = Array.from({ length: cells }, (_, k) => {
    const x = middle(k);
    return x > 0 ? Math.exp(stability * (x * x - 1)) * width(k) : 0;
  });
  const total = mass.reduce((a, b) => a + b, 0);
  mass = mass.map((one) => one / total);
  // Flow from cell k to k + 1, the way of falling x: by drift, upwind, and by diffusion.
  const onward = Array.from({ length: cells }, () => 0);
  const back = Array.from({ length: cells }, () => 0);
  for (let k = 0; k + 1 < cells; k++) {
    const x = edges[k + 1]!;
    const area = 1 - x * x;
    const apart = middle(k) - middle(k + 1);
    const drift = area * (current - x);
    const mean = area / (2 * stability * apart);
    // Exponential fitting: exact for constant drift between two middles.
    const peclet = drift / mean;
    const bernoulli = (z: number) => (Math.abs(z) < 1e-9 ? 1 - z / 2 : z / Math.expm1(z));
    onward[k] = (mean * bernoulli(-peclet)) / width(k);
    back[k] = (mean * bernoulli(peclet)) / width(k + 1);
  }
  const h = pulse / steps;
  for (let step = 0; step < steps; step++) mass = implicit(mass, onward, back, h);
  return mass.reduce((sofar, one, k) => (middle(k) > 0 ? sofar + one : sofar), 0);
}

/** One implicit step: a tridiagonal system by elimination. */
function implicit(mass: number[], onward: number[], back: number[], h: number): number[] {
  const count = mass.length;
  const above: number[] = new Array(count).fill(0);
  const right: number[] = new Array(count).fill(0);
  for (let k = 0; k < count; k++) {
    const below = k > 0 ? -h * onward[k - 1]! : 0;
    const diagonal = 1 + h * (onward[k]! + (k > 0 ? back[k - 1]! : 0));
    const pivot = diagonal - below * (k > 0 ? above[k - 1]! : 0);
    above[k] = k + 1 < count ? (-h * back[k]!) / pivot : 0;
    right[k] = (mass[k]! - below * (k > 0 ? right[k - 1]! : 0)) / pivot;
  }
  for (let k = count - 2; k >= 0; k--) right[k] = right[k]! - above[k]! * right[k + 1]!;
  return right;
}
