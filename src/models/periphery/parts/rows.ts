/** The parts along the rows of a tile. */

import type { PartUse, Structure } from "../structure.ts";
import { lineDriverFor } from "../tile/bias.ts";
import { decoder } from "../tile/decoder.ts";
import { localRowDriver, mainRowDriver, sinkingRowDriver } from "../tile/divided.ts";
import { digitLineSwitch } from "../tile/field.ts";
import { localSwitchFor } from "../tile/local-switch.ts";
import { raisedRowDriver, rowDriver } from "../tile/rows.ts";

/** Decoder and drivers of the rows. */
export function rowParts(structure: Structure): PartUse[] {
  const own = structure.mainRows ? dividedRows(structure) : [rowDecoder, driver(structure)];
  return [...own, ...(structure.fieldWritten ? [digitLines] : [])];
}

const digitLines: PartUse = {
  name: "digit line switches",
  prefix: "row_digit_line_",
  sheet: digitLineSwitch,
  level: "tile",
  count: "2 * decoded_rows",
  activeRead: "0",
  activeWrite: "2",
  onReadPath: false,
  onWritePath: false,
};

const rowDecoder: PartUse = {
  name: "row decoder",
  prefix: "row_decoder_",
  sheet: decoder,
  bind: { decoder_outputs: "decoded_rows", decoder_span: "column_length" },
  level: "tile",
  count: "1",
  activeRead: "1",
  activeWrite: "1",
  onReadPath: true,
  onWritePath: true,
};

/** What a row of tiles has once. Of the active tiles, those of one row share. */
const SHARED_ROW = {
  level: "bank",
  alongTiles: true,
  activeRead: "ceil(tiles_active / tiles_along_row)",
  activeWrite: "ceil(tiles_active / tiles_along_row)",
  onReadPath: true,
  onWritePath: true,
} as const;

function dividedRows(structure: Structure): readonly PartUse[] {
  return [
    {
      ...rowDecoder,
      bind: { decoder_outputs: "main_rows", decoder_span: "column_length" },
      ...SHARED_ROW,
      count: "row_groups",
    },
    {
      name: "main row drivers",
      prefix: "row_main_driver_",
      sheet: mainRowDriver,
      bind: { local_load: "row_driver_load" },
      ...SHARED_ROW,
      count: "main_rows * row_groups",
    },
    {
      name: "row drivers",
      prefix: "row_driver_",
      ...localRows(structure),
      level: "tile",
      // The select lines of a tile are driven by as many again as rows of one main line.
      count: "driven_rows + rows_per_main_line",
      activeRead: "1",
      activeWrite: "1",
      onReadPath: true,
      onWritePath: true,
    },
  ];
}

/** What stands at each row of a tile where main row lines select it. */
function localRows({
  bias,
  rowSinks,
  writeSupply,
  rowSupply = writeSupply,
}: Structure): Pick<PartUse, "sheet" | "bind"> {
  if (bias === undefined) return { sheet: rowSinks ? sinkingRowDriver : localRowDriver };
  return {
    sheet: localSwitchFor(rowSupply !== "core"),
    bind: { line_current: "row_write_current", line_load: "row_capacitance" },
  };
}

function driver({ bias, rowSinks, writeSupply, rowSupply = writeSupply }: Structure): PartUse {
  const raised = rowSupply !== "core";
  const common = {
    name: "row drivers",
    prefix: "row_driver_",
    level: "tile",
    count: "driven_rows",
    activeRead: "1",
    activeWrite: "1",
    onReadPath: true,
    onWritePath: true,
  } as const;
  if (rowSinks) return { ...common, sheet: sinkingRowDriver };
  if (bias === undefined) return { ...common, sheet: raised ? raisedRowDriver : rowDriver };
  return {
    ...common,
    sheet: lineDriverFor(bias, raised),
    bind: {
      line_current: "row_write_current",
      line_load: "row_capacitance",
      line_pitch: "cell_height",
    },
  };
}
