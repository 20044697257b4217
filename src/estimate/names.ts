import type { InputDefinition, Sheet } from "../formulas/sheet.ts";

/** What sheets define and read, as inputs of another sheet. */
export function definitionsOf(
  ...sheets: readonly Sheet[]
): Readonly<Record<string, InputDefinition>> {
  return Object.fromEntries(
    sheets.flatMap((one) => [
      ...Object.entries(one.inputs),
      ...Object.entries(one.formulas).map(
        ([name, { unit, meaning, symbol }]): [string, InputDefinition] => [
          name,
          symbol === undefined ? { unit, meaning } : { unit, meaning, symbol },
        ],
      ),
    ]),
  );
}
