/** The parts along the columns of a tile. */

import type { PartUse, Structure } from "../structure.ts";
import { columnBiasFor } from "../tile/bias.ts";
import { dataDriver } from "../tile/bus.ts";
import {
  columnMultiplexer,
  columnSelect,
  precharge,
  raisedColumnMultiplexer,
  raisedColumnSelect,
} from "../tile/columns.ts";
import { decoder } from "../tile/decoder.ts";
import { globalColumnByCurrent, globalDataLine } from "../tile/divided.ts";
import { bitLineReturn } from "../tile/field.ts";
import { outputMultiplexer } from "../tile/output-multiplexer.ts";
import { chargeSenseAmplifier } from "../tile/sense-charge.ts";
import {
  currentSenseAmplifier,
  differentialSenseAmplifier,
  reference as generator,
} from "../tile/sense-current.ts";
import { voltageSenseAmplifier } from "../tile/sense-voltage.ts";
import { sourceLinesFor } from "../tile/source-lines.ts";
import { spareSteering } from "../tile/spare.ts";
import { limitedWriteDriver, raisedLimitedWriteDriver, writeDriver } from "../tile/write.ts";
import { LEVEL_PREFIXES, levelParts, readByLevels } from "./levels.ts";

/**
 * Multiplexers and their decoder, drivers, precharge, amplifiers, references, write drivers,
 * spare steering.
 */
export function columnParts(structure: Structure): PartUse[] {
  const { bias, sensing, multiplexed, spares } = structure;
  const parts: PartUse[] = [
    ...(multiplexed ? multiplexer(structure) : []),
    ...(bias === undefined ? [] : [biasSwitches(structure)]),
    ...(sensing === "voltage" ? [prechargePart] : []),
    amplifier(structure),
    ...levelParts(structure),
    dataDrivers,
    ...(structure.reference ? [referencePart] : []),
    write(structure),
    ...(structure.sourceLines ? [sourceLines(structure)] : []),
    ...(spares ? [structure.mainRows ? sharedSteering : steering] : []),
    ...(structure.fieldWritten ? [bitLineReturns] : []),
  ].map(readByLevels(structure));
  if (!structure.globalColumns) return parts;
  const shared = new Set(sharedAlongColumn(structure));
  const fewer = parts.map((use) =>
    shared.has(use.prefix) ? alongTiles(use, `column_groups * (${use.count})`) : use,
  );
  return [...fewer.map(sharedByNeighbours(structure)), globalColumns(structure)];
}

/** A part of the tiles as one of the bank, which so many of them stand in. */
function alongTiles(use: PartUse, count: string): PartUse {
  return {
    ...use,
    level: "bank",
    alongTiles: true,
    count,
    activeRead: `tiles_active * (${use.activeRead})`,
    activeWrite: `tiles_active * (${use.activeWrite})`,
  };
}

/** Parts that a column of tiles has once, at the end of its global columns. */
function sharedAlongColumn({ amplifierPerColumn }: Structure): readonly string[] {
  const always = ["data_driver_", "write_driver_"];
  if (amplifierPerColumn) return always;
  return [...always, "sense_amplifier_", "reference_", ...LEVEL_PREFIXES];
}

/**
 * An amplifier that restores columns stands between two tiles and serves those of both: half of the
 * columns on each side of a tile, so that n tiles in a column have n + 1 halves.
 */
function sharedByNeighbours({ amplifierPerColumn }: Structure): (use: PartUse) => PartUse {
  return (use) =>
    amplifierPerColumn && ["sense_amplifier_", "precharge_"].includes(use.prefix)
      ? alongTiles(use, `column_groups * (tiles_along_column + 1) * ceil((${use.count}) / 2)`)
      : use;
}

function globalColumns({ amplifierPerColumn }: Structure): PartUse {
  return {
    name: "global columns",
    prefix: "global_column_",
    sheet: amplifierPerColumn ? globalDataLine : globalColumnByCurrent,
    ...(amplifierPerColumn && { bind: { latch_device_width: "sense_amplifier_latch_width" } }),
    level: "bank",
    alongTiles: true,
    count: "column_groups * data_ports * column_lines",
    activeRead: "tiles_active * data_ports * column_lines",
    activeWrite: "tiles_active * row_cells_written * groups * column_lines",
    ...bothPaths,
  };
}

const eachAmplifier = { level: "tile", count: "sense_amplifiers" } as const;
const eachPort = { level: "tile", count: "data_ports" } as const;
const all = { activeRead: "sense_amplifiers", activeWrite: "sense_amplifiers" } as const;
const bothPaths = { onReadPath: true, onWritePath: true } as const;
const neitherPath = { onReadPath: false, onWritePath: false } as const;

const bitLineReturns: PartUse = {
  name: "bit line returns",
  prefix: "bit_line_return_",
  sheet: bitLineReturn,
  level: "tile",
  count: "driven_columns",
  activeRead: "0",
  activeWrite: "row_cells_written * groups",
  ...neitherPath,
};

function multiplexer({ writeSupply, amplifierPerColumn, fieldWritten }: Structure): PartUse[] {
  const raised = writeSupply !== "core";
  const of = amplifierPerColumn ? "output_multiplexer" : "column_multiplexer";
  return [
    {
      name: "column decoder",
      prefix: "column_decoder_",
      sheet: decoder,
      bind: { decoder_outputs: "selected_columns", decoder_span: "row_length" },
      level: "tile",
      count: "1",
      activeRead: "1",
      activeWrite: "1",
      ...neitherPath,
    },
    {
      name: "column select drivers",
      prefix: "column_select_",
      sheet: raised ? raisedColumnSelect : columnSelect,
      bind: {
        select_capacitance: `${of}_select_capacitance`,
        ...(amplifierPerColumn && { sense_amplifiers: "data_ports" }),
      },
      level: "tile",
      count: "selected_columns",
      activeRead: "1",
      activeWrite: "1",
      ...neitherPath,
    },
    amplifierPerColumn
      ? outputMultiplexers
      : {
          name: "column multiplexers",
          prefix: "column_multiplexer_",
          sheet: raised ? raisedColumnMultiplexer : columnMultiplexer,
          // Milliamperes take switches of their own, whose drains a read does not see.
          ...(fieldWritten && { bind: { write_current: "cell_on_current" } }),
          ...eachAmplifier,
          ...all,
          ...bothPaths,
        },
    ...(fieldWritten ? [fieldSwitches(raised)] : []),
  ];
}

/** What leads the current of a bit line whose field writes past the columns' read switches. */
function fieldSwitches(raised: boolean): PartUse {
  return {
    name: "column write switches",
    prefix: "column_write_switch_",
    sheet: raised ? raisedColumnMultiplexer : columnMultiplexer,
    ...eachAmplifier,
    activeRead: "0",
    activeWrite: "sense_amplifiers",
    onReadPath: false,
    onWritePath: true,
  };
}

const outputMultiplexers: PartUse = {
  name: "output multiplexers",
  prefix: "output_multiplexer_",
  sheet: outputMultiplexer,
  bind: { latch_device_width: "sense_amplifier_latch_width" },
  ...eachPort,
  activeRead: "data_ports",
  activeWrite: "data_ports",
  ...bothPaths,
};

function biasSwitches({ bias, writeSupply }: Structure): PartUse {
  return {
    name: "column bias",
    prefix: "column_bias_",
    sheet: columnBiasFor(bias ?? "floating", writeSupply !== "core"),
    level: "tile",
    count: "driven_columns",
    activeRead: "sense_amplifiers * column_lines",
    activeWrite: "row_cells_written * groups * column_lines",
    ...neitherPath,
  };
}

const prechargePart: PartUse = {
  name: "precharge",
  prefix: "precharge_",
  sheet: precharge,
  level: "tile",
  count: "columns + spare_columns",
  activeRead: "columns + spare_columns",
  activeWrite: "columns + spare_columns",
  ...neitherPath,
};

function amplifier({ sensing, reference, amplifierPerColumn }: Structure): PartUse {
  const byCurrent = reference ? currentSenseAmplifier : differentialSenseAmplifier;
  const bySensing = sensing === "voltage" ? voltageSenseAmplifier : byCurrent;
  return {
    name: "sense amplifiers",
    prefix: "sense_amplifier_",
    sheet: amplifierPerColumn ? chargeSenseAmplifier : bySensing,
    ...eachAmplifier,
    activeRead: "sense_amplifiers",
    // A write restores what it does not overwrite.
    activeWrite: amplifierPerColumn ? "sense_amplifiers" : "0",
    onReadPath: true,
    onWritePath: false,
  };
}

const dataDrivers: PartUse = {
  name: "data drivers",
  prefix: "data_driver_",
  sheet: dataDriver,
  bind: { segment_length: "route_segment_length" },
  ...eachPort,
  activeRead: "data_ports",
  activeWrite: "0",
  ...neitherPath,
};

const referencePart: PartUse = {
  name: "references",
  prefix: "reference_",
  sheet: generator,
  bind: { sensing_time: "sense_amplifier_delay" },
  level: "tile",
  count: "ceil(sense_amplifiers / amplifiers_per_reference)",
  activeRead: "ceil(sense_amplifiers / amplifiers_per_reference)",
  activeWrite: "0",
  ...neitherPath,
};

function write({ limitedWrite, writeSupply }: Structure): PartUse {
  const raised = writeSupply !== "core";
  const limited = raised ? raisedLimitedWriteDriver : limitedWriteDriver;
  return {
    name: "write drivers",
    prefix: "write_driver_",
    sheet: limitedWrite ? limited : writeDriver,
    ...eachPort,
    activeRead: "0",
    activeWrite: "row_cells_written * groups",
    onReadPath: false,
    onWritePath: true,
  };
}

/** At the far end of a column: no path of its own, since a driver's delay is that of its other half. */
function sourceLines({ writeSupply }: Structure): PartUse {
  return {
    name: "source lines",
    prefix: "source_line_",
    sheet: sourceLinesFor(writeSupply !== "core"),
    level: "tile",
    count: "1",
    activeRead: "0",
    activeWrite: "1",
    ...neitherPath,
  };
}

const steering: PartUse = {
  name: "spare steering",
  prefix: "spare_steering_",
  sheet: spareSteering,
  bind: { sense_amplifiers: "data_ports" },
  level: "tile",
  count: "1",
  activeRead: "1",
  activeWrite: "1",
  ...neitherPath,
};

/**
 * Where a row of tiles has a decoder, it compares once; as many columns of tiles, in a square, steer
 * at the end of their global columns.
 */
const sharedSteering: PartUse = {
  ...steering,
  level: "bank",
  alongTiles: true,
  count: "row_groups",
  activeRead: "ceil(tiles_active / tiles_along_row)",
  activeWrite: "ceil(tiles_active / tiles_along_row)",
};
