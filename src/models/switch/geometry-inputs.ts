/** What describes a switch by its geometry: unit, meaning and symbol of each figure. */
import type { InputDefinition } from "../../formulas/sheet.ts";
import type { SwitchGeometry } from "./geometry.ts";

export const GEOMETRY: Readonly<Record<keyof SwitchGeometry, InputDefinition>> = {
  film_thickness: { unit: "m", meaning: "thickness of the film", symbol: "L" },
  electrode_area: { unit: "m^2", meaning: "area that conducts", symbol: "A" },
  least_gap: { unit: "m", meaning: "insulating gap of the on state" },
  most_gap: { unit: "m", meaning: "insulating gap of the off state" },
  barrier_height: { unit: "J", meaning: "height of the tunnel barrier", symbol: "\\phi" },
  effective_mass: { unit: "1", meaning: "effective mass of the electron over the free one" },
  conductive_resistivity: { unit: "ohm m", meaning: "resistivity of the vacancy-rich part" },
  hop_distance: { unit: "m", meaning: "distance of a vacancy's hop", symbol: "a" },
  attempt_frequency: { unit: "1/s", meaning: "attempts to hop per second", symbol: "f" },
  hop_energy: { unit: "J", meaning: "activation energy of a hop", symbol: "E_a" },
  vacancy_charge: { unit: "1", meaning: "charge number of a vacancy", symbol: "z" },
  temperature: { unit: "K", meaning: "temperature", symbol: "T" },
  thermal_resistance: { unit: "K/W", meaning: "rise of the switch's temperature per power" },
};
