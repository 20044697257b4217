/** Closed forms of a crossbar whose reads and writes each have a bias scheme. */
import type { Instance } from "../../../formulas/sheet.ts";
import type { Scheme, SchemePair } from "../contract.ts";
import { crossbarLines, viewLadders } from "./lines.ts";
import { readForms } from "./read.ts";
import { sneakPath } from "./sneak.ts";
import { writeForms } from "./write.ts";

/** Sneak paths past the selected junction, where lines float. */
function sneakPaths(scheme: Scheme, at: "read" | "write", states: readonly string[]): Instance[] {
  if (scheme !== "floating") return [];
  return states.map((state) => ({
    of: sneakPath,
    prefix: `${at}_sneak_${state}_`,
    bind: {
      path_voltage: `array_${at}_voltage`,
      path_full: `${at}_${state}_unselected`,
      path_half: `${at}_${state}_half`,
    },
  }));
}

/** All sheets of a pair of schemes. */
export function closedCrossbar({ read, write }: SchemePair): Instance[] {
  return [
    { of: crossbarLines },
    ...sneakPaths(read, "read", ["on", "off"]),
    ...sneakPaths(write, "write", ["on"]),
    ...viewLadders("read_on"),
    ...viewLadders("read_off"),
    ...viewLadders("delivery"),
    { of: readForms[read] },
    { of: writeForms[write] },
  ];
}
