/**
 * Physical constants. Exact ones are defined by the SI since 20 May 2019 (SI brochure, 9th
 * edition); measured ones are the CODATA recommended values of 2022 (Rev. Mod. Phys. 97, 025002,
 * 2025, doi:10.1103/RevModPhys.97.025002).
 */
export interface Constant {
  readonly symbol: string;
  readonly meaning: string;
  readonly value: number;
  readonly unit: string;
  /** Standard uncertainty; 0 where exact by definition. */
  readonly uncertainty: number;
  readonly source: "si-brochure-2019" | "codata-2022";
}

const SI = "si-brochure-2019";

export const CONSTANTS = {
  elementary_charge: {
    symbol: "q",
    meaning: "elementary charge",
    value: 1.602176634e-19,
    unit: "C",
    uncertainty: 0,
    source: SI,
  },
  boltzmann_constant: {
    symbol: "k",
    meaning: "Boltzmann constant",
    value: 1.380649e-23,
    unit: "J/K",
    uncertainty: 0,
    source: SI,
  },
  planck_constant: {
    symbol: "h",
    meaning: "Planck constant",
    value: 6.62607015e-34,
    unit: "J s",
    uncertainty: 0,
    source: SI,
  },
  reduced_planck_constant: {
    symbol: "\\hbar",
    meaning: "Planck constant divided by 2π",
    value: 6.62607015e-34 / (2 * Math.PI),
    unit: "J s",
    uncertainty: 0,
    source: SI,
  },
  speed_of_light: {
    symbol: "c",
    meaning: "speed of light in vacuum",
    value: 299792458,
    unit: "m/s",
    uncertainty: 0,
    source: SI,
  },
  vacuum_permittivity: {
    symbol: "\\varepsilon_0",
    meaning: "electric constant",
    value: 8.8541878188e-12,
    unit: "F/m",
    uncertainty: 1.4e-21,
    source: "codata-2022",
  },
  electron_mass: {
    symbol: "m_e",
    meaning: "mass of the free electron",
    value: 9.1093837139e-31,
    unit: "kg",
    uncertainty: 2.8e-40,
    source: "codata-2022",
  },
} as const satisfies Record<string, Constant>;

export const ELEMENTARY_CHARGE = CONSTANTS.elementary_charge.value;
export const BOLTZMANN_CONSTANT = CONSTANTS.boltzmann_constant.value;
export const PLANCK_CONSTANT = CONSTANTS.planck_constant.value;
export const REDUCED_PLANCK_CONSTANT = CONSTANTS.reduced_planck_constant.value;
export const VACUUM_PERMITTIVITY = CONSTANTS.vacuum_permittivity.value;
export const ELECTRON_MASS = CONSTANTS.electron_mass.value;
