// A worksheet: what a designer does on paper with the middle figures of a 65 nm process. Nothing is taken from the
// sheets: chains are sized inverter by inverter, lines are solved as ladders, areas are summed device by device.

/** Middle figures of the node, SI; the tests first require that the design has the same. */
export const P = {
  supply: 1,
  io_supply: 2.5,
  nmos_on_current: 1000,
  nmos_off_current: 0.05,
  fixed_leakage_current: 0.005,
  threshold_voltage: 0.33,
  p_to_n_current: 0.55,
  gate_capacitance: 1e-9,
  drain_capacitance: 0.8e-9,
  fo4_delay: 20e-12,
  minimum_width: 120e-9,
  contacted_gate_pitch: 220e-9,
  metal_half_pitch: 105e-9,
  matching_coefficient: 2.8e-9,
  gate_density: 0.9e12,
  flip_flop_area: 7.5e-12,
  sram_6t_cell_area: 0.57e-12,
  local_wire_width: 105e-9,
  local_wire_spacing: 105e-9,
  local_wire_thickness: 170e-9,
  local_wire_permittivity: 2.8,
  local_wire_resistivity: 3e-8,
  intermediate_wire_width: 140e-9,
  intermediate_wire_spacing: 140e-9,
  intermediate_wire_thickness: 250e-9,
  intermediate_wire_permittivity: 2.8,
  intermediate_wire_resistivity: 2.6e-8,
  temperature: 300,
  reference_temperature: 300,
  drive_effort: 8,
  isolation_pitches: 4,
  pitch_layout_share: 2.5,
  device_layout_overhead: 1.3,
  strap_share: 0.03,
  edge_cells: 2,
};

/** Unit of logical effort: an inverter with fan-out 4 and parasitic 1 takes 5 of them. */
export const TAU = P.fo4_delay / 5;
/** The p-type device is wider by the ratio of the currents: 1 + 1/0.55 widths for an inverter. */
export const PAIR = 1 + 1 / P.p_to_n_current;
/** Gate of the smallest inverter: 0.12 um x 2.818 x 1 fF/um = 0.338 fF. */
export const C_IN = P.gate_capacitance * P.minimum_width * PAIR;
/** Average devices of logic are twice as wide as the smallest. */
export const W_LOGIC = 2 * P.minimum_width;

/**
 * What a replica gives the path that it times: a quarter more than needed, and six deviations of ten gates. A gate of
 * 0.24 um and a matched channel of 88 nm is off by 2.8 mV um over the root of its area, a delay by 1.3 times that over
 * the overdrive of 0.67 V.
 */
export const GUARD = (() => {
  const offset = P.matching_coefficient / Math.sqrt(W_LOGIC * 0.4 * P.contacted_gate_pitch);
  const gate = (1.3 * offset) / (P.supply - P.threshold_voltage);
  return 1.25 * (1 + (6 * gate) / Math.sqrt(10));
})();

/** Effort per stage of the fastest chain, p + rho (1 - ln rho) = 0 with p = 1: 3.59, by halving an interval. */
export const RHO = (() => {
  let [low, high] = [2, 6];
  for (let i = 0; i < 60; i++) {
    const rho = (low + high) / 2;
    if (1 + rho * (1 - Math.log(rho)) > 0) low = rho;
    else high = rho;
  }
  return low;
})();

export interface Chain {
  /** Input capacitance of each inverter, the first one first [F]. */
  readonly inputs: readonly number[];
  readonly delay: number;
  /** Widths of all devices [m]. */
  readonly width: number;
}

/** Inverters from the smallest to a load, sized backwards: each drives eight times its own input. */
export function chainTo(load: number, odd = false): Chain {
  const inputs: number[] = [];
  let drives = load;
  while (drives / P.drive_effort > C_IN * (1 + 1e-12)) {
    drives /= P.drive_effort;
    inputs.unshift(drives);
  }
  inputs.unshift(C_IN);
  if (odd && inputs.length % 2 === 0) inputs.unshift(C_IN);
  const loads = [...inputs.slice(1), load];
  const delay = inputs.reduce((sum, input, i) => sum + TAU * (loads[i]! / input + 1), 0);
  return { inputs, delay, width: inputs.reduce((sum, c) => sum + c, 0) / P.gate_capacitance };
}

/**
 * The fastest path of `stages` gates from one smallest gate to a load, found by moving the size of each stage until
 * none gets faster: logical effort and branching of each gate, parasitics apart.
 */
export function fastest(
  gates: readonly { effort: number; branches: number }[],
  load: number,
): number {
  const sizes = gates.map((_, i) => C_IN * 3 ** i);
  const total = () =>
    gates.reduce((sum, { effort, branches }, i) => {
      const next = i + 1 < gates.length ? sizes[i + 1]! : load;
      return sum + (effort * branches * next) / sizes[i]!;
    }, 0);
  for (let round = 0; round < 400; round++) {
    for (let i = 1; i < gates.length; i++) {
      // d/dx (a x / before + b after / x) = 0
      const before = gates[i - 1]!;
      const after = i + 1 < gates.length ? sizes[i + 1]! : load;
      const a = (before.effort * before.branches) / sizes[i - 1]!;
      const b = gates[i]!.effort * gates[i]!.branches * after;
      sizes[i] = Math.sqrt(b / a);
    }
  }
  return total();
}

/**
 * When the far end of a driven line of equal sections passes a share of the step, by stepping the ladder in time with
 * the trapezoidal rule (a tridiagonal system each step).
 */
export function ladderDelay(
  line: { driver: number; resistance: number; capacitance: number; load: number; share: number },
  sections = 64,
): number {
  const { driver, resistance, capacitance, load, share } = line;
  const r = resistance / sections;
  const c = capacitance / sections;
  const n = sections;
  const g = Array.from({ length: n }, (_, i) => 1 / (r + (i === 0 ? driver : 0)));
  const cap = Array.from({ length: n }, (_, i) => c + (i === n - 1 ? load : 0));
  const slowest = (driver + resistance) * (capacitance + load);
  const dt = slowest / 4000;
  const v = new Array<number>(n).fill(0);
  const flow = (i: number) =>
    g[i]! * ((i === 0 ? 1 : v[i - 1]!) - v[i]!) - (i + 1 < n ? g[i + 1]! * (v[i]! - v[i + 1]!) : 0);
  for (let t = dt; ; t += dt) {
    const before = v[n - 1]!;
    const right = cap.map((ci, i) => (ci * v[i]!) / dt + flow(i) / 2 + (i === 0 ? g[0]! / 2 : 0));
    const diagonal = cap.map((ci, i) => ci / dt + (g[i]! + (i + 1 < n ? g[i + 1]! : 0)) / 2);
    for (let i = 1; i < n; i++) {
      const factor = -g[i]! / 2 / diagonal[i - 1]!;
      diagonal[i]! -= factor * (-g[i]! / 2);
      right[i]! -= factor * right[i - 1]!;
    }
    v[n - 1] = right[n - 1]! / diagonal[n - 1]!;
    for (let i = n - 2; i >= 0; i--)
      v[i] = (right[i]! + (g[i + 1]! / 2) * v[i + 1]!) / diagonal[i]!;
    const now = v[n - 1]!;
    if (now >= share) return t - (dt * (now - share)) / (now - before);
  }
}

/**
 * Capacitance per length of a wire between two grounded neighbours, over one plane or between two, as far away as the
 * wire is thick: Laplace's equation on a grid of squares, by over-relaxation, three wires side by side again and again;
 * the charge is the flux that leaves the middle one. Squares a twelfth of the gap wide: finer ones move it by 1 %.
 */
export function wireCapacitance(level: "local" | "intermediate", planes: 1 | 2): number {
  const step = 8.75e-9;
  const cells = (length: number) => Math.round(length / step);
  const w = cells(P[`${level}_wire_width`]);
  const pitch = w + cells(P[`${level}_wire_spacing`]);
  const t = cells(P[`${level}_wire_thickness`]);
  const across = 3 * pitch;
  const high = (planes === 2 ? 3 : 8) * t + 1;
  const metal = new Map<number, number>();
  for (let x = 0; x < across; x++) {
    metal.set(x, 0);
    if (planes === 2) metal.set((high - 1) * across + x, 0);
    if (x % pitch > w) continue;
    const voltage = Math.floor(x / pitch) === 1 ? 1 : 0;
    for (let y = t; y <= 2 * t; y++) metal.set(y * across + x, voltage);
  }
  const v = Float64Array.from({ length: across * high }, (_, i) => metal.get(i) ?? 0);
  const free = Array.from(v.keys()).filter((i) => !metal.has(i));
  const over = 2 / (1 + Math.sin(Math.PI / Math.max(across, high)));
  for (let round = 0; round < 600; round++) {
    for (const i of free) {
      const row = i - (i % across);
      const left = v[row + ((i + across - 1) % across)]!;
      const right = v[row + ((i + 1) % across)]!;
      // Far above a single plane no flux leaves the top.
      const above = v[i + across] ?? v[i - across]!;
      v[i]! += over * ((left + right + above + v[i - across]!) / 4 - v[i]!);
    }
  }
  let flux = 0;
  for (const [i, voltage] of metal) {
    if (voltage !== 1) continue;
    for (const next of [i - 1, i + 1, i - across, i + across]) flux += 1 - v[next]!;
  }
  return 8.854e-12 * P[`${level}_wire_permittivity`] * flux;
}

export function wireResistance(level: "local" | "intermediate"): number {
  return P[`${level}_wire_resistivity`] / (P[`${level}_wire_width`] * P[`${level}_wire_thickness`]);
}

/** Layout of devices side by side: each has its width and four gate pitches of isolation, a gate pitch times 1.3 long. */
export function layout(widths: readonly number[], wiring = 1): number {
  const length = P.contacted_gate_pitch * P.device_layout_overhead;
  const beside = P.isolation_pitches * P.contacted_gate_pitch;
  return widths.reduce((sum, width) => sum + (width + beside) * length * wiring, 0);
}

/** A gate of a library at 0.9 million two-input gates per square millimetre, four devices each: 0.278 um2 a device. */
export const LOGIC_DEVICE_AREA = 1e-12 / (4 * 0.9);
