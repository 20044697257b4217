/** The circuits that a function needs beside its memory, hybrid or all-CMOS. */
export { cellAddition } from "./addition.ts";
export { functionDefaults } from "./defaults.ts";
export { tableMultiplexer } from "./lookup.ts";
export {
  holdRegister,
  matchLines,
  matchPrecharge,
  priorityEncoder,
  resistiveCompare,
  staticCompare,
} from "./match.ts";
export { flipFlop, shadow, storeControl, transferMultiplexer } from "./register.ts";
export {
  passPath,
  restoringBuffer,
  signalBuffer,
  switchPath,
  wireIsolation,
} from "./routing.ts";
export {
  accumulator,
  adderShare,
  columnConverter,
  columnCurrent,
  partialProduct,
} from "./weight.ts";
