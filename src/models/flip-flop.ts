/**
 * Energy of a flip-flop by count, as formulas: a master and a slave of two inverters each, two pairs
 * of switches before each of them, and two inverters of the clock of its own. The rest of its
 * devices, if it has more, are inverters too.
 * Source: cmosvlsi, dic (master and slave with transmission gates).
 */

/**
 * Of every clock: the clock's own inverters, and the gates of four pairs of switches [J].
 * Reads `unit_gate_energy` [J], `unit_gate_input_capacitance` [F], `supply` [V].
 */
export const CLOCK_ENERGY = "(2 * unit_gate_energy + 4 * unit_gate_input_capacitance * supply ^ 2)";

/**
 * Of a bit that changes, of whose changes half are rising: the other inverters, and the drains on
 * both sides of the switches [J]. Reads the same and `flip_flop_transistors` [1].
 */
export const CHANGE_ENERGY =
  "((flip_flop_transistors / 2 + 2) * unit_gate_energy - 8 * unit_gate_input_capacitance * " +
  "supply ^ 2) / 2";
