import { problemData, problemsText } from "../errors/wording.ts";
import { checkFile } from "../io/check.ts";
import { renderJson } from "../report/renderers/json.ts";
import { plain } from "../report/renderers/plain.ts";
import { endWith } from "./exit.ts";
import type { CommonArguments } from "./options.ts";
import { distinct } from "./problems.ts";
import { settings } from "./settings.ts";
import { terminalOf } from "./terminal.ts";

/** Checks files and prints what it found on standard output: here the mistakes are the result. */
export async function checkFiles(
  files: readonly string[],
  options: CommonArguments & {
    readonly format: "table" | "json";
    readonly set: readonly string[];
    readonly verbose: boolean;
  },
): Promise<void> {
  const set = settings(options.set);
  const found = [];
  for (const file of files) found.push(await checkFile(file, set));
  if (found.some(({ problems }) => problems.length > 0)) endWith(2);
  if (options.format === "json") {
    const data = found.map(({ problems, ...rest }) => ({
      ...rest,
      problems: distinct(problems).map((problem) => problemData(problem)),
    }));
    process.stdout.write(renderJson({ format: "tenfold.check/1", files: data }));
    return;
  }
  const { width, color } = terminalOf(process.stdout, options["no-color"]);
  for (const { file, kind, problems, defaulted } of found) {
    const text =
      problems.length === 0
        ? `${plain(file)}: a ${kind} without mistakes\n`
        : problemsText(distinct(problems), { width, color });
    process.stdout.write(text);
    if (!options.verbose) continue;
    for (const [design, defaults] of Object.entries(defaulted)) {
      for (const line of defaults) process.stdout.write(`  ${design}: ${plain(line)}\n`);
    }
  }
}
