import { systemReason } from "../io/system.ts";
import { run } from "./run.ts";

// A reader that has seen enough, such as `head`, closes the pipe: no reason to complain.
for (const stream of [process.stdout, process.stderr]) {
  stream.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code === "EPIPE") process.exit(0);
    process.stderr.write(`the result can't be written: ${systemReason(error)}\n`);
    process.exit(3);
  });
}

process.exitCode = await run(process.argv.slice(2));
