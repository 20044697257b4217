import type { Reference } from "../catalogue/index.ts";
import { escapeLatex } from "./renderers/latex/escape.ts";
import { plain } from "./renderers/plain.ts";

/** References in the forms that writing programs read. What has no publication has no entry. */

/** BibTeX, one `@misc` for each source, in the order of the keys. */
export function bibtex(references: readonly Reference[]): string {
  const entries = published(references).map(({ key, title, venue, year, doi, isbn, note }) => {
    const fields: [string, string | undefined][] = [
      ["title", `{${escapeLatex(title)}}`],
      ["howpublished", escapeLatex(venue)],
      ["year", year === undefined ? undefined : String(year)],
      ["doi", doi === undefined ? undefined : bare(doi)],
      ["isbn", isbn === undefined ? undefined : bare(isbn)],
      ["note", note === undefined ? undefined : escapeLatex(note)],
    ];
    const lines = fields.flatMap(([name, value]) =>
      value === undefined ? [] : [`  ${name} = {${value}}`],
    );
    return `@misc{${key.replace(/[^A-Za-z0-9_-]/g, "-")},\n${lines.join(",\n")}\n}\n`;
  });
  return entries.join("\n");
}

/** Identifiers are copied as they are, but for what would end the field or start a command. */
function bare(identifier: string): string {
  return plain(identifier).replace(/[{}\\\s]/g, "");
}

/** CSL-JSON (the citation style language's input), as data. */
export function cslItems(references: readonly Reference[]): object[] {
  return published(references).map(({ key, title, venue, year, doi, isbn, note }) => ({
    id: key,
    type: isbn === undefined ? "article-journal" : "book",
    title,
    ...(isbn === undefined ? { "container-title": venue } : { publisher: venue, ISBN: isbn }),
    ...(year === undefined ? {} : { issued: { "date-parts": [[year]] } }),
    ...(doi === undefined ? {} : { DOI: doi }),
    ...(note === undefined ? {} : { note }),
  }));
}

function published(references: readonly Reference[]): readonly Reference[] {
  return references.filter(({ type }) => type === "published");
}
