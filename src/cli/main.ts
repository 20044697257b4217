import { run } from "./run.ts";

// A reader that has seen enough, such as `head`, closes the pipe: no reason to complain.
for (const stream of [process.stdout, process.stderr]) {
  stream.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code === "EPIPE") process.exit(0);
    throw error;
  });
}

process.exitCode = await run(process.argv.slice(2));
