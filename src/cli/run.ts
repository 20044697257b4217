import yargs from "yargs";
import { version } from "./version.ts";

/** Runs one command line and answers with the exit code. */
export async function run(args: readonly string[]): Promise<number> {
  await yargs([...args]).scriptName("tenfold").version(version).parseAsync();
  return 0;
}
