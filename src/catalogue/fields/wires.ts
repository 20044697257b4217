import type { Field, FieldTable } from "./field.ts";

export const WIRE_LEVELS = ["local", "intermediate", "global"] as const;

/** The wires of one level of a technology. */
export const LEVEL_TABLE: FieldTable = {
  width: { unit: "m", meaning: "width", symbol: "w" },
  spacing: { unit: "m", meaning: "spacing", symbol: "s" },
  thickness: { unit: "m", meaning: "thickness", symbol: "t" },
  permittivity: { unit: "1", meaning: "relative permittivity", symbol: "k" },
  resistivity: {
    unit: "ohm m",
    meaning: "effective resistivity, barrier and size effect folded in",
    symbol: "\\rho",
  },
};

/** The fields of all levels, such as `local_wire_width`. */
export const LEVEL_FIELDS: FieldTable = Object.fromEntries(
  WIRE_LEVELS.flatMap((level) =>
    Object.entries(LEVEL_TABLE).map(([name, field]): [string, Field] => [
      `${level}_wire_${name}`,
      { ...field, meaning: `${field.meaning} of a ${level} wire`, required: true },
    ]),
  ),
);

/** A metal as a narrow wire: what the size effect needs. */
export const METAL_FIELDS: FieldTable = {
  bulk_resistivity: {
    unit: "ohm m",
    meaning: "bulk resistivity at 300 K",
    symbol: "\\rho_0",
    required: true,
  },
  mean_free_path: {
    unit: "m",
    meaning: "mean free path of the electrons at 300 K",
    symbol: "\\lambda",
    required: true,
  },
  resistivity_times_mean_free_path: {
    unit: "ohm m^2",
    meaning: "product of resistivity and mean free path",
    symbol: "\\rho_0 \\lambda",
  },
  bulk_resistivity_293: { unit: "ohm m", meaning: "bulk resistivity at 293 K" },
  temperature_coefficient: {
    unit: "1/K",
    meaning: "relative growth of the bulk resistivity per kelvin at 293 K",
    symbol: "\\alpha",
    required: true,
  },
  surface_specularity: {
    unit: "1",
    meaning: "share of electrons that a surface reflects like a mirror",
    symbol: "p",
    shape: "share",
    required: true,
  },
  grain_reflection: {
    unit: "1",
    meaning: "share of electrons that a grain boundary reflects",
    symbol: "R",
    shape: "share",
    required: true,
  },
  geometry_factor: {
    unit: "1",
    meaning: "factor of the surface term for a rectangular wire",
    symbol: "C",
    required: true,
  },
};
