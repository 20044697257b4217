/** The figures of a macro that tables show, in their order. Names are stable: changing one breaks users' scripts. */
export interface ReportedQuantity {
  readonly name: string;
  readonly label: string;
  readonly unit: string;
}

const of = (name: string, label: string, unit: string): ReportedQuantity => ({ name, label, unit });

export const REPORTED: readonly ReportedQuantity[] = [
  of("macro_area", "macro area", "m^2"),
  of("cell_area", "cell area", "m^2"),
  of("array_efficiency", "array efficiency", "1"),
  of("read_latency", "read latency", "s"),
  of("write_latency", "write latency", "s"),
  of("read_energy_per_bit", "read energy per bit", "J"),
  of("write_energy_per_bit", "write energy per bit", "J"),
  of("standby_power", "standby power", "W"),
  of("sleep_power", "sleep power", "W"),
  of("transistors", "transistors", "1"),
  of("switches", "switches", "1"),
];

/** Figures that only some designs have: cells that are told apart by a current, crossbars. */
export const REPORTED_WHERE: readonly ReportedQuantity[] = [
  of("rows", "rows of a tile", "1"),
  of("columns", "columns of a tile", "1"),
  of("signal_current", "read margin", "A"),
  of("least_pair_signal", "read margin of levels", "A"),
  of("read_margin_sigmas", "read margin in sigmas", "1"),
  of("write_delivery_share", "write share at far corner", "1"),
  of("disturb_voltage", "disturb voltage", "V"),
];

/** Figures of designs that say how they are used, see `reliability:` of a study. */
export const RELIABILITY: readonly ReportedQuantity[] = [
  of("bit_error_rate", "bit errors, fresh", "1"),
  of("word_failure", "word failure, fresh", "1"),
  of("macro_failure", "macro failure, fresh", "1"),
  of("aged_bit_error_rate", "bit errors, worst time", "1"),
  of("worst_time", "worst time", "s"),
  of("aged_word_failure", "word failure, worst", "1"),
  of("mission_failure", "macro lost in mission", "1"),
  of("retention", "retention", "s"),
  of("retention_margin", "retention over mission", "1"),
  of("spread_life", "life, writes spread", "s"),
  of("hot_line_life", "life, one word written", "s"),
  of("read_disturb_accesses", "reads of one state", "1"),
  of("disturb_accesses", "writes beside a state", "1"),
  of("disturb_rewrites", "rewrites to a disturb", "1"),
  of("yield_unrepaired", "yield, no repair", "1"),
  of("yield_repaired", "yield, repaired", "1"),
  of("allowed_scrub_interval", "scrub interval", "s"),
  of("scrub_power", "scrub power", "W"),
  of("scrub_time_share", "time spent on scrub", "1"),
];

/** The reported figures that a program has, in their order. */
export function reportedOf(program: {
  readonly quantities: ReadonlyMap<string, unknown>;
}): readonly ReportedQuantity[] {
  // All cells have rows and a signal; beside a margin these say something.
  const has = ({ name }: ReportedQuantity) =>
    program.quantities.has(name) && program.quantities.has("read_margin_sigmas");
  const known = ({ name }: ReportedQuantity) => program.quantities.has(name);
  return [...REPORTED, ...REPORTED_WHERE.filter(has), ...RELIABILITY.filter(known)];
}

/** Figures that compare a design with the baseline's, and so are not the macro's own. */
export const COMPARED: readonly ReportedQuantity[] = [
  of("transistors_saved", "transistors saved", "1"),
  of("transistors_saved_per_switch", "saved per switch", "1"),
];
