/** Small dense networks: what two ports see of each other when all others float. */

/**
 * Resistances between all pairs of p ports [ohm], from the conductances between them (symmetric, none negative). The
 * last port is the reference; the elimination adds up what every node still conducts instead of subtracting, so that
 * weak ties keep their digits.
 */
export function effectiveResistances(y: Float64Array, p: number): Float64Array {
  const n = p - 1;
  const z = inverseOf(y, p);
  const out = new Float64Array(p * p);
  for (let a = 0; a < p; a++) {
    for (let b = 0; b < p; b++) {
      const aa = a < n ? z[a * n + a]! : 0;
      const bb = b < n ? z[b * n + b]! : 0;
      const ab = a < n && b < n ? z[a * n + b]! : 0;
      out[a * p + b] = aa - ab + (bb - ab);
    }
  }
  return out;
}

/** The inverse of the node matrix without the last port: voltage at a per current into b. */
function inverseOf(y: Float64Array, p: number): Float64Array {
  const n = p - 1;
  const g = Float64Array.from(y);
  const pivots = new Float64Array(n);
  // Eliminate node k: its neighbours are joined by g_ak g_kb / (sum of all that k still conducts).
  for (let k = 0; k < n; k++) {
    let sum = 0;
    for (let b = k + 1; b < p; b++) sum += g[k * p + b]!;
    pivots[k] = sum;
    for (let a = k + 1; a < p; a++) {
      const share = g[a * p + k]! / sum;
      for (let b = k + 1; b < p; b++) g[a * p + b]! += share * g[k * p + b]!;
    }
  }
  const out = new Float64Array(n * n);
  const x = new Float64Array(p);
  for (let source = 0; source < n; source++) {
    x.fill(0);
    x[source] = 1;
    for (let k = source; k < n; k++) {
      const share = x[k]! / pivots[k]!;
      for (let b = k + 1; b < n; b++) x[b]! += share * g[k * p + b]!;
    }
    for (let k = n - 1; k >= 0; k--) {
      let sum = x[k]!;
      for (let b = k + 1; b < n; b++) sum += g[k * p + b]! * x[b]!;
      x[k] = sum / pivots[k]!;
    }
    for (let k = 0; k < n; k++) out[k * n + source] = x[k]!;
  }
  return out;
}
