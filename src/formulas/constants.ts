/** Names that every formula may use without declaring them. */

import { CONSTANTS } from "../quantities/constants.ts";

/** A constant of nature or of mathematics, as it stands in formulas. */
export interface FormulaConstant {
  readonly value: number;
  readonly unit: string;
  readonly meaning: string;
  /** LaTeX without dollar signs. */
  readonly symbol: string;
  readonly source: string;
}

const KNOWN: Readonly<Record<string, FormulaConstant>> = {
  ...CONSTANTS,
  pi: {
    value: Math.PI,
    unit: "1",
    meaning: "circumference of a circle over its diameter",
    symbol: "\\pi",
    source: "common practice",
  },
};

/** The constant of that name (`pi`, or one of `quantities/constants.ts`), if there is one. */
export function constantOf(name: string): FormulaConstant | undefined {
  return Object.hasOwn(KNOWN, name) ? KNOWN[name] : undefined;
}
