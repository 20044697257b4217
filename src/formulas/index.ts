/** The formula engine: sheets of formulas to programs, fast functions, print and derivations. */

export { assemble } from "./assemble.ts";
export * from "./build.ts";
export { checkSheet } from "./check.ts";
export { type Compiled, compile } from "./compile.ts";
export { constantOf, type FormulaConstant } from "./constants.ts";
export { dimensionOfTree, type UnitOf } from "./dimensions.ts";
export type { Parser } from "./expand.ts";
export { interpret, interpretProgram } from "./interpret.ts";
export { formulaLatex, latexName, latexNumber } from "./latex.ts";
export { parseFormula } from "./parse.ts";
export { collectTrees, parserFrom, type TreeTable } from "./preparsed.ts";
export { formulaText } from "./print.ts";
export type * from "./program.ts";
export * from "./sheet.ts";
export * from "./tree.ts";
