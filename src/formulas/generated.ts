/** Functions made from text: the one file that makes any. */

/**
 * Whether any text becomes a function. A page whose policy forbids that gets, in place of this file, a table of the
 * functions that the shipped formulas need (`.settings/browser.mjs`): there this is false.
 */
export const GENERATES: boolean = true;

/**
 * The function with these parameters and this body.
 *
 * @param parameters names joined by commas
 * @param body made by `codegen.ts` or `columns.ts`, never a user's text
 */
export function functionFrom(parameters: string, body: string): unknown {
  return new Function(parameters, body);
}
