import { holdRegister, tableMultiplexer } from "../../models/functions/index.ts";
import { currentSenseAmplifier } from "../../models/periphery/tile/sense-current.ts";
import {
  composed,
  type FunctionDefinition,
  type FunctionPart,
  operation,
  type Side,
} from "./side.ts";

const TABLES = "function_capacity / 2 ^ table_inputs";

const multiplexer = (active: string): FunctionPart => ({
  name: "table multiplexers",
  prefix: "table_multiplexer_",
  sheet: tableMultiplexer,
  boundary: "tile",
  count: TABLES,
  active,
});

/** A look-up reads its bits in place: static ones drive the tree, switches need an amplifier. */
const reader = (active: string): FunctionPart => ({
  name: "table readers",
  prefix: "table_reader_",
  sheet: currentSenseAmplifier,
  boundary: "tile",
  count: TABLES,
  active,
  energy: "read_energy",
});

const REGISTER = {
  name: "state registers",
  prefix: "state_register_",
  sheet: holdRegister,
  bind: { held_bits: "state_bits" },
  boundary: "function",
  count: `${TABLES} / machine_tables`,
  active: "1",
} as const satisfies FunctionPart;

const MACHINE = composed(
  "machine_tables",
  "1",
  "state_bits + output_bits",
  "tables of one machine: one for each bit of the next state and for each output",
);

function sides(machine: boolean): { readonly hybrid: Side; readonly baseline: Side } {
  const active = machine ? "machine_tables" : "1";
  const register = machine ? [REGISTER] : [];
  const formulas = machine ? [MACHINE] : [];
  const clock = machine ? " + state_register_delay" : "";
  return {
    baseline: {
      memory: { of: "baseline", cell: "sram-6t" },
      sheets: [],
      parts: [multiplexer(active), ...register],
      formulas: [
        ...operation("0 * unit_gate_energy", `table_multiplexer_delay${clock}`),
        ...formulas,
      ],
    },
    hybrid: {
      memory: { of: "subject", form: "single" },
      sheets: [],
      parts: [multiplexer(active), reader(active), ...register],
      formulas: [
        ...operation(
          `${active} * supply * read_static_current * table_reader_delay`,
          `table_multiplexer_delay + table_reader_delay${clock}`,
        ),
        ...formulas,
      ],
    },
  };
}

const LEFT = [
  "Each look-up of switches is a clocked read with an amplifier; static bits drive the tree " +
    "all the time",
  "Endurance is no matter here: a table is written a few times",
];

/** Tables of a few inputs, alone or with a state register. */
export const LOOKUPS: readonly FunctionDefinition[] = [
  {
    name: "lookup-table",
    title: "Look-up table",
    element: "table bits",
    operation: "one look-up",
    levels: false,
    ...sides(false),
    leavesOut: LEFT,
  },
  {
    name: "state-machine",
    title: "Finite-state machine in look-up tables",
    element: "table bits",
    operation: "one step",
    levels: false,
    ...sides(true),
    leavesOut: LEFT,
  },
];
