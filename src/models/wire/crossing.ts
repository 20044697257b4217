import { refuse } from "../../errors/problem.ts";
import { type Procedure, procedure } from "../../formulas/sheet.ts";
import { solve } from "../../numerics/roots.ts";
import { atan, cos, exp, pow, sin, sqrt } from "../../numerics/special/elementary.ts";

/**
 * Terms of the series; the last is below 1e-15 of the first once a thousandth of the step has
 * arrived.
 */
const TERMS = 64;

interface Mode {
  readonly rate: number;
  readonly weight: number;
}

/**
 * Modes of a line with driver and load, in units of its own R and C ("wiring1983", eigenvalues
 * exact).
 */
function modesOfLine(driver: number, load: number): Mode[] {
  const modes: Mode[] = [];
  for (let k = 1; k <= TERMS; k++) {
    const angle = (k - 0.5) * Math.PI;
    const phase = (s: number) => s + atan(driver * s) + atan(load * s) - angle;
    const s = solve(phase, 0, angle);
    const a = 1 + pow(driver * s, 2);
    const b = 1 + pow(load * s, 2);
    const size = (2 * sqrt(a * b)) / (s * (a * b + (driver + load) * (1 + driver * load * s * s)));
    modes.push({ rate: s * s, weight: k % 2 === 1 ? size : -size });
  }
  return modes;
}

/** Modes of N equal sections, in units of the whole R and C. */
function modesOfLadder(sections: number): Mode[] {
  const modes: Mode[] = [];
  for (let k = 1; k <= Math.min(sections, TERMS); k++) {
    const angle = ((2 * k - 1) * Math.PI) / (2 * sections + 1);
    const half = sin(angle / 2);
    modes.push({
      rate: 4 * sections * sections * half * half,
      weight: (2 / (2 * sections + 1)) * (cos(angle / 2) / half) * sin(sections * angle),
    });
  }
  return modes;
}

function crossing(modes: readonly Mode[], share: number): number {
  const missing = (t: number) =>
    modes.reduce((sum, mode) => sum + mode.weight * exp(-mode.rate * t), 0) - (1 - share);
  const slowest = 1 / modes[0]!.rate;
  let high = slowest;
  while (missing(high) > 0) high *= 2;
  return solve(missing, 1e-3 * slowest, high);
}

function requireShare(share: number): void {
  if (share >= 0.01 && share <= 1 - 1e-9) return;
  refuse({
    code: "out-of-range",
    what: "the share of the step must lie between 0.01 and 1",
    got: String(share),
  });
}

const share = { unit: "1", meaning: "share of the step at the far end", symbol: "x" };

/** Exact response of a line between a driver and a load. */
export const lineCrossing: Procedure = procedure({
  name: "line_crossing",
  title: "Exact delay of a driven wire",
  about:
    "Sum over the modes of the diffusion equation with a resistance at one end and a " +
    "capacitance at the other; the time is bracketed and solved to 1e-15 of itself. A " +
    "hundredth of the step or more.",
  source: "heat",
  inputs: {
    driver_resistance: { unit: "ohm", meaning: "resistance of the driver", symbol: "R_d" },
    line_resistance: { unit: "ohm", meaning: "resistance of the whole line", symbol: "R" },
    line_capacitance: { unit: "F", meaning: "capacitance of the whole line", symbol: "C" },
    load_capacitance: { unit: "F", meaning: "capacitance at the far end", symbol: "C_L" },
    share,
  },
  outputs: { crossing_time: { unit: "s", meaning: "time until the far end has that share" } },
  run(inputs, outputs) {
    const [driver, resistance, capacitance, load, x] = inputs as unknown as number[];
    requireShare(x!);
    const modes = modesOfLine(driver! / resistance!, load! / capacitance!);
    outputs[0] = resistance! * capacitance! * crossing(modes, x!);
  },
});

/** Exact response of N equal sections. */
export const ladderCrossing: Procedure = procedure({
  name: "ladder_crossing",
  title: "Exact delay of a line of a few sections",
  about:
    "Sum over the modes of the chain, known in closed form; the time is solved to 1e-15 of itself.",
  source: "rcline1995",
  inputs: {
    sections: { unit: "1", meaning: "sections of the line, whole", symbol: "N" },
    line_resistance: { unit: "ohm", meaning: "resistance of the whole line", symbol: "R" },
    line_capacitance: { unit: "F", meaning: "capacitance of the whole line", symbol: "C" },
    share,
  },
  outputs: { crossing_time: { unit: "s", meaning: "time until the far end has that share" } },
  run(inputs, outputs) {
    const [sections, resistance, capacitance, x] = inputs as unknown as number[];
    requireShare(x!);
    outputs[0] = resistance! * capacitance! * crossing(modesOfLadder(Math.round(sections!)), x!);
  },
});
