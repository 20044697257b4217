/** Functions that can be built from switches or without, by name. */
import { LOOKUPS } from "./lookup.ts";
import { MATCHES } from "./match.ts";
import { MEMORIES } from "./memory.ts";
import { REGISTERS } from "./register.ts";
import { ROUTINGS } from "./routing.ts";
import type { FunctionDefinition } from "./side.ts";
import { WEIGHTED } from "./weight.ts";

export { type Counting, DEFAULT_COUNTING, SideModel, type SideUse } from "./model.ts";
export type { FunctionDefinition, Side } from "./side.ts";

/** All functions, in the order of tables. */
export const FUNCTIONS: readonly FunctionDefinition[] = [
  ...MEMORIES,
  ...MATCHES,
  ...ROUTINGS,
  ...LOOKUPS,
  ...WEIGHTED,
  ...REGISTERS,
];
