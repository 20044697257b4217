/** What means standard input where a file name is expected. */
const STDIN = "-";
/** Stands for `-` while the arguments are parsed: the parser drops a positional that is a lone dash. */
const STAND_IN = "<standard input>";

/** Before parsing. */
export function keepDashes(args: readonly string[]): string[] {
  return args.map((word) => (word === STDIN ? STAND_IN : word));
}

/** After parsing: a file name as the user wrote it. */
export function fileName(word: string): string {
  return word === STAND_IN ? STDIN : word;
}
