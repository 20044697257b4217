import { basename } from "node:path";
import type { OwnEntry } from "../catalogue/index.ts";
import { Session } from "../explorer/engine/session.ts";
import { explorerPage } from "../explorer/page.ts";
import { folderLoader } from "../io/catalogue.ts";
import { explorerParts } from "../io/explorer.ts";
import { readText } from "../io/read.ts";
import { fileEntries, parseStudy } from "../io/study.ts";
import { writeFileWhole } from "../io/write.ts";
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
  const study = parseStudy({ text, file });
  const entries = await fileEntries(study, path);
  const names = study.catalogue?.files ?? [];
  const settings = {
    file,
    version,
    command: reportCommand({ file: path, set: [] }),
    entries: Object.fromEntries(names.map((name, i): [string, OwnEntry] => [name, entries[i]!])),
  };
  const document = new Session(folderLoader(), settings).document(text);
  const page = explorerPage({ ...settings, text, document }, explorerParts());
  await writeFileWhole(out, page, { force });
  warn(`${(page.length / 2 ** 20).toFixed(1)} MiB in ${out}: open it in a browser`, options);
}
