import type { Program } from "../formulas/program.ts";

/** Something that must hold for a memory to work at all. The quantity must be above zero. */
export interface Condition {
  readonly quantity: string;
  /** A sentence without full stop: what is wrong when it does not hold. */
  readonly fails: string;
  readonly fix: string;
}

const CONDITIONS: readonly Condition[] = [
  {
    quantity: "signal_current",
    fails:
      "the two states cannot be told apart in the worst pattern: the unselected cells of a column drown the signal",
    fix: "fewer rows, a selector, a more nonlinear switch, or a read that grounds the unselected rows",
  },
  {
    quantity: "least_pair_signal",
    fails: "two neighbouring levels cannot be told apart in the worst pattern",
    fix: "fewer `bits` in a cell, fewer rows, or a switch with a larger ratio",
  },
  {
    quantity: "sense_margin_left",
    fails: "the offset of the sense amplifiers exceeds the signal",
    fix: "a smaller `sense: offset`, fewer `sigmas`, or a cell with a larger signal",
  },
  {
    quantity: "write_current_left",
    fails: "the write of one cell alone needs more current than all writes may draw",
    fix: "a larger `write: current_limit`, or a switch with a lower write current",
  },
  {
    quantity: "selector_margin_half",
    fails: "a half-selected junction would snap on in a write",
    fix: "a selector with a higher threshold, or a switch with a lower write voltage",
  },
  {
    quantity: "selector_margin_read",
    fails: "a read would write: once the selector has snapped, the switch gets its write voltage",
    fix: "a selector whose threshold is closer to its hold voltage, or a switch with a higher write voltage",
  },
  {
    quantity: "selector_margin_hold",
    fails: "the read voltage does not hold the selector on",
    fix: "a higher read voltage or a selector with a lower hold voltage",
  },
  {
    quantity: "selector_margin_disturb",
    fails: "a half-selected junction gets its write voltage",
    fix: "the one-third scheme, a selector, or a more abrupt switch",
  },
  {
    quantity: "write_delivery_margin",
    fails: "the wires take too much of the write voltage before the far corner",
    fix: "smaller tiles, wider wires, or a selector that keeps half-selected junctions off",
  },
];

/** The conditions that a program has the quantities for. */
export function conditionsOf(program: Program): readonly Condition[] {
  return CONDITIONS.filter(({ quantity }) => program.quantities.has(quantity));
}
