import { nearestWord } from "../errors/nearest.ts";
import { type Problem, TenfoldError } from "../errors/problem.ts";

/**
 * A mistake in the command line, from the message of the argument parser.
 *
 * @param args the command line
 * @param usage of the command, such as `show <name>`; empty when there is none
 * @param known the commands and options that there are, options with their dashes
 */
export function usageError(
  message: string,
  args: readonly string[],
  usage: string,
  known: readonly string[],
): TenfoldError {
  const command = usage.split(" ")[0]!;
  const fix = `tenfold ${command === "" ? "" : `${command} `}--help shows what there is`;
  const problem = (what: string, more: Partial<Problem> = {}): Problem => ({
    code: "usage",
    what,
    ...more,
    fix,
  });
  const unknown = /^Unknown (?:argument|command)s?: (.*)$/s.exec(message);
  if (unknown !== null) {
    const words = unknown[1]!.split(", ").map((word) => asTyped(word, args));
    return new TenfoldError(words.map((word) => problem(...unknownWord(word, usage, known))));
  }
  const choice = /Argument: (\S+), Given: "(.*)", Choices: (.*)$/s.exec(message);
  if (choice !== null) {
    const [, option, given = "", list = ""] = choice;
    const choices = list.split(", ").map((word) => word.replaceAll('"', ""));
    const nearest = nearestWord(given, choices);
    return new TenfoldError(
      problem(`--${option} can't be ${given}`, {
        expected: choices.join(", "),
        ...(nearest === undefined ? {} : { nearest }),
      }),
    );
  }
  if (/^Not enough non-option arguments/.test(message) && command !== "") {
    return new TenfoldError(problem(`${command} needs more`, { expected: `tenfold ${usage}` }));
  }
  const what = message
    .trim()
    .replace(/\s*\n\s*/g, "; ")
    .replace(/[.\s]+$/, "");
  return new TenfoldError(problem(what.charAt(0).toLowerCase() + what.slice(1)));
}

/** The parser gives an option's name without its dashes. */
function asTyped(word: string, args: readonly string[]): string {
  const dashed = [`--${word}`, `-${word}`];
  return dashed.find((d) => args.some((arg) => arg === d || arg.startsWith(`${d}=`))) ?? word;
}

function unknownWord(
  word: string,
  usage: string,
  known: readonly string[],
): [string, Partial<Problem>] {
  const isOption = word.startsWith("-");
  const candidates = known.filter((k) => k.startsWith("-") === isOption);
  const nearest = nearestWord(word, candidates);
  if (isOption) {
    const what = `there is no option ${word}`;
    return [what, nearest === undefined ? {} : { nearest }];
  }
  if (usage !== "") return [`${word} is one word too many`, { expected: `tenfold ${usage}` }];
  return [
    `there is no command ${word}`,
    { expected: candidates.join(", "), ...(nearest === undefined ? {} : { nearest }) },
  ];
}
