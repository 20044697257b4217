import { expect, test } from "vitest";
import { checkSheet } from "../../../src/formulas/index.ts";
import type { Sheet } from "../../../src/formulas/sheet.ts";
import * as functions from "../../../src/models/functions/index.ts";

const { functionDefaults, ...rest } = functions;
const sheets: Sheet[] = Object.values(rest);

test.each(sheets.map((one) => [one.name, one] as const))(
  "%s parses, has the right dimensions and leaves no field blank",
  (_, one) => {
    expect(checkSheet(one).map(({ what }) => what)).toEqual([]);
  },
);

test("every default of a function is inside its range", () => {
  for (const { low, value, high, name } of functionDefaults) {
    expect(low, name).toBeLessThanOrEqual(value);
    expect(value, name).toBeLessThanOrEqual(high);
  }
});
