/** Random designs over all that a study can choose, for properties that must hold for each. */
import fc from "fast-check";
import type { Keys } from "./study.ts";

const ALL_CMOS = [
  "sram-6t",
  "sram-8t",
  "sram-10t",
  "gain-2t",
  "gain-3t",
  "dram-1t1c",
  "embedded-dram-1t1c",
  "nor-flash",
  "split-gate-flash",
];
const SWITCHES = [
  "oxide-bilayer",
  "oxide-filament",
  "interface-oxide",
  "magnetic-tunnel",
  "magnetic-field",
  "metal-bridge",
  "phase-change",
  "tunnel-gap",
  "write-once",
];
const SELECTORS = [
  "none",
  "diode-poly-si",
  "threshold-chalcogenide",
  "threshold-metal-bridge",
  "nonlinear-tunnel",
  "mixed-conductor",
  "complementary-pair",
];
const SCHEMES = ["floating", "grounded", "one-half", "one-third"];
const NODES = ["180", "130", "90", "65", "65-low-power", "45", "32", "28", "22", "16", "7", "5"];

const device = fc.constantFrom(...SWITCHES);

const cell = fc.oneof(
  { weight: 3, arbitrary: fc.constantFrom(...ALL_CMOS).map((name) => ({ cell: name, decks: 1 })) },
  {
    weight: 2,
    arbitrary: fc
      .tuple(device, fc.constantFrom("single", "differential"), fc.constantFrom(1, 1, 2))
      .map(([from, form, bits]) => ({
        cell: { switch: from, selector: { kind: "transistor" }, form, bits },
        decks: 1,
      })),
  },
  {
    weight: 1,
    arbitrary: fc.tuple(device, fc.constantFrom("transistor", "diode")).map(([from, under]) => ({
      cell: { switch: from, selector: `array-${under}` },
      decks: 1,
    })),
  },
  {
    weight: 3,
    arbitrary: fc
      .tuple(
        device,
        fc.constantFrom(...SELECTORS),
        fc.constantFrom(...SCHEMES),
        fc.constantFrom("single", "single", "complementary"),
        fc.constantFrom(1, 2, 4),
      )
      .map(([from, selector, bias, form, decks]) => ({
        cell: { switch: from, selector, form },
        bias,
        decks,
      })),
  },
);

const power = (from: number, to: number) => fc.integer({ min: from, max: to }).map((n) => 2 ** n);

/**
 * Keys of a design, with its technology. Some are refused, because their banks cannot give a word;
 * some cannot work, because their cells cannot be told apart.
 */
export const randomDesign: fc.Arbitrary<Keys> = fc
  .record({
    cell,
    node: fc.constantFrom(...NODES),
    word: power(0, 7),
    words: power(4, 16),
    banks: power(0, 3),
    rows: fc.integer({ min: 2, max: 1024 }),
    columns: power(3, 10),
    share: power(0, 4),
    correction: fc.constantFrom("none", "none", "single", "single-double", { corrects: 2 }),
    spares: fc.constantFrom([0, 0], [0, 0], [2, 0], [0, 3], [4, 4]),
    lines: fc.constantFrom(undefined, undefined, "whole", "columns", "divided"),
    die: fc.constantFrom(undefined, undefined, { pads: "auto" }, { pads: 54 }),
    beneath: fc.constantFrom(0, 0, 30, 100),
    temperature: fc.integer({ min: -40, max: 125 }),
  })
  .map((r) => {
    const { decks, ...own } = r.cell;
    const least = Math.max(r.word * r.words, r.word);
    return {
      ...own,
      technology: `cmos-${r.node}`,
      capacity: `${least} bit`,
      word: `${r.word} bit`,
      banks: r.banks,
      tile: {
        rows: r.rows,
        columns: Math.max(r.columns, r.word),
        column_share: Math.min(r.share, r.columns),
        decks,
        ...(r.lines && { lines: r.lines }),
      },
      ...(r.die && { die: r.die }),
      error_correction: r.correction,
      spare_rows: r.spares[0],
      spare_columns: r.spares[1],
      periphery_beneath: `${r.beneath} %`,
      temperature: `${r.temperature} degC`,
    };
  });

/** Printed by a failure, so that it can be run again. */
export const SEED = 20261125;
