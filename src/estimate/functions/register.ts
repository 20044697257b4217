import {
  flipFlop,
  shadow,
  storeControl,
  transferMultiplexer,
} from "../../models/functions/index.ts";
import { regulator } from "../../models/periphery/macro/pump.ts";
import { composed, type FunctionDefinition, type FunctionPart, operation } from "./side.ts";

const each = (
  name: string,
  prefix: string,
  sheet: FunctionPart["sheet"],
  more: Partial<FunctionPart> = {},
): FunctionPart => ({
  name,
  prefix,
  sheet,
  boundary: "cell",
  count: "function_capacity",
  active: "1",
  ...more,
});

/** Registers that keep their state while the supply is off. */
export const REGISTERS: readonly FunctionDefinition[] = [
  {
    name: "register",
    title: "Register with a non-volatile shadow",
    element: "register bits",
    operation: "one clock of one bit",
    levels: false,
    hybrid: {
      sheets: [],
      parts: [
        each("flip-flops", "register_cell_", flipFlop),
        each("shadows", "register_shadow_", shadow, {
          active: "0",
          switches: "register_shadow_switches",
        }),
        each("store controls", "store_control_", storeControl, {
          boundary: "tile",
          count: "ceil(function_capacity / store_group)",
        }),
        each("write regulator", "write_regulator_", regulator, {
          boundary: "macro",
          count: "1",
          active: "0",
          energy: "read_energy",
          bind: { pump_supply: "io_supply" },
        }),
      ],
      formulas: [
        ...operation("0 * unit_gate_energy", "register_cell_delay"),
        composed("write_current", "A", "switch_write_current", "write current of one switch"),
        composed("write_voltage", "V", "switch_write_voltage", "write voltage of one switch"),
        composed("write_time", "s", "switch_write_time", "pulses of one write of one switch"),
        composed("cells_written", "1", "2 * store_group", "switches that are written at once"),
        composed("groups", "1", "1", "groups that one store writes one after another"),
      ],
    },
    baseline: {
      memory: { of: "baseline", cell: "split-gate-flash" },
      sheets: [],
      parts: [
        each("flip-flops", "register_cell_", flipFlop),
        each("transfer multiplexers", "transfer_", transferMultiplexer, { active: "0" }),
      ],
      formulas: operation("0 * unit_gate_energy", "register_cell_delay + transfer_delay"),
    },
    leavesOut: [
      "Endurance: each power-down writes every shadow; the flip-flop itself is written each clock, " +
        "and no switch can replace it",
      "A pump, where the switch needs more than the input-output supply",
      "Store and restore energy, and the time for which the supply must hold",
    ],
  },
];
