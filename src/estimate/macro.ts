import { assemble } from "../formulas/assemble.ts";
import type { Parser } from "../formulas/expand.ts";
import type { ExtraFormula, GivenQuantity, Program } from "../formulas/program.ts";
import type { Instance } from "../formulas/sheet.ts";
import { readMarginSigmas, senseSpread } from "../models/crossbar/margin.ts";
import { accessFor, partsFor, sharedSheets, terminates } from "../models/periphery/index.ts";
import { type CellModel, processInstances, wireInstance } from "../models/registry.ts";
import { switchSpread, verifiedSpread } from "../models/reliability/index.ts";
import { lineDelay, lineSettling } from "../models/wire/line-delay.ts";
import { wire } from "../models/wire/wire.ts";
import { accessEnergy } from "./energy.ts";
import { floorplan } from "./floorplan.ts";
import { lineLoads } from "./geometry.ts";
import { organisation, plainOrganisation } from "./organisation.ts";
import { partTotals, type Total } from "./parts.ts";
import { reliabilityRecipe } from "./reliability-recipe.ts";
import type { MacroStructure, WireSource } from "./structure.ts";
import { type Keeping, summaryFormulas } from "./summary.ts";

/** Everything that a macro's program is assembled from, before it meets parameters. */
export interface MacroRecipe {
  readonly instances: readonly Instance[];
  readonly extra: readonly ExtraFormula[];
  /** Totals with the quantities that they are the sums of. */
  readonly totals: readonly Total[];
}

function wireOf(prefix: string, source: WireSource): Instance {
  if (source !== "given") return wireInstance(prefix, source);
  const names = ["width", "spacing", "thickness", "permittivity", "resistivity"];
  return { of: wire, prefix, bind: Object.fromEntries(names.map((one) => [one, prefix + one])) };
}

const same = (name: string, unit: string, formula: string, meaning: string): ExtraFormula => ({
  name,
  unit,
  formula,
  meaning,
  source: "this project",
});

/**
 * Delays of the row and the column wires. What drives them is counted with the driver unless it is a resistance in
 * series.
 */
function lineDelays(structure: MacroStructure): { instances: Instance[]; extra: ExtraFormula[] } {
  const { sensing, amplifierPerColumn = false } = structure.periphery;
  const multiplexed = structure.periphery.multiplexed && !amplifierPerColumn;
  const multiplexer = multiplexed ? "column_multiplexer_resistance" : "no_resistance";
  const byCurrent = sensing === "current";
  const clamp = byCurrent ? "sense_amplifier_clamp_resistance + " : "";
  return {
    instances: [
      {
        of: lineDelay,
        prefix: "row_line_",
        bind: {
          driver_resistance: "no_resistance",
          line_resistance: "row_resistance",
          line_capacitance: "row_capacitance",
          load_capacitance: "no_capacitance",
        },
      },
      {
        of: byCurrent ? lineSettling : lineDelay,
        prefix: "column_wire_line_",
        bind: {
          driver_resistance: "column_series_resistance",
          line_resistance: "column_resistance",
          line_capacitance: "column_capacitance",
          load_capacitance: multiplexed ? "column_multiplexer_node_capacitance" : "no_capacitance",
          ...(byCurrent && { settling_error: "sense_amplifier_settling_error" }),
        },
      },
    ],
    extra: [
      same(
        "column_series_resistance",
        "ohm",
        `${clamp}${multiplexer}`,
        "resistance between a column and what senses it",
      ),
      same(
        "column_line_delay",
        "s",
        byCurrent ? "column_wire_line_settling_delay" : "column_wire_line_delay",
        byCurrent
          ? "the current of the column lacks no more than the signal allows"
          : "the column's far end follows its near end",
      ),
      same("no_resistance", "ohm", "0", "nothing in series"),
      same("no_capacitance", "F", "0", "nothing at the end"),
    ],
  };
}

/** What charge sharing or a held column changes of the quantities that the parts read. */
function sensingBinds(model: CellModel): Readonly<Record<string, string>> {
  return model.sensing === "charge" ? { column_swing: "signal_voltage" } : {};
}

/** A memory process has no fast devices beside its arrays. */
function processOf({ structure: { memoryProcess = false } }: CellModel): readonly Instance[] {
  if (!memoryProcess) return processInstances;
  const bind = { low_threshold_share: "array_low_threshold_share" };
  return processInstances.map((one) =>
    "low_threshold_share" in one.of.inputs ? { ...one, bind: { ...one.bind, ...bind } } : one,
  );
}

/** Everything from the process to the lines of a tile: what the periphery is built around. */
function cellInstances(structure: MacroStructure, model: CellModel): Instance[] {
  return [
    ...processOf(model),
    wireOf("row_wire_", structure.rowWire),
    wireOf("column_wire_", structure.columnWire),
    wireOf("route_wire_", structure.routeWire),
    ...model.instances,
    { of: structure.periphery.limitedWrite ? organisation : plainOrganisation },
    { of: lineLoads },
    ...sharedSheets(structure.periphery),
  ];
}

const ONE_POLARITY = same(
  "write_polarities",
  "1",
  "1",
  "a diode conducts in one polarity, which set and reset share",
);

function cellExtra({ periphery, crosspoint }: MacroStructure, model: CellModel): ExtraFormula[] {
  const coded = periphery.correction !== "none";
  const noStraps = !model.structure.transistorInCell;
  return [
    ...(coded ? [same("check_bits", "1", "code_check_bits", "check bits of a word")] : []),
    ...(crosspoint?.startsWith("diode ") ? [ONE_POLARITY] : []),
    ...(noStraps ? [same("strap_share", "1", "0", "no wells among the cells, no straps")] : []),
  ];
}

/** The part of a macro that decides which voltages a write needs. */
export function cellRecipe(structure: MacroStructure, model: CellModel): MacroRecipe {
  return {
    instances: cellInstances(structure, model),
    extra: cellExtra(structure, model),
    totals: [],
  };
}

/**
 * All sheets, procedures and sums of a macro.
 *
 * @param structure what decides the parts
 * @param model the kind of cell
 */
export function macroRecipe(structure: MacroStructure, model: CellModel): MacroRecipe {
  const { periphery } = structure;
  const uses = partsFor(periphery);
  const sums = partTotals(uses);
  const delays = lineDelays(structure);
  const { bias } = periphery;
  const reliability =
    structure.reliability && reliabilityRecipe(structure.reliability, periphery.correction);
  const destructive = model.structure.pulsed && structure.crosspoint?.startsWith("complementary");
  const flags = {
    sensing: periphery.sensing,
    biased: bias !== undefined,
    ...(periphery.levels && { levels: periphery.levels }),
    verify: periphery.verify,
    terminates: terminates(periphery),
    rewrites: destructive === true,
    restores: model.sensing === "charge",
  };
  return {
    instances: [
      ...cellInstances(structure, model),
      ...delays.instances,
      ...(hasMargin(structure) ? marginOf(structure) : []),
      ...(hasMargin(structure) && periphery.levels ? PAIR_MARGINS : []),
      ...(hasTails(model) ? [tails(structure)] : []),
      ...uses.map(({ sheet, prefix, bind }) => ({
        of: sheet,
        prefix,
        bind: { ...(prefix === "sense_amplifier_" ? sensingBinds(model) : {}), ...bind },
      })),
      { of: accessFor(periphery) },
      { of: floorplan },
      { of: accessEnergy(flags) },
      ...(reliability?.instances ?? []),
    ],
    extra: [
      ...delays.extra,
      ...cellExtra(structure, model),
      ...(periphery.sensing === "current" && !hasTails(model) ? ERASED_TAILS : []),
      ...(hasMargin(structure) && periphery.levels ? [LEAST_MARGIN] : []),
      ...sums.formulas,
      ...summaryFormulas(keepingOf(model)),
      ...(reliability?.extra ?? []),
    ],
    totals: sums.totals,
  };
}

/** Cells whose states are told apart by a current against a reference. */
function hasMargin({ cell, periphery }: MacroStructure): boolean {
  const single =
    cell === "crosspoint" || (cell.startsWith("resistive-") && !cell.endsWith("-pair"));
  return single && periphery.reference;
}

/** Cells whose states are those of a switch. */
function hasTails({ sensing, structure }: CellModel): boolean {
  return sensing === "current" && !structure.erasedByBlock;
}

/** The spread of the states that the amplifiers are made for. */
function tails({ reliability }: MacroStructure): Instance {
  return { of: reliability?.verified ? verifiedSpread : switchSpread, prefix: "tail_" };
}

/** Floating gates: erased cells differ, what programmed ones let through hardly counts. */
const ERASED_TAILS: readonly ExtraFormula[] = [
  same("tail_on_spread", "1", "erased_current_spread", "standard deviation of ln I, erased"),
  same("tail_off_spread", "1", "0", "programmed cells let next to nothing through"),
];

function marginOf({ reliability, periphery }: MacroStructure): Instance[] {
  const spread = reliability?.verified ? verifiedSpread : switchSpread;
  const margin = periphery.levels ? [] : [{ of: readMarginSigmas }];
  return [{ of: spread }, { of: senseSpread }, ...margin];
}

/** The margins of the two pairs of neighbouring levels of which one is hardest to tell apart. */
const PAIR_MARGINS: readonly Instance[] = [
  ...pairMargin("first", {
    cell_off_current: "second_level_current",
    off_spread: "sense_amplifier_second_level_spread",
  }),
  ...pairMargin("last", {
    cell_on_current: "last_but_one_level_current",
    on_spread: "sense_amplifier_last_but_one_level_spread",
  }),
];

function pairMargin(pair: string, bind: Readonly<Record<string, string>>): Instance[] {
  const prefix = `${pair}_pair_`;
  const sense = {
    sense_amplifier_offset_current: `sense_amplifier_${pair}_offset_current`,
    sense_amplifier_reference_current: `sense_amplifier_${pair}_reference`,
  };
  const own = {
    signal_current: `${prefix}signal`,
    sense_current_sigma: `${prefix}sense_current_sigma`,
  };
  return [
    { of: senseSpread, prefix, bind: sense },
    { of: readMarginSigmas, prefix, bind: { ...own, ...bind } },
  ];
}

const LEAST_MARGIN = same(
  "read_margin_sigmas",
  "1",
  "min(first_pair_read_margin_sigmas, last_pair_read_margin_sigmas)",
  "standard deviations that the read margin of the worst pair of levels has",
);

function keepingOf(model: CellModel): Keeping {
  if (keepsData(model)) return "unpowered";
  return model.structure.refreshed ? "charged" : "latched";
}

/** Whether the cells keep their data without a supply. */
export function keepsData(model: CellModel): boolean {
  return model.structure.pulsed;
}

/** Assembles the program of a recipe from the parameters that a design has. */
export function macroProgram(
  recipe: MacroRecipe,
  given: readonly GivenQuantity[],
  parse: Parser,
): Program {
  return assemble(recipe.instances, given, parse, recipe.extra);
}
