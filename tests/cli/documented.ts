import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { COMMANDS } from "../../src/cli/commands/index.ts";
import { ROOT } from "./run.ts";

/** A command line that some document shows. */
export interface Documented {
  readonly where: string;
  readonly line: string;
}

const read = (name: string): string => readFileSync(join(ROOT, name), "utf8");

/** What the options of a command are told to; notes examples and ignores the rest. */
function examplesOf(command: (typeof COMMANDS)[number]): string[] {
  const found: string[] = [];
  const builder: unknown = new Proxy(
    {},
    {
      get: (_, name) => (line: unknown) => {
        if (name === "example") found.push(String(line));
        return builder;
      },
    },
  );
  (command.builder as (yargs: unknown) => unknown)(builder);
  return found;
}

/** The examples of `tenfold --help` and of every `tenfold COMMAND --help`. */
export function helpExamples(): Documented[] {
  const own = COMMANDS.flatMap((command) =>
    examplesOf(command).map((line) => ({
      where: `tenfold ${String(command.command).split(" ")[0]} --help`,
      line,
    })),
  );
  const top = [...read("src/cli/run.ts").matchAll(/\.example\("\$0 ([^"]*)"/g)];
  return [...top.map(([, line]) => ({ where: "tenfold --help", line: `tenfold ${line}` })), ...own];
}

/** The pages that show commands: those for users, for contributors, and the handbook. */
export function pages(): string[] {
  const handbook = readdirSync(join(ROOT, "reports/handbook"), { encoding: "utf8" });
  return [
    "README.md",
    "DEVELOPERS.md",
    "reports/handbook.md",
    ...handbook.filter((name) => name.endsWith(".md")).map((name) => `reports/handbook/${name}`),
  ];
}

/** Commands in the pages as code, within a sentence or in a block. */
export function pageCommands(): Documented[] {
  return pages().flatMap((where) => {
    const text = read(where);
    const spans = [...text.matchAll(/`((?:tenfold|npm|npx|node|\.ci\/)[^`\n]*)`/g)];
    const blocks = [...text.matchAll(/^```\w*\n([\s\S]*?)^```$/gm)].flatMap(([, block]) =>
      [...block!.matchAll(/^(?:\$ )?((?:tenfold|npm|npx|node) [a-z.].*?)(?: {2,}.*)?$/gm)].map(
        ([, line]) => [line, line] as const,
      ),
    );
    return [...spans, ...blocks].map(([, line]) => ({ where, line: line!.trim() }));
  });
}

/** Commands in the comments of the demo studies. */
export function demoCommands(): Documented[] {
  return readdirSync(join(ROOT, "configs")).flatMap((name) =>
    [...read(`configs/${name}`).matchAll(/^# (tenfold [a-z].*)$|`(tenfold [a-z][^`]*)`/gm)].map(
      ([, line, span]) => ({ where: `configs/${name}`, line: (line ?? span)!.trim() }),
    ),
  );
}
