/** The periphery: all of a macro that is not cells. */
export { accessFor } from "./access.ts";
export { type BiasScheme, columnBiasFor, lineCurrents, lineDriverFor } from "./bias.ts";
export { type Correction, multipleCode, singleCode, singleDoubleCode } from "./code.ts";
export { decoder, decoderAlternatives } from "./decoder.ts";
export { type Default, defaults } from "./defaults.ts";
export { effort } from "./effort.ts";
export { lines } from "./lines.ts";
export { partsFor, sharedSheets } from "./periphery.ts";
export { chargePump, pumpOutput } from "./pump.ts";
export { route } from "./route.ts";
export type { Level, PartUse, Structure } from "./structure.ts";
