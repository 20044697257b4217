import type { FieldTable } from "./field.ts";

/**
 * A magnetic junction by the barrier between its states, which keeps them and stands against a
 * write. The damping marks it: no other switch has one.
 */
export const MAGNETIC_FIELDS: FieldTable = {
  damping: {
    unit: "1",
    meaning: "Gilbert damping of a magnetic junction's free layer",
    symbol: "\\alpha",
  },
  layer_moment: {
    unit: "A",
    meaning: "magnetic moment of the free layer per area",
    symbol: "M_s t",
  },
  stability: {
    unit: "1",
    meaning: "energy barrier of a magnetic junction over kT at the retention temperature",
    symbol: "\\Delta",
  },
  retention_failure_share: {
    unit: "1",
    meaning: "share of magnetic junctions that may lose their state within the retention time",
  },
  attempt_time: {
    unit: "s",
    meaning: "attempt time of the thermal activation of a magnetic junction",
    symbol: "t_0",
  },
  bloch_temperature: {
    unit: "K",
    meaning: "temperature at which Bloch's law has the free layer's magnetisation vanish",
    symbol: "T^*",
  },
  barrier_exponent: {
    unit: "1",
    meaning: "power of the magnetisation that the barrier follows",
  },
  write_error_rate: {
    unit: "1",
    meaning: "share of pulses that fail to write a magnetic junction",
  },
};
