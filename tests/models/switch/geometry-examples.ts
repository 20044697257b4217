/** A plausible oxide switch for tests; invented from textbook ranges, describes no product. */
import type { SwitchGeometry } from "../../../src/models/switch/geometry.ts";

export const EV = 1.602176634e-19;

export const PLAUSIBLE: SwitchGeometry = {
  film_thickness: 3e-9,
  electrode_area: 1e-16,
  least_gap: 0.3e-9,
  most_gap: 1.2e-9,
  barrier_height: 1 * EV,
  effective_mass: 1,
  conductive_resistivity: 5e-5,
  hop_distance: 0.3e-9,
  attempt_frequency: 1e13,
  hop_energy: 1.1 * EV,
  vacancy_charge: 2,
  temperature: 300,
  thermal_resistance: 0,
};
