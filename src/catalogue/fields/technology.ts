import { chosen, type FieldTable, typical } from "./field.ts";
import { LEVEL_FIELDS } from "./wires.ts";

const TRANSISTORS: FieldTable = {
  reference_temperature: {
    unit: "K",
    meaning: "temperature at which the currents are stated",
    symbol: "T_0",
    default: chosen("300 K", "process papers give currents at room temperature"),
  },
  supply: { unit: "V", meaning: "core supply", symbol: "V_{DD}", required: true },
  io_supply: {
    unit: "V",
    meaning: "supply of the thick-oxide devices",
    symbol: "V_{IO}",
    required: true,
  },
  nmos_on_current: {
    unit: "A/m",
    meaning: "saturation current of the n-type core device per width",
    symbol: "I_{on}",
    required: true,
  },
  nmos_off_current: {
    unit: "A/m",
    meaning: "off current of the n-type core device per width at the reference temperature",
    symbol: "I_{off}",
    required: true,
  },
  threshold_voltage: {
    unit: "V",
    meaning: "threshold voltage of the n-type core device",
    symbol: "V_t",
    required: true,
  },
  subthreshold_swing: {
    unit: "V",
    meaning: "gate voltage per decade of current below threshold at the reference temperature",
    symbol: "S",
    required: true,
  },
  threshold_temperature_slope: {
    unit: "V/K",
    meaning: "change of the threshold voltage per kelvin",
    symbol: "\\kappa",
    shape: "signed",
    required: true,
  },
  drain_barrier_lowering: {
    unit: "1",
    meaning: "fall of the threshold voltage per drain voltage",
    symbol: "\\sigma",
    default: typical("0.1", "0.05", "0.16", "planar, 90 nm and below"),
  },
  fixed_leakage_current: {
    unit: "A/m",
    meaning: "current per width through gate and junctions at the supply, whatever the temperature",
    symbol: "I_g",
    default: typical("0.1 nA/um", "0.005 nA/um", "5 nA/um", "gates of a high permittivity"),
  },
  p_to_n_current: {
    unit: "1",
    meaning: "on current of a p-type device over that of an n-type one",
    symbol: "\\beta",
    required: true,
  },
  gate_capacitance: {
    unit: "F/m",
    meaning: "gate capacitance per width, overlap included",
    symbol: "C_g",
    required: true,
  },
  drain_capacitance: {
    unit: "F/m",
    meaning: "capacitance of a contacted drain per width",
    symbol: "C_d",
    required: true,
  },
  fo4_delay: {
    unit: "s",
    meaning: "delay of an inverter that drives four like itself",
    symbol: "t_{FO4}",
    required: true,
  },
  minimum_width: {
    unit: "m",
    meaning: "smallest device width",
    symbol: "W_{min}",
    required: true,
  },
  matching_coefficient: {
    unit: "V m",
    meaning: "threshold difference of a matched pair times the root of its gate area",
    symbol: "A_{VT}",
    required: true,
  },
};

const THICK_OXIDE: FieldTable = {
  thick_gate_length: {
    unit: "m",
    meaning: "gate length of a thick-oxide device",
    symbol: "L_{IO}",
    required: true,
  },
  thick_on_current: {
    unit: "A/m",
    meaning: "saturation current of a thick-oxide n-type device per width",
    symbol: "I_{on,IO}",
    required: true,
  },
  thick_contacted_pitch: {
    unit: "m",
    meaning: "contacted gate pitch of thick-oxide devices",
    required: true,
  },
  thick_gate_capacitance: {
    unit: "F/m",
    meaning: "gate capacitance of a thick-oxide device per width",
    symbol: "C_{g,IO}",
    required: true,
  },
  thick_supply: {
    unit: "V",
    meaning: "largest supply of a thick-oxide device",
    sameAs: "io_supply",
  },
};

const PITCHES_AND_AREAS: FieldTable = {
  feature: {
    unit: "m",
    meaning: "half pitch of the wires of the crossbar",
    symbol: "F",
    sameAs: "metal_half_pitch",
  },
  metal_half_pitch: { unit: "m", meaning: "half of the tightest metal pitch", required: true },
  metal_pitch: { unit: "m", meaning: "pitch of the first metal level, or the tightest one" },
  contacted_gate_pitch: {
    unit: "m",
    meaning: "contacted gate pitch",
    symbol: "p_g",
    required: true,
  },
  gate_density: {
    unit: "1/m^2",
    meaning: "two-input NAND gates per area",
    symbol: "D_g",
    required: true,
  },
  logic_transistor_density: {
    unit: "1/m^2",
    meaning: "logic transistors per area, weighted between a NAND gate and a flip-flop",
  },
  flip_flop_area: { unit: "m^2", meaning: "area of a flip-flop", symbol: "A_{FF}", required: true },
  sram_6t_cell_area: {
    unit: "m^2",
    meaning: "area of the published static cell of six transistors",
    symbol: "A_{6T}",
    required: true,
  },
  sram_8t_cell_area: { unit: "m^2", meaning: "area of a static cell of eight transistors" },
};

/** A CMOS node. Per-width quantities of fin devices are per effective width. */
export const TECHNOLOGY_FIELDS: FieldTable = {
  ...PITCHES_AND_AREAS,
  ...TRANSISTORS,
  ...THICK_OXIDE,
  ...LEVEL_FIELDS,
};
