import type { FieldTable } from "./field.ts";

/**
 * A resistance switch as it is built. All stand together, and in place of what is measured of it:
 * resistances, times and retention follow from them.
 */
export const GEOMETRY_FIELDS: FieldTable = {
  electrode_area: {
    unit: "m^2",
    meaning: "area that conducts: of the electrode, or of the filament",
    symbol: "A",
  },
  least_gap: { unit: "m", meaning: "insulating gap that a set leaves" },
  most_gap: { unit: "m", meaning: "insulating gap that a reset leaves" },
  barrier_height: {
    unit: "J",
    meaning: "height of the tunnel barrier of the gap",
    symbol: "\\phi",
    show: "eV",
  },
  conductive_resistivity: { unit: "ohm m", meaning: "resistivity of the vacancy-rich part" },
  hop_distance: { unit: "m", meaning: "distance of a vacancy's hop" },
  hop_energy: { unit: "J", meaning: "activation energy of a vacancy's hop", show: "eV" },
  effective_mass: {
    unit: "1",
    meaning: "effective mass of the tunnelling electron over the free one",
    symbol: "m^*",
  },
  attempt_frequency: { unit: "1/s", meaning: "attempts of a vacancy to hop per second" },
  vacancy_charge: { unit: "1", meaning: "charge number of a vacancy", symbol: "z" },
  thermal_resistance: {
    unit: "K/W",
    meaning: "rise of the switch's temperature per power",
    symbol: "R_{th}",
  },
  gap_spread: {
    unit: "m",
    meaning: "standard deviation of the gap from device to device, as of the film's thickness",
    symbol: "\\sigma_s",
  },
  area_spread: {
    unit: "1",
    meaning: "standard deviation of the logarithm of the conducting area from device to device",
    symbol: "\\sigma_A",
  },
  gap_cycle_spread: {
    unit: "m",
    meaning: "standard deviation of the gap from cycle to cycle",
  },
};

/** What geometry says, and no default may say instead. */
export const GEOMETRY_NEEDS = [
  "film_thickness",
  "electrode_area",
  "least_gap",
  "most_gap",
  "barrier_height",
  "conductive_resistivity",
  "hop_distance",
  "hop_energy",
] as const;

/** Measured figures that a geometry computes. */
export const GEOMETRY_GIVES = [
  "on_resistance",
  "off_resistance",
  "scale_voltage",
  "set_time",
  "reset_time",
  "retention_time",
  "retention_temperature",
  "activation_energy",
] as const;
/** Measured figures that say the same as those in another way. */
export const GEOMETRY_REPLACES = [...GEOMETRY_GIVES, "on_off_ratio", "nonlinearity"] as const;

/** Spreads of a geometry; one of them makes all spreads of the resistance follow from it. */
export const GEOMETRY_SPREADS = ["gap_spread", "area_spread", "gap_cycle_spread"] as const;
/** What they compute, in place of what is measured. */
export const SPREAD_GIVES = ["device_spread_on", "device_spread_off", "cycle_spread"] as const;
