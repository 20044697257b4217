import { KIND, KINDS } from "../../../catalogue/index.ts";
import type { ParameterDefault } from "../../../models/define.ts";
import type { Block } from "../../document/document.ts";
import { heading, paragraph, quantity, text } from "../../document/make.ts";

/** Every figure that no file has, with its range; a study overrides it by its name. */
export function defaultBlocks(defaults: readonly ParameterDefault[]): Block[] {
  return [
    heading("Defaults of the models", 2),
    paragraph(
      "A study replaces any of them by name under overrides. The range is from the 2.5 % to the " +
        "97.5 % point; without a range it is a choice of design.",
    ),
    {
      kind: "table",
      name: "defaults",
      columns: [
        { name: "parameter", title: "parameter" },
        { name: "value", title: "value", align: "left" },
        { name: "source", title: "source" },
        { name: "meaning", title: "meaning" },
      ],
      rows: defaults.map(({ name, unit, value, low, high, source, basis, meaning }) => [
        text(name),
        quantity(unit, low === high ? value : { value, low, high }),
        text(`${source} (${basis})`),
        text(meaning),
      ]),
    },
  ];
}

/** What an entry of each kind may say, and what is taken where it says nothing. */
export function fieldBlocks(): Block[] {
  return [
    heading("Figures of catalogue entries", 2),
    ...KINDS.flatMap((kind): Block[] => [
      heading(`Figures of a ${kind}`, 2),
      {
        kind: "table",
        name: `${kind}_fields`,
        columns: [
          { name: "figure", title: "figure" },
          { name: "unit", title: "unit" },
          { name: "default", title: "default" },
          { name: "meaning", title: "meaning" },
        ],
        rows: Object.entries(KIND[kind].fields).map(([name, field]) => [
          text(name),
          text(field.unit),
          text(fallback(field)),
          text(field.meaning),
        ]),
      },
    ]),
  ];
}

type Field = (typeof KIND)["switch"]["fields"][string];

function fallback({ required, sameAs, default: given }: Field): string {
  if (required) return "must be given";
  if (given === undefined) return sameAs === undefined ? "" : `same as ${sameAs}`;
  const { value, low, high, source } = given;
  const range = low === high ? value : `${value} (${low} – ${high})`;
  return `${range}; ${source}${sameAs === undefined ? "" : `; same as ${sameAs} where known`}`;
}
