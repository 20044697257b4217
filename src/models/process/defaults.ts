import { defaultsOf } from "../define.ts";

/** Figures of the process sheet that no technology file has. */
export const processDefaults = defaultsOf([
  [
    "drive_exponent",
    "1",
    1.3,
    1.1,
    1.6,
    "alpha1990",
    "memory",
    "power of the overdrive that the on-current follows: 2 for long channels, 1 where carriers " +
      "move at their saturated speed; 1.2 to 1.3 are usual below 250 nm",
  ],
  [
    "mobility_exponent",
    "1",
    1.2,
    0.8,
    1.7,
    "cmosvlsi",
    "memory",
    "power of the temperature with which the on-current falls at a fixed overdrive: the textbook's " +
      "1.5 for mobility, less where carriers move at their saturated speed",
  ],
  [
    "low_threshold_share",
    "1",
    0.3,
    0.1,
    0.6,
    "common practice",
    "memory",
    "share of the widths of circuits that has the fast, low threshold: what an access waits for",
  ],
  [
    "retention_supply_share",
    "1",
    0.7,
    0.5,
    1,
    "common practice",
    "memory",
    "supply at which a sleeping static array keeps its data over the full one",
  ],
  [
    "tunnelling_voltage",
    "V",
    0.5,
    0.35,
    0.8,
    "gateleak",
    "memory",
    "voltage per decade of the current through a gate of 1 to 2 nm oxide",
  ],
  [
    "effective_current_share",
    "1",
    0.55,
    0.45,
    0.65,
    "common practice",
    "memory",
    "mean current of an inverter while it switches over its on-current",
  ],
  [
    "drain_saturation_share",
    "1",
    0.8,
    0.5,
    1,
    "common practice",
    "memory",
    "drain voltage at which the current saturates over supply minus threshold; 1 is the square law",
  ],
  [
    "device_layout_overhead",
    "1",
    1.3,
    1.15,
    1.6,
    "common practice",
    "memory",
    "area of a wide device with its isolation and well taps over gate pitch times width",
  ],
  [
    "layout_width_ratio",
    "1",
    1,
    1,
    1,
    "common practice",
    "default",
    "layout width of a device over its effective width: 1 for planar devices, fin pitch over " +
      "fin perimeter for fins",
  ],
  [
    "gate_width_multiple",
    "1",
    2,
    1.5,
    3,
    "common practice",
    "memory",
    "average n-type width in logic over the smallest width",
  ],
  [
    "leakage_stack_share",
    "1",
    0.7,
    0.4,
    1,
    "common practice",
    "memory",
    "leakage of gates with stacked devices over that of inverters of the same transistors",
  ],
  [
    "thick_threshold_voltage",
    "V",
    0.55,
    0.4,
    0.7,
    "common practice",
    "memory",
    "threshold voltage of the thick-oxide device",
  ],
  [
    "thick_off_current",
    "A/m",
    1e-5,
    1e-6,
    1e-4,
    "common practice",
    "memory",
    "off-current of the thick-oxide device at the reference temperature",
  ],
]);

/**
 * Layout width over effective width of fins: fin pitch over fin perimeter, by the catalogue's
 * technology. Pitches from memory (22 nm and 16 nm: read in notes of the technology files),
 * perimeters the `minimum_width` of those files.
 */
export const finLayoutRatios: Readonly<
  Record<string, { readonly value: number; readonly low: number; readonly high: number }>
> = {
  "cmos-22": { value: 60 / 76, low: 60 / 80, high: 60 / 70 },
  "cmos-16": { value: 48 / 92, low: 42 / 95, high: 48 / 80 },
  "cmos-7": { value: 30 / 105, low: 27 / 115, high: 34 / 90 },
  "cmos-5": { value: 28 / 105, low: 25 / 115, high: 30 / 90 },
};

/**
 * Dummy gates over a gap between fins in line, by the catalogue's technology, where they are fewer
 * than the two of the first generations of fins: one from 10 nm on (source `diffusion-break`).
 */
export const finBreakGates: typeof finLayoutRatios = {
  "cmos-7": { value: 1, low: 1, high: 2 },
  "cmos-5": { value: 1, low: 1, high: 1 },
};
