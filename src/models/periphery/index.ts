/** The periphery: all of a macro that is not cells. */
export { accessFor } from "./access.ts";
export { defaults } from "./defaults.ts";
export { effort, gateEffort } from "./effort.ts";
export { lines } from "./lines.ts";
export { type Correction, multipleCode, singleCode, singleDoubleCode } from "./macro/code.ts";
export { logicEnergy } from "./macro/logic.ts";
export { chargePump, pumpOutput } from "./macro/pump.ts";
export { route } from "./macro/route.ts";
export { partsFor, sharedSheets } from "./periphery.ts";
export {
  type Level,
  type LevelReading,
  type PartUse,
  type Structure,
  terminates,
} from "./structure.ts";
export { type BiasScheme, columnBiasFor, lineCurrents, lineDriverFor } from "./tile/bias.ts";
export { decoder, decoderAlternatives } from "./tile/decoder.ts";
export { offsetYield } from "./tile/offset.ts";
