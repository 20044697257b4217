import type { FitSpread } from "../../../studies/evidence/fit.ts";
import type { Block, Cell } from "../../document/document.ts";
import { heading, none, paragraph, quantity, text } from "../../document/make.ts";
import { left, right } from "./words.ts";

/** Constants that several chips gave, with each chip left out. */
export function fitBlocks(fits: readonly FitSpread[]): Block[] {
  if (fits.length === 0) return [];
  return [
    heading("Constants that were taken from chips"),
    paragraph(
      "No figure of these is compared above. Each constant that rests on several chips, and what " +
        "it would be without one of them; constants that rest on one chip have no spread.",
    ),
    {
      kind: "table",
      name: "fits",
      columns: [
        left("constant", "constant"),
        left("fit", "fit"),
        right("shipped", "in use"),
        left("without", "without"),
        right("value", "it would be"),
      ],
      rows: fits.flatMap(({ constant, fit, unit, shipped, without }) =>
        without.map(({ chip, value }, i): Cell[] => [
          text(i === 0 ? constant : ""),
          text(i === 0 ? fit : ""),
          i === 0 ? quantity(unit, shipped) : none,
          text(chip),
          value === undefined ? none : quantity(unit, value),
        ]),
      ),
    },
  ];
}
