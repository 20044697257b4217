/** Closed formulas of a switch from geometry. */
import { type FormulaDefinition, type InputDefinition, sheet } from "../../formulas/sheet.ts";

const TUNNEL = "tunnel1963";
const IONIC = "ionic";

function formula(
  unit: string,
  text: string,
  meaning: string,
  source: string,
  symbol?: string,
): FormulaDefinition {
  const definition = { unit, formula: text, meaning, source };
  return symbol === undefined ? definition : { ...definition, symbol };
}

const MASS: InputDefinition = {
  unit: "1",
  meaning: "effective mass of the tunnelling electron over the free one",
  symbol: "m^*",
};

export const tunnelBarrier = sheet({
  name: "tunnel_barrier",
  title: "Resistance against the gap",
  about:
    "Low-field tunnelling: the resistance falls exponentially as the gap thins. A factor of 1000 " +
    "for 0.3 nm implies a barrier near 5.05 eV at the free mass; a lower barrier gives less.",
  inputs: {
    barrier_height: { unit: "J", meaning: "height of the tunnel barrier", symbol: "\\phi" },
    effective_mass: MASS,
    gap_change: { unit: "m", meaning: "by how much the gap thins", symbol: "\\Delta" },
    resistance_factor: { unit: "1", meaning: "factor by which the resistance falls" },
  },
  formulas: {
    tunnel_decay: formula(
      "1/m",
      "2 * sqrt(2 * effective_mass * electron_mass * barrier_height) / reduced_planck_constant",
      "decay constant of the current with the gap",
      TUNNEL,
      "\\kappa",
    ),
    predicted_factor: formula(
      "1",
      "exp(tunnel_decay * gap_change)",
      "factor that this barrier gives for the change of the gap",
      TUNNEL,
    ),
    implied_barrier: formula(
      "J",
      "(reduced_planck_constant * log(resistance_factor) / (2 * gap_change))^2 / (2 * effective_mass * electron_mass)",
      "barrier that a stated factor implies",
      TUNNEL,
    ),
  },
});

export const vacancyMotion = sheet({
  name: "vacancy_motion",
  title: "Motion of the boundary",
  about:
    "Hopping of vacancies over barriers that the field tilts. At low field it is the linear drift " +
    "law with Einstein's relation; at zero field diffusion closes or opens the gap.",
  inputs: {
    hop_distance: { unit: "m", meaning: "distance of a hop", symbol: "a" },
    attempt_frequency: { unit: "1/s", meaning: "attempts per second", symbol: "f" },
    hop_energy: { unit: "J", meaning: "activation energy of a hop", symbol: "E_a" },
    vacancy_charge: { unit: "1", meaning: "charge number of a vacancy", symbol: "z" },
    temperature: { unit: "K", meaning: "temperature", symbol: "T" },
    field: { unit: "V/m", meaning: "electric field in the gap", symbol: "E" },
    lost_distance: { unit: "m", meaning: "change of the gap at which the state is lost" },
    set_time: { unit: "s", meaning: "time of a set pulse" },
  },
  formulas: {
    hop_tilt: formula(
      "1",
      "vacancy_charge * elementary_charge * hop_distance * field / (2 * boltzmann_constant * temperature)",
      "half of the energy that the field adds to a hop, over kT",
      IONIC,
    ),
    diffusivity: formula(
      "m^2/s",
      "hop_distance^2 * attempt_frequency * exp(-hop_energy / (boltzmann_constant * temperature))",
      "diffusivity of vacancies",
      IONIC,
      "D",
    ),
    mobility: formula(
      "m^2/(V s)",
      "vacancy_charge * elementary_charge * diffusivity / (boltzmann_constant * temperature)",
      "mobility of vacancies at low field",
      IONIC,
      "\\mu",
    ),
    boundary_speed: formula(
      "m/s",
      "2 * diffusivity / hop_distance * sinh(hop_tilt)",
      "speed of the boundary, while the field leaves some of the barrier",
      IONIC,
      "v",
    ),
    linear_speed: formula("m/s", "mobility * field", "speed by the linear drift law", IONIC),
    gap_retention: formula(
      "s",
      "lost_distance^2 / (2 * diffusivity)",
      "time in which diffusion moves the boundary so far",
      "this project",
    ),
    voltage_time_decades: formula(
      "1",
      "log10(gap_retention / set_time)",
      "decades from the set pulse to the retention: what the voltage must bring about",
      "this project",
    ),
  },
});

export const linearDrift = sheet({
  name: "linear_drift",
  title: "Linear drift in closed form",
  about:
    "Two ohmic layers in series whose boundary moves with the charge: the position follows from " +
    "the flux (integral of the voltage) alone, for any drive, while it stays between the ends.",
  inputs: {
    on_resistance: { unit: "ohm", meaning: "resistance of the all-conductive film" },
    off_resistance: { unit: "ohm", meaning: "resistance of the all-insulating film" },
    mobility: { unit: "m^2/(V s)", meaning: "mobility of vacancies", symbol: "\\mu" },
    film_thickness: { unit: "m", meaning: "thickness of the film", symbol: "L" },
    start_position: { unit: "1", meaning: "conductive share of the film at the start" },
    flux: { unit: "V s", meaning: "integral of the voltage", symbol: "\\varphi" },
  },
  formulas: {
    start_resistance: formula(
      "ohm",
      "off_resistance - (off_resistance - on_resistance) * start_position",
      "resistance at the start",
      "linear-drift2008",
    ),
    drift_rate: formula(
      "ohm/(V s)",
      "(off_resistance - on_resistance) * mobility / film_thickness^2",
      "fall of the resistance per flux, in the all-conductive film",
      "linear-drift2008",
    ),
    drifted_resistance: formula(
      "ohm",
      "sqrt(start_resistance^2 - 2 * on_resistance * drift_rate * flux)",
      "resistance after that flux",
      "linear-drift2008",
    ),
    position: formula(
      "1",
      "(off_resistance - drifted_resistance) / (off_resistance - on_resistance)",
      "conductive share of the film after that flux",
      "linear-drift2008",
    ),
  },
});
