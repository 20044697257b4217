/** Where the tables of the elementary functions lie in a machine's memory. */

import { EXP_TABLE } from "../elementary/exp-table.ts";
import { LOG_TABLE } from "../elementary/log-table.ts";

/** Byte addresses. */
export const EXP_AT = 64;
export const LOG_AT = EXP_AT + 16 * 128;
/** From here the memory is free. */
export const FREE_FROM = LOG_AT + 32 * 128;

/** Writes the tables: rows of two and of four doubles. */
export function writeTables(doubles: Float64Array): void {
  doubles.set(EXP_TABLE, EXP_AT >> 3);
  for (let i = 0; i < 128; i++) {
    const at = (LOG_AT >> 3) + 4 * i;
    doubles[at] = LOG_TABLE[3 * i]! / 256;
    doubles[at + 1] = LOG_TABLE[3 * i + 1]!;
    doubles[at + 2] = LOG_TABLE[3 * i + 2]!;
  }
}
