import { type Catalogue, type Entry, KIND, KINDS, type Kind } from "../../catalogue/index.ts";
import type { Parameter } from "../../quantities/parameter.ts";
import type { Block, Cell, Document } from "../document/document.ts";
import { paragraph, quantity, text } from "../document/make.ts";

/** The kinds of the catalogue, or the entries of one kind. */
export function listDocument(catalogue: Catalogue, kind?: Kind): Document {
  return kind === undefined ? kindsDocument(catalogue) : kindDocument(catalogue, kind);
}

function kindsDocument(catalogue: Catalogue): Document {
  const kinds = KINDS.filter((kind) => catalogue.names(kind).length > 0);
  return {
    title: "The catalogue",
    blocks: [
      {
        kind: "table",
        name: "kinds",
        columns: [
          { name: "kind", title: "kind" },
          { name: "entries", title: "entries", align: "right" },
          { name: "names", title: "names" },
        ],
        rows: kinds.map((kind) => {
          const names = catalogue.names(kind);
          return [text(kind), quantity("1", names.length), text(names.join(", "))];
        }),
      },
    ],
  };
}

function kindDocument(catalogue: Catalogue, kind: Kind): Document {
  return {
    title: `Catalogue: ${KIND[kind].plural}`,
    blocks: [
      {
        kind: "table",
        name: KIND[kind].folder,
        columns: [
          { name: "name", title: "name" },
          { name: "title", title: "what it is" },
        ],
        rows: catalogue
          .names(kind)
          .map((name) => [text(name), text(catalogue.find(kind, name).title)]),
      },
    ],
  };
}

/** One entry with all its values and where they are from. */
export function entryDocument(entry: Entry): Document {
  const blocks: Block[] = [paragraph(entry.about)];
  if (entry.from !== undefined)
    blocks.push(paragraph(`Laid over the ${entry.kind} ${entry.from}.`));
  blocks.push({
    kind: "table",
    name: "values",
    columns: [
      { name: "quantity", title: "quantity" },
      { name: "value", title: "value", align: "left" },
      { name: "source", title: "source" },
      { name: "basis", title: "basis" },
    ],
    rows: Object.values(entry.values).map((parameter) => [
      text(parameter.name),
      parameterCell(parameter, KIND[entry.kind].fields[parameter.name]?.show),
      text(parameter.source),
      text(parameter.basis),
    ]),
  });
  const notes = Object.values(entry.values).filter((parameter) => parameter.note !== undefined);
  if (notes.length > 0) {
    blocks.push({ kind: "heading", level: 1, text: "Notes" });
    blocks.push({ kind: "list", items: notes.map(({ name, note }) => `${name}: ${note}`) });
  }
  return { title: entry.title, subtitle: `${entry.kind} ${entry.name}`, blocks };
}

/**
 * The value of a parameter, with its interval unless it is exact.
 *
 * @param show the unit to print in, where that is not free
 */
export function parameterCell(
  { unit, value, low, high, distribution }: Parameter,
  show?: string,
): Cell {
  const exact = distribution === "exact" || low === high;
  const cell = quantity(unit, exact ? { value } : { value, low, high });
  return show === undefined ? cell : { ...cell, show };
}
