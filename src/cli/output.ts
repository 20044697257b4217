import { extname } from "node:path";
import { nearestWord } from "../errors/nearest.ts";
import { refuse } from "../errors/problem.ts";
import type { Document } from "../report/document/document.ts";
import { plain } from "../report/renderers/plain.ts";
import { type CommonArguments, FORMATS, type Format, type OutputArguments } from "./options.ts";
import { terminalOf } from "./terminal.ts";

/** What a command gives: a document for people, data for programs. Each is made only when its format is asked for. */
export interface Result {
  document(): Document;
  data(): unknown;
}

/** Writes a result in the asked-for format to standard output or to the file that `--out` names. */
export async function emit(
  result: Result,
  options: OutputArguments & CommonArguments,
): Promise<void> {
  const format = formatOf(options);
  await put(await render(result, format, options), options);
}

/** Writes a text to standard output or to the file that `--out` names. */
export async function put(text: string, { out, force }: OutputArguments): Promise<void> {
  if (out === undefined) {
    process.stdout.write(text);
    return;
  }
  const { writeFileWhole } = await import("../io/write.ts");
  await writeFileWhole(out, text, { force });
}

/** Each renderer is loaded only when it is needed. */
async function render(
  result: Result,
  format: Format,
  options: OutputArguments & CommonArguments,
): Promise<string> {
  switch (format) {
    case "table": {
      const { renderText } = await import("../report/renderers/text/text.ts");
      const terminal =
        options.out === undefined ? terminalOf(process.stdout, options["no-color"]) : {};
      return renderText(result.document(), terminal);
    }
    case "markdown":
      return (await import("../report/renderers/markdown.ts")).renderMarkdown(result.document());
    case "csv":
      return (await import("../report/renderers/csv.ts")).renderCsv(result.document());
    case "json":
      return (await import("../report/renderers/json.ts")).renderJson(result.data());
    case "latex":
      return (await import("../report/renderers/latex/latex.ts")).renderLatex(result.document());
    case "html":
      return (await import("../report/renderers/html/html.ts")).renderHtml(result.document());
  }
}

/** The format that was asked for, else the one that the ending of the output file means. */
function formatOf({ format, out }: OutputArguments): Format {
  if (format !== undefined) return format;
  if (out === undefined) return "table";
  const ending = extname(out).toLowerCase();
  for (const [name, endings] of Object.entries(FORMATS)) {
    if ((endings as readonly string[]).includes(ending)) return name as Format;
  }
  const known = Object.values(FORMATS).flat();
  const nearest = nearestWord(ending, known);
  return refuse({
    code: "unknown-word",
    what: `the ending of ${out} says nothing about its format`,
    expected: known.join(", "),
    ...(nearest === undefined ? {} : { nearest }),
    fix: "say --format too",
  });
}

/** A word to who runs the command, on standard error. */
export function warn(text: string, { quiet }: CommonArguments): void {
  if (!quiet) process.stderr.write(`${plain(text)}\n`);
}
