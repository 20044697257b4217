import { parseFormula } from "../formulas/parse.ts";
import { bibtex, cslItems } from "../report/bibliography.ts";
import { sourcesDocument } from "../report/documents/sources.ts";
import { renderJson } from "../report/renderers/json.ts";
import { studySources } from "../studies/explain.ts";
import type { CommonArguments, Format } from "./options.ts";
import { emit, put } from "./output.ts";
import { openNamed } from "./study.ts";

/** Prints the references of a study. */
export async function sources(
  options: CommonArguments & {
    readonly file: string;
    readonly set: readonly string[];
    readonly format?: Format | "bibtex" | "csl-json" | undefined;
    readonly out?: string | undefined;
    readonly force: boolean;
  },
): Promise<void> {
  const { study, catalogue } = await openNamed(options);
  const references = studySources(study, catalogue, parseFormula);
  const { format, out, force } = options;
  if (format === "bibtex") return put(bibtex(references), { out, force });
  if (format === "csl-json") return put(renderJson(cslItems(references)), { out, force });
  await emit(
    {
      document: () => sourcesDocument(study.title, references),
      data: () => ({ format: "tenfold.sources/1", title: study.title, references }),
    },
    { ...options, format },
  );
}
