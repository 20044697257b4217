import { sumTree } from "../formulas/build.ts";
import type { ExtraFormula } from "../formulas/program.ts";
import type { Tree } from "../formulas/tree.ts";
import type { PartUse } from "../models/periphery/index.ts";
import { LEAKAGE, READ_ENERGIES, WRITE_ENERGIES } from "./energy.ts";

/** A quantity that is a sum over parts, and the quantities that it sums. */
export interface Total {
  readonly name: string;
  readonly unit: string;
  readonly meaning: string;
  /** Ledger name and quantity, in the order of the breakdown. */
  readonly parts: readonly { readonly part: string; readonly quantity: string }[];
}

const BLOCKS = { tile: "tiles", bank: "banks", macro: "1" } as const;
const ACTIVE = { tile: "tiles_active", bank: "1", macro: "1" } as const;

const times = (factor: string, text: string) => (factor === "1" ? text : `${factor} * ${text}`);

/** What one kind of part adds to the whole macro, each as a formula of its own. */
function contributions(use: PartUse): ExtraFormula[] {
  const { name, prefix, level, count, activeRead, activeWrite, alongTiles = false } = use;
  const all = `all_${prefix}`;
  const make = (what: string, unit: string, formula: string, meaning: string): ExtraFormula => ({
    name: `${all}${what}`,
    unit,
    formula,
    meaning,
    source: "this project",
  });
  const active = ACTIVE[level];
  const beside = level === "tile" || alongTiles ? " * beside_share" : "";
  return [
    make("instances", "1", times(BLOCKS[level], `(${count})`), `${name}: how many in the macro`),
    make(
      "transistors",
      "1",
      `${all}instances * ${prefix}transistors`,
      `${name}: transistors of all`,
    ),
    make(
      "area",
      "m^2",
      `${all}instances * ${prefix}area${beside}`,
      `${name}: area of all, beside the arrays`,
    ),
    make("leakage", "W", `${all}instances * ${prefix}leakage`, `${name}: leakage of all`),
    make(
      "read_energy",
      "J",
      `${times(active, `(${activeRead})`)} * ${prefix}read_energy`,
      `${name}: energy in a read`,
    ),
    make(
      "write_energy",
      "J",
      `${times(active, `(${activeWrite})`)} * ${prefix}write_energy`,
      `${name}: energy in a write`,
    ),
  ];
}

/** The area of all of one kind of part in one tile, or a tile's share of what it has with others. */
function tileArea({ name, prefix, count, alongTiles = false }: PartUse): ExtraFormula {
  if (alongTiles) {
    return {
      name: `tile_${prefix}area`,
      unit: "m^2",
      formula: `(${count}) * ${prefix}area / tiles_per_bank`,
      meaning: `${name}: area in one tile, its share of what tiles have together`,
      source: "this project",
    };
  }
  return {
    name: `tile_${prefix}area`,
    unit: "m^2",
    formula: times(count === "1" ? "1" : `(${count})`, `${prefix}area`),
    meaning: `${name}: area in one tile`,
    source: "this project",
  };
}

/** The area of one tile's parts on a side, which the floor plan reads. */
function sideArea(name: string, uses: readonly PartUse[], side: string): ExtraFormula {
  return {
    name,
    unit: "m^2",
    formula: sumTree(uses.map(({ prefix }) => `tile_${prefix}area`)),
    meaning: `area of one tile's parts along the ${side}`,
    source: "this project",
  };
}

/** Its load is the way across the macro, so its area cannot decide how far that is. */
const DATA_DRIVER = "data_driver_";

const isRowPart = (use: PartUse) => use.prefix.startsWith("row_");

/** Sums over the parts of a macro: what each part adds, and the totals with their breakdown. */
export interface PartTotals {
  readonly formulas: readonly ExtraFormula[];
  readonly totals: readonly Total[];
}

/**
 * Totals of area, transistors, energies and leakage over cells, lines and parts.
 *
 * @param uses the periphery's parts
 * @returns extra formulas for `assemble`, and for each total the quantities that it is the sum of
 */
export function partTotals(uses: readonly PartUse[]): PartTotals {
  const ofParts = (what: string) =>
    uses.map((use) => ({ part: use.name, quantity: `all_${use.prefix}${what}` }));
  const listed = (entries: Readonly<Record<string, string>>) =>
    Object.entries(entries).map(([part, quantity]) => ({ part, quantity }));
  const activeRead = [...listed(READ_ENERGIES), ...ofParts("read_energy")];
  const activeWrite = [...listed(WRITE_ENERGIES), ...ofParts("write_energy")];
  const leaks = [{ part: "cells", quantity: "all_cells_leakage" }, ...ofParts("leakage")];
  const sum = (name: string, unit: string, meaning: string, parts: Total["parts"]) =>
    cellsFormula(name, unit, sumTree(parts.map(({ quantity }) => quantity)), meaning);
  const totals: Total[] = [
    {
      name: "macro_area",
      unit: "m^2",
      meaning: "area of the macro",
      parts: [
        { part: "cells", quantity: "all_cells_area" },
        ...ofParts("area"),
        { part: "straps and edges", quantity: "all_edges_area" },
        { part: "corners of the tiles", quantity: "all_corners_area" },
      ],
    },
    {
      name: "transistors",
      unit: "1",
      meaning: "transistors of the macro",
      parts: [{ part: "cells", quantity: "all_cells_transistors" }, ...ofParts("transistors")],
    },
    {
      name: "read_energy",
      unit: "J",
      meaning: "energy of one read",
      parts: [...activeRead, { part: LEAKAGE, quantity: "leakage_read_energy" }],
    },
    {
      name: "write_energy",
      unit: "J",
      meaning: "energy of one write",
      parts: [...activeWrite, { part: LEAKAGE, quantity: "leakage_write_energy" }],
    },
    {
      name: "standby_power",
      unit: "W",
      meaning: "power while nothing is accessed and the supply is on",
      parts: [
        { part: "cells", quantity: "all_cells_leakage" },
        { part: "refresh", quantity: "all_refresh_power" },
        ...ofParts("leakage"),
      ],
    },
  ];
  const tileParts = uses.filter(({ level, alongTiles }) => level === "tile" || alongTiles);
  return {
    totals,
    formulas: [
      ...tileParts.map(tileArea),
      sideArea("row_side_area", tileParts.filter(isRowPart), "rows"),
      sideArea(
        "side_area_without_data_drivers",
        tileParts.filter(({ prefix }) => prefix !== DATA_DRIVER),
        "sides, without the drivers whose load is the macro itself",
      ),
      sideArea(
        "column_side_area",
        tileParts.filter((use) => !isRowPart(use)),
        "columns",
      ),
      ...uses.flatMap(contributions),
      ...CELLS,
      refreshPower(uses),
      sum("active_read_energy", "J", "energy of one read, leakage apart", activeRead),
      sum("active_write_energy", "J", "energy of one write, leakage apart", activeWrite),
      sum("leakage_power", "W", "what cells and circuits let through, supply on", leaks),
      ...LEAKAGE_ENERGIES,
      ...totals.map(({ name, unit, meaning, parts }) => ({
        name,
        unit,
        meaning,
        formula: WITHOUT_A_LIST[name] ?? sumTree(parts.map(({ quantity }) => quantity)),
        source: "this project",
      })),
    ],
  };
}

const cellsFormula = (
  name: string,
  unit: string,
  formula: string | Tree,
  meaning: string,
): ExtraFormula => ({
  name,
  unit,
  formula,
  meaning,
  source: "this project",
});

/** Totals whose parts but one are summed already. */
const WITHOUT_A_LIST: Readonly<Record<string, string>> = {
  read_energy: "active_read_energy + leakage_read_energy",
  write_energy: "active_write_energy + leakage_write_energy",
  standby_power: "leakage_power + all_refresh_power",
};

/**
 * What leaks until the next access, which waits for this one. Source: the textbook form of the
 * energy of an operation below the threshold, E = C V^2 + I_off V t.
 */
const LEAKAGE_ENERGIES: readonly ExtraFormula[] = [
  {
    name: "leakage_read_energy",
    unit: "J",
    formula: "leakage_power * max(read_latency, read_cycle)",
    meaning: "energy that leaks from one read to the next, which waits for its word",
    source: "least-energy",
    note: "all of the macro; banks that overlap share it",
  },
  {
    name: "leakage_write_energy",
    unit: "J",
    formula: "leakage_power * max(write_latency, read_cycle)",
    meaning: "energy that leaks during a write",
    source: "least-energy",
    note: "all of the macro; banks that overlap share it",
  },
];

/** Refreshing wakes rows and amplifiers too; those that share an amplifier take turns. */
function refreshPower(uses: readonly PartUse[]): ExtraFormula {
  const refreshed = uses.some(({ prefix }) => prefix === "refresh_control_");
  const divided = uses.some(({ prefix }) => prefix === "row_main_driver_");
  const decoding = divided
    ? "(row_decoder_read_energy + row_main_driver_read_energy) / tiles_along_row"
    : "row_decoder_read_energy";
  const access =
    ` + tiles * physical_rows * (amplifier_share * (${decoding} + ` +
    "row_driver_read_energy) + physical_columns * (sense_amplifier_read_energy + " +
    "precharge_read_energy)) / retention_at_temperature";
  return cellsFormula(
    "all_refresh_power",
    "W",
    `cells * refresh_power${refreshed ? access : ""}`,
    "power of refreshing all cells",
  );
}

const CELLS: readonly ExtraFormula[] = [
  cellsFormula(
    "all_cells_area",
    "m^2",
    "tiles * physical_rows * physical_columns * cell_width * cell_height",
    "area of all cells; decks lie above each other",
  ),
  cellsFormula(
    "all_edges_area",
    "m^2",
    "tiles * tile_array_area - all_cells_area",
    "well straps and dummy cells of all arrays",
  ),
  cellsFormula(
    "all_corners_area",
    "m^2",
    "tiles * corner_area",
    "empty corners between the strips of all tiles",
  ),
  cellsFormula(
    "all_cells_transistors",
    "1",
    "cells * cell_transistors",
    "transistors of all cells",
  ),
  cellsFormula(
    "all_cells_leakage",
    "W",
    "cells * cell_standby_power",
    "power that keeps the data of all cells",
  ),
];
