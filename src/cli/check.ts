import { problemData, problemsText } from "../errors/wording.ts";
import { checkFile } from "../io/check.ts";
import { renderJson } from "../report/renderers/json.ts";
import { endWith } from "./exit.ts";
import type { CommonArguments } from "./options.ts";
import { terminalOf } from "./terminal.ts";

/** Checks files and prints what it found on standard output: here the mistakes are the result. */
export async function checkFiles(
  files: readonly string[],
  options: CommonArguments & { readonly format: "table" | "json" },
): Promise<void> {
  const found = [];
  for (const file of files) found.push(await checkFile(file));
  if (found.some(({ problems }) => problems.length > 0)) endWith(2);
  if (options.format === "json") {
    const data = found.map(({ problems, ...rest }) => ({
      ...rest,
      problems: problems.map((problem) => problemData(problem)),
    }));
    process.stdout.write(renderJson({ format: "tenfold.check/1", files: data }));
    return;
  }
  const { width, color } = terminalOf(process.stdout, options["no-color"]);
  for (const { file, kind, problems } of found) {
    const text =
      problems.length === 0
        ? `${file}: a ${kind} without mistakes\n`
        : problemsText(problems, { width, color });
    process.stdout.write(text);
  }
}
