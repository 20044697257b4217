import { type FunctionDefinition, operation, type Side } from "./side.ts";

const FORMULAS = operation("read_energy", "read_latency");

const HYBRID: Side = {
  memory: { of: "subject", form: "single", levels: true },
  sheets: [],
  parts: [],
  formulas: FORMULAS,
};

const WRITES = "Writes: a switch is slower to write than a static cell and wears out";
const LEVELS =
  "Levels: a switch of several bits needs levels that it can hold, rarely more than 4 to 32";

function memory(cell: string, title: string, leavesOut: readonly string[]): FunctionDefinition {
  return {
    name: `memory-${cell}`,
    title,
    element: "bits",
    operation: "read of one word",
    levels: true,
    hybrid: HYBRID,
    baseline: { memory: { of: "baseline", cell }, sheets: [], parts: [], formulas: FORMULAS },
    leavesOut: [...leavesOut, LEVELS],
  };
}

/** A random-access memory against each all-CMOS cell of the catalogue. */
export const MEMORIES: readonly FunctionDefinition[] = [
  memory("sram-6t", "Memory against static cells of six transistors", [WRITES]),
  memory("sram-8t", "Memory against static cells of eight transistors", [
    WRITES,
    "The second port of an eight-transistor cell, which no switch gives back",
  ]),
  memory("sram-10t", "Memory against static cells of ten transistors", [
    WRITES,
    "Reads at a low supply, for which a ten-transistor cell is made",
  ]),
  memory("gain-2t", "Memory against gain cells of two transistors", [
    WRITES,
    "Refresh, which a gain cell needs and a switch does not: it costs power, not transistors",
  ]),
  memory("gain-3t", "Memory against gain cells of three transistors", [
    WRITES,
    "Refresh, which a gain cell needs and a switch does not: it costs power, not transistors",
  ]),
  memory("dram-1t1c", "Memory against dynamic cells", [
    WRITES,
    "The capacitor and the process of its own that a dynamic cell needs",
  ]),
  memory("nor-flash", "Memory against floating-gate cells", [
    "The erase by blocks and the high voltages of a floating gate",
  ]),
];
