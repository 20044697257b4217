import {
  passPath,
  restoringBuffer,
  signalBuffer,
  switchPath,
  wireIsolation,
} from "../../models/functions/index.ts";
import { additions } from "./addition.ts";
import {
  composed,
  type FunctionDefinition,
  type FunctionPart,
  operation,
  type Side,
} from "./side.ts";

interface Kind {
  readonly entry: string;
  /** Points that can drive one wire. */
  readonly fanIn: string;
  /** Points that one published circuit has, and static cells inside it. */
  readonly points: string;
  readonly cells: number;
  readonly restored: boolean;
}

const OPERATION = operation("signal_path_energy", "signal_path_delay + routed_buffer_delay");

const buffers = (wires: string, restored: boolean): FunctionPart => ({
  name: "signal buffers",
  prefix: "routed_buffer_",
  sheet: restored ? restoringBuffer : signalBuffer,
  boundary: "function",
  count: wires,
  active: "1",
});

/** Wires behind the points, in all of the function. */
const wires = ({ fanIn }: Kind) => `function_capacity / ${fanIn}`;
const fanIn = ({ fanIn: formula }: Kind) =>
  composed("signal_fan_in", "1", formula, "points that can drive one wire");

function staticSide(kind: Kind): Side {
  return {
    memory: { of: "baseline", cell: "sram-6t" },
    stored: `function_capacity * static_bits / ${kind.points}`,
    published: kind.entry,
    sheets: [{ of: passPath, prefix: "signal_path_", bind: { fan_in: "signal_fan_in" } }],
    parts: [
      ...additions("routing devices", `function_capacity / ${kind.points}`, "static_bits"),
      buffers(wires(kind), kind.restored),
    ],
    formulas: [
      ...OPERATION,
      fanIn(kind),
      composed("static_bits", "1", String(kind.cells), "configuration bits of one circuit"),
    ],
  };
}

function switchSide(kind: Kind): Side {
  const shared = kind.fanIn === "rows";
  return {
    memory: { of: "subject", form: "single" },
    sheets: [{ of: switchPath, prefix: "signal_path_", bind: { fan_in: "signal_fan_in" } }],
    parts: [
      {
        name: "isolation of signal wires",
        prefix: "signal_isolation_",
        sheet: wireIsolation,
        boundary: "tile",
        count: shared
          ? "tiles * (physical_rows + physical_columns) * decks"
          : `function_capacity * (1 + 1 / ${kind.fanIn})`,
        active: "0",
      },
      buffers(wires(kind), false),
    ],
    formulas: [...OPERATION, fanIn(kind)],
  };
}

const LEFT = [
  "Program transistors are wide: their area exceeds their count",
  "The off switches let some current through all the time, and the signal must never reach their write voltage",
  "Endurance is no matter here: a configuration is written a few times",
];

function routing(name: string, title: string, kind: Kind): FunctionDefinition {
  return {
    name,
    title,
    element: "routing points",
    operation: "one bit through a closed point and its buffer",
    levels: false,
    hybrid: switchSide(kind),
    baseline: staticSide(kind),
    leavesOut: LEFT,
  };
}

/** Configuration bits with what they configure. */
export const ROUTINGS: readonly FunctionDefinition[] = [
  routing("routing-switch", "Configuration bit with a pass transistor", {
    entry: "routing-switch",
    fanIn: "rows",
    points: "1",
    cells: 1,
    restored: true,
  }),
  routing("routing-switch-buffered", "Configuration bit with a buffered routing switch", {
    entry: "routing-switch-buffered",
    fanIn: "rows",
    points: "1",
    cells: 1,
    restored: false,
  }),
  routing("routing-multiplexer", "Routing multiplexer of sixteen inputs", {
    entry: "routing-multiplexer-16",
    fanIn: "multiplexer_inputs",
    points: "multiplexer_inputs",
    cells: 8,
    restored: true,
  }),
];
