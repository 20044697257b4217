/** Structures that between them use every part of the periphery. */
import type { Instance } from "../../../src/formulas/index.ts";
import { accessFor } from "../../../src/models/periphery/access.ts";
import { partsFor, sharedSheets } from "../../../src/models/periphery/periphery.ts";
import type { Structure } from "../../../src/models/periphery/structure.ts";

const STATIC: Structure = {
  sensing: "voltage",
  writeSupply: "core",
  limitedWrite: false,
  verify: false,
  multiplexed: true,
  correction: "none",
  spares: true,
  refresh: false,
  reference: false,
};

const RESISTIVE: Structure = {
  sensing: "current",
  writeSupply: "pump",
  pumpFrom: "core",
  limitedWrite: true,
  verify: true,
  multiplexed: true,
  correction: "single",
  spares: true,
  refresh: false,
  reference: true,
};

/** Dynamic cells of a memory process as a die. */
export const MEMORY: Structure = {
  ...STATIC,
  refresh: true,
  amplifierPerColumn: true,
  rowSupply: "pump",
  mainRows: true,
  globalColumns: true,
  memoryProcess: true,
  die: true,
};

export const STRUCTURES: readonly (readonly [string, Structure])[] = [
  ["static cells", STATIC],
  ["dynamic cells", { ...STATIC, refresh: true, reference: true, correction: "single-double" }],
  ["cells with a transistor, pumped", { ...RESISTIVE, sourceLines: true }],
  [
    "cells with a transistor at the core supply, one amplifier for each column",
    {
      ...RESISTIVE,
      writeSupply: "core",
      multiplexed: false,
      verify: false,
      sourceLines: true,
    },
  ],
  [
    "cells with a transistor, global columns alone",
    { ...RESISTIVE, globalColumns: true, sourceLines: true },
  ],
  ["crossbar at one half", { ...RESISTIVE, bias: "one-half", writeSupply: "input-output" }],
  [
    "crossbar with floating lines",
    { ...RESISTIVE, bias: "floating", writeSupply: "core", correction: "multiple" },
  ],
  [
    "crossbar at one third, pumped from the input-output supply",
    { ...RESISTIVE, bias: "one-third", pumpFrom: "input-output" },
  ],
  [
    "crossbar with grounded lines",
    { ...RESISTIVE, bias: "grounded", multiplexed: false, reference: false },
  ],
  [
    "dynamic cells with an amplifier at each column, raised rows",
    { ...STATIC, refresh: true, amplifierPerColumn: true, rowSupply: "input-output" },
  ],
  ["dynamic cells of a memory process, lines divided, a whole die", MEMORY],
  [
    "cells with array transistors, lines divided, rows pumped",
    {
      ...RESISTIVE,
      writeSupply: "input-output",
      rowSupply: "pump",
      mainRows: true,
      globalColumns: true,
      memoryProcess: true,
    },
  ],
  [
    "crossbar at one half, lines divided",
    {
      ...RESISTIVE,
      bias: "one-half",
      writeSupply: "input-output",
      mainRows: true,
      globalColumns: true,
    },
  ],
  [
    "cells over junctions in silicon, lines divided",
    { ...RESISTIVE, mainRows: true, globalColumns: true, memoryProcess: true, rowSinks: true },
  ],
  [
    "cells over junctions in silicon, whole lines",
    { ...RESISTIVE, memoryProcess: true, rowSinks: true },
  ],
  [
    "cells of several bits with a transistor, by successive approximation",
    { ...RESISTIVE, levels: "successive", levelsInSeries: true },
  ],
  [
    "cells of several bits with a transistor, in parallel, global columns",
    { ...RESISTIVE, levels: "parallel", levelsInSeries: true, globalColumns: true },
  ],
  [
    "crossbar of several bits",
    { ...RESISTIVE, bias: "one-half", writeSupply: "input-output", levels: "successive" },
  ],
  ["floating gates, erased by block", { ...RESISTIVE, erasedByBlock: true, die: true }],
  [
    "field-written cells",
    {
      ...RESISTIVE,
      writeSupply: "core",
      limitedWrite: false,
      verify: false,
      fieldWritten: true,
    },
  ],
];

/** Every instance of a structure's periphery, latencies included. */
export function instancesOf(structure: Structure): Instance[] {
  return [
    ...sharedSheets(structure),
    ...partsFor(structure).map(({ sheet, prefix, bind = {} }) => ({ of: sheet, prefix, bind })),
    { of: accessFor(structure) },
  ];
}
