import type { Reference } from "../../catalogue/index.ts";
import type { Document } from "../document/document.ts";
import { quantity, text } from "../document/make.ts";

/** The references of a study, each with what it was used for. */
export function sourcesDocument(title: string, references: readonly Reference[]): Document {
  const published = references.filter(({ type }) => type === "published");
  const other = references.filter(({ type }) => type !== "published");
  const rows = (list: readonly Reference[]) =>
    list.map((one) => [
      text(one.key),
      text(
        [
          one.title,
          one.venue,
          one.year,
          one.doi && `doi ${one.doi}`,
          one.isbn && `ISBN ${one.isbn}`,
        ]
          .filter(Boolean)
          .join(", "),
      ),
      quantity("1", one.uses.length),
    ]);
  const columns = [
    { name: "key", title: "key" },
    { name: "source", title: "source" },
    { name: "values", title: "values", align: "right" as const },
  ];
  return {
    title: `Sources of ${title}`,
    blocks: [
      { kind: "table", name: "published", caption: "Published", columns, rows: rows(published) },
      { kind: "table", name: "other", caption: "Not published", columns, rows: rows(other) },
    ],
  };
}
