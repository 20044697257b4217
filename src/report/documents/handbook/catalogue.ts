import { type Catalogue, KIND, KINDS } from "../../../catalogue/index.ts";
import type { Block } from "../../document/document.ts";
import { heading, text } from "../../document/make.ts";

/** Every entry of the catalogue with the sources of its values. */
export function catalogueBlocks(catalogue: Catalogue): Block[] {
  return KINDS.flatMap((kind): Block[] => {
    const entries = catalogue.names(kind).map((name) => catalogue.find(kind, name));
    if (entries.length === 0) return [];
    return [
      heading(`Catalogue: ${KIND[kind].plural}`, 2),
      {
        kind: "table",
        name: KIND[kind].folder,
        columns: [
          { name: "name", title: "name" },
          { name: "title", title: "what it is" },
          { name: "about", title: "what it claims" },
          { name: "sources", title: "sources" },
        ],
        rows: entries.map(({ name, title, about, values }) => [
          text(name),
          text(title),
          text(about),
          text([...new Set(Object.values(values).map(({ source }) => source))].join(", ")),
        ]),
      },
    ];
  });
}

/** The list of sources by key. */
export function sourceBlocks(catalogue: Catalogue): Block[] {
  return [
    heading("Sources", 2),
    {
      kind: "table",
      name: "sources",
      columns: [
        { name: "key", title: "key" },
        { name: "source", title: "source" },
      ],
      rows: [...catalogue.sources().values()].map(({ key, title, venue, year, doi, isbn }) => [
        text(key),
        text(
          [title, venue, year, doi && `doi ${doi}`, isbn && `ISBN ${isbn}`]
            .filter((one) => one !== undefined && one !== "")
            .join(", "),
        ),
      ]),
    },
  ];
}
