/** What the terminal at an output can show. The only place that reads the environment for it. */
export interface Terminal {
  readonly width: number;
  readonly color: boolean;
  readonly ascii: boolean;
}

/** A line of text reads badly when it is longer. */
const WIDEST = 120;
const USUAL = 80;

/**
 * @param stream the output; a file or pipe gets 80 columns, no colour and Unicode, so that bytes don't depend on where
 *   they were made
 * @param noColor the option `--no-color`; the variable NO_COLOR (not empty) says the same
 */
export function terminalOf(stream: NodeJS.WriteStream, noColor: boolean): Terminal {
  if (!stream.isTTY) return { width: USUAL, color: false, ascii: false };
  const { env } = process;
  const dumb = env["TERM"] === "dumb";
  const locale = env["LC_ALL"] || env["LC_CTYPE"] || env["LANG"] || "";
  return {
    width: Math.min(WIDEST, stream.columns || USUAL),
    color: !noColor && !env["NO_COLOR"] && !dumb,
    ascii: locale !== "" && !/utf-?8/i.test(locale),
  };
}

/** Set to see where an internal error came from. */
export function debugging(): boolean {
  return (process.env["TENFOLD_DEBUG"] ?? "") !== "";
}
