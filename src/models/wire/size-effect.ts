import { type Procedure, procedure } from "../../formulas/sheet.ts";
import { exp } from "../../numerics/special/elementary.ts";
import { formula, model } from "../define.ts";
import { wireDefaults } from "./defaults.ts";

/** Effective resistivity of a narrow wire whose section is given. */
export const sizeEffect = model({
  parameters: wireDefaults,
  name: "size_effect",
  title: "Resistivity of a narrow wire",
  about:
    "Grain-boundary and surface scattering added, which is not the full coupled integral. The " +
    "barrier does not conduct: the result is referred to the whole section. Below a width of " +
    "about 10 nm it extrapolates.",
  inputs: {
    width: { unit: "m", meaning: "width of the wire with its barrier", symbol: "w" },
    thickness: { unit: "m", meaning: "thickness of the wire with its barrier", symbol: "t" },
  },
  formulas: {
    conductor_width: formula(
      "m",
      "width - 2 * barrier_thickness",
      "width without barrier",
      "this project",
    ),
    conductor_thickness: formula(
      "m",
      "thickness - barrier_thickness",
      "thickness without barrier",
      "this project",
    ),
    grain_size: formula("m", "grain_size_ratio * conductor_width", "mean grain size", "wires2005"),
    grain_parameter: formula(
      "1",
      "mean_free_path / grain_size * grain_reflection / (1 - grain_reflection)",
      "strength of grain-boundary scattering",
      "grain1970",
      { symbol: "\\alpha" },
    ),
    grain_factor: formula(
      "1",
      "1 / (3 * (1 / 3 - grain_parameter / 2 + grain_parameter^2 - grain_parameter^3 * log(1 " +
        "+ 1 / grain_parameter)))",
      "resistivity with grains over bulk",
      "grain1970",
    ),
    surface_term: formula(
      "1",
      "0.375 * geometry_factor * (1 - surface_specularity) * (1 / conductor_width + 1 / " +
        "conductor_thickness) * mean_free_path",
      "resistivity that surfaces add over bulk",
      "wires2005",
    ),
    conductor_resistivity: formula(
      "ohm m",
      "bulk_resistivity * (grain_factor + surface_term)",
      "resistivity of the conductor",
      "wires2005",
    ),
    resistivity: formula(
      "ohm m",
      "conductor_resistivity * width * thickness / (conductor_width * conductor_thickness)",
      "effective resistivity of the whole section",
      "this project",
      { symbol: "\\rho" },
    ),
  },
});

/** Section of fine crossbar wires of half pitch F. */
export const crossbarSection = model({
  parameters: wireDefaults,
  name: "crossbar_section",
  title: "Section of a fine crossbar wire",
  about: "Lines and gaps of one half pitch each, in the insulator of the local wires.",
  formulas: {
    width: formula("m", "feature", "width of the wire", "common practice"),
    spacing: formula("m", "feature", "gap to each neighbour", "common practice"),
    thickness: formula(
      "m",
      "crossbar_aspect * feature",
      "thickness of the wire",
      "common practice",
    ),
    permittivity: formula(
      "1",
      "local_wire_permittivity",
      "relative permittivity of the dielectric",
      "common practice",
    ),
  },
});

// Abscissae and weights of the 8-point Gauss-Legendre rule (half of the symmetric set).
const POINTS = [0.1834346424956498, 0.525532409916329, 0.7966664774136267, 0.9602898564975363];
const WEIGHTS = [0.362683783378362, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763];

function panel(f: (x: number) => number, low: number, high: number): number {
  const half = (high - low) / 2;
  const mid = (high + low) / 2;
  let sum = 0;
  for (let k = 0; k < POINTS.length; k++) {
    const step = half * POINTS[k]!;
    sum += WEIGHTS[k]! * (f(mid - step) + f(mid + step));
  }
  return half * sum;
}

/**
 * Resistivity of a film over bulk, exact surface integral (mfp1952): with u = 1/t the integral
 * runs over (0, 1].
 *
 * @param k thickness over mean free path, above 0
 * @param p share of electrons that the surfaces reflect like mirrors, 0 to below 1
 */
export function filmFactor(k: number, p: number): number {
  const inner = (u: number) => {
    const decay = exp(-k / u);
    return ((u - u * u * u) * (1 - decay)) / (1 - p * decay);
  };
  let sum = 0;
  for (let high = 1; high > 1e-12; high /= 2) {
    sum += panel(inner, high / 2, high * 0.75) + panel(inner, high * 0.75, high);
  }
  return 1 / (1 - (1.5 / k) * (1 - p) * sum);
}

/** The film's factor as a procedure. */
export const filmSurface: Procedure = procedure({
  name: "film_surface",
  title: "Resistivity of a thin film",
  about:
    "Exact integral over all directions of flight, 8-point Gauss-Legendre on 80 panels that " +
    "halve towards grazing flight; error below 1e-9 for films thicker than a hundredth of the " +
    "mean free path.",
  source: "mfp1952",
  inputs: {
    film_ratio: { unit: "1", meaning: "thickness over mean free path", symbol: "k" },
    surface_specularity: { unit: "1", meaning: "share of mirror-like reflection", symbol: "p" },
  },
  outputs: { film_factor: { unit: "1", meaning: "resistivity of the film over bulk" } },
  run(inputs, outputs) {
    outputs[0] = filmFactor(inputs[0]!, inputs[1]!);
  },
});
