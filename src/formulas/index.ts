/** The formula engine: sheets of formulas to programs, fast functions, print and derivations. */

export { assemble } from "./assemble.ts";
export * from "./build.ts";
export { checkSheet } from "./check.ts";
export { type Compiled, compile } from "./compile.ts";
export { constantOf, type FormulaConstant } from "./constants.ts";
export { dependsOn, neededBy } from "./depends.ts";
export * from "./derive.ts";
export { dimensionOfTree, type UnitOf } from "./dimensions.ts";
export type { Parser } from "./expand.ts";
export * from "./expression.ts";
export { interpret, interpretProgram } from "./interpret.ts";
export { formulaLatex, latexName, latexNumber } from "./latex.ts";
export { parseFormula } from "./parse.ts";
export { collectTrees, parserFrom, type TreeTable } from "./preparsed.ts";
export { formulaText } from "./print.ts";
export type * from "./program.ts";
export type { Condition, ExpressionKind, Value } from "./reader.ts";
export * from "./sheet.ts";
export { symbolOf } from "./symbols.ts";
export type { Located } from "./tokens.ts";
export * from "./tree.ts";
export { valuesOf } from "./values.ts";
export { symbolsOf } from "./walk.ts";
