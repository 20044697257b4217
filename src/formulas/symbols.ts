/** The LaTeX symbol of a quantity of a program. */

import { latexName } from "./latex.ts";
import type { Quantity } from "./program.ts";

/**
 * The symbol that the sheet states, else one made from the name. A sheet that is used several times
 * gets the use into the subscript, so that the delay of the row decoder and that of the column
 * decoder stay apart.
 */
export function symbolOf(quantity: Quantity): string {
  const { name, symbol, prefix } = quantity;
  if (symbol === undefined) return latexName(name);
  const use = prefix.split("_").filter((word) => word !== "");
  if (use.length === 0) return symbol;
  const words = `\\mathrm{${use.join("\\ ")}}`;
  const subscript = /^(.*)_(?:\{(.*)\}|([A-Za-z0-9]|\\[A-Za-z]+))$/.exec(symbol);
  if (!subscript) return `${/[\^']/.test(symbol) ? `{${symbol}}` : symbol}_{${words}}`;
  const [, head = "", long, short] = subscript;
  return `${head}_{${long ?? short},\\,${words}}`;
}
