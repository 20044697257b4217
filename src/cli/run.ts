import yargs, { type CommandModule } from "yargs";
import { COMMANDS } from "./commands/index.ts";
import { exitCode } from "./exit.ts";
import { reportFailure } from "./failure.ts";
import { COMMON } from "./options.ts";
import { keepDashes } from "./stdin.ts";
import { usageError } from "./usage.ts";
import { version } from "./version.ts";

/** A line of help is not made longer than this, nor than the terminal. */
const HELP_WIDTH = 90;

/**
 * Runs one command line.
 *
 * @param args what stands behind the program's name
 * @returns the exit code: 0 done, 1 a requirement did not hold, 2 bad input, 3 the computation failed
 */
export async function run(args: readonly string[]): Promise<number> {
  try {
    const parser = program(args);
    // Without a command there is nothing to do but to say what there is.
    if (args.length === 0) parser.showHelp((text) => process.stdout.write(`${text}\n`));
    else await parser.parseAsync();
    return exitCode();
  } catch (error) {
    return reportFailure(error, args.includes("--no-color"));
  }
}

function program(args: readonly string[]) {
  const parser = yargs(keepDashes(args))
    .scriptName("tenfold")
    .usage(
      "$0 <command> [options]\n\nEstimates memories and logic built from two-terminal resistance " +
        "switches on CMOS, against all-CMOS baselines.",
    )
    .locale("en")
    .parserConfiguration({
      "boolean-negation": false,
      "camel-case-expansion": false,
      "dot-notation": false,
      "greedy-arrays": false,
      "parse-positional-numbers": false,
    })
    .options(COMMON)
    .version(version)
    .help()
    .alias("help", "h")
    .demandCommand(1, 1, "a command is missing", "one command at a time")
    .strict()
    .exitProcess(false)
    .wrap(Math.min(HELP_WIDTH, process.stdout.columns || HELP_WIDTH))
    .fail((message, error) => {
      // The parser's own errors are about the command line; others come from the work of a command.
      if (error && error.name !== "YError") throw error;
      const command = commandOf(args);
      throw usageError(message ?? error.message, args, command, knownWords(command));
    })
    .example("$0 new memory", "a commented study to start from")
    .example("$0 check memory/study.yaml", "every mistake with its place and remedy")
    .example("$0 compare memory/study.yaml", "the designs side by side")
    .example("$0 explain memory/study.yaml read_latency", "where a number comes from")
    .example("$0 list switch", "what switches the catalogue has")
    .epilogue("tenfold <command> --help shows the options of a command, with examples.");
  for (const command of COMMANDS) parser.command(command as unknown as CommandModule);
  return parser.completion("completion", "Print a script that completes commands in your shell");
}

const nameOf = (usage: unknown): string => String(usage).split(" ")[0]!;

/** The usage of the command that a command line names, such as `show <name>`; empty when it names none. */
function commandOf(args: readonly string[]): string {
  const usages = new Map(COMMANDS.map(({ command }) => [nameOf(command), String(command)]));
  const named = args.find((word) => usages.has(word));
  return named === undefined ? "" : usages.get(named)!;
}

/** Commands and options that could have been meant. */
function knownWords(command: string): string[] {
  const options = [...Object.keys(COMMON), "help", "version"];
  const module = COMMANDS.find((candidate) => candidate.command === command);
  if (module !== undefined) {
    const parser = yargs([]);
    (module.builder as (y: typeof parser) => unknown)(parser);
    options.push(
      ...Object.keys((parser as unknown as { getOptions(): { key: object } }).getOptions().key),
    );
  }
  return [
    ...options.map((name) => `--${name}`),
    ...(command === "" ? COMMANDS.map((c) => nameOf(c.command)) : []),
  ];
}
