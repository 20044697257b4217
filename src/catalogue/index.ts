export { ALTERNATIVES, type Alternative } from "./alternatives.ts";
export { Catalogue, type OwnEntry } from "./catalogue.ts";
export type { Entry, Loader, Parameters } from "./entry.ts";
export type { Field, FieldTable } from "./fields/field.ts";
export { SELECTOR_VARIANTS } from "./fields/selector.ts";
export { LEVEL_TABLE, WIRE_LEVELS } from "./fields/wires.ts";
export { prefixedInstances, prefixedParameters } from "./instances.ts";
export { KIND, KINDS, type Kind, type KindDefinition } from "./kinds.ts";
export {
  type ErrorSample,
  type ModelErrors,
  type QuantityError,
  readModelErrors,
} from "./model-error.ts";
export { type EntryFile, entryFormat, readEntry } from "./read.ts";
export type { Resolved } from "./resolve.ts";
export { type SelectorLaw, selectorLaw } from "./selector-law.ts";
export {
  LITERAL_SOURCES,
  type Reference,
  type Source,
  type SourcedFormula,
  sourcesOf,
  type Use,
} from "./sources.ts";
export { ownEntries, wireFigures } from "./study.ts";
