import { basename } from "node:path";
import type { OwnEntry } from "../catalogue/index.ts";
import { explorerPage } from "../explorer/page.ts";
import { sha256 } from "../explorer/text/sha256.ts";
import { parseFormula } from "../formulas/parse.ts";
import { explorerParts } from "../io/explorer.ts";
import { readText } from "../io/read.ts";
import { fileEntries, openText } from "../io/study.ts";
import { writeFileWhole } from "../io/write.ts";
import { reportDocument } from "../report/documents/report/report.ts";
import { estimateStudy } from "../studies/estimate.ts";
import { studySources } from "../studies/explain.ts";
import type { CommonArguments } from "./options.ts";
import { warn } from "./output.ts";
import { reportCommand } from "./report.ts";
import { fileName } from "./stdin.ts";
import { version } from "./version.ts";

/** Writes a study as a page that computes. */
export async function explore(
  options: CommonArguments & {
    readonly file: string;
    readonly out: string;
    readonly force: boolean;
  },
): Promise<void> {
  const { out, force } = options;
  const path = fileName(options.file);
  const { text } = await readText(path);
  const file = path === "-" ? "study.yaml" : basename(path);
  const { study, catalogue } = await openText({ text, file }, path);
  const command = reportCommand({ file: path, set: [] });
  const matter = {
    estimate: estimateStudy(study, catalogue, parseFormula),
    provenance: { sha256: sha256(text), version },
    references: studySources(study, catalogue, parseFormula),
    command,
  };
  const entries = await fileEntries(study, path);
  const names = study.catalogue?.files ?? [];
  const page = explorerPage(
    {
      text,
      file,
      version,
      command,
      entries: Object.fromEntries(names.map((name, i): [string, OwnEntry] => [name, entries[i]!])),
      document: reportDocument(matter),
    },
    explorerParts(),
  );
  await writeFileWhole(out, page, { force });
  warn(`${(page.length / 2 ** 20).toFixed(1)} MiB in ${out}: open it in a browser`, options);
}
