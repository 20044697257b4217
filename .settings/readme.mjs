// README.md with the output of its commands made anew. What it shows is what the program prints, or CI fails.
//
// `<!-- file: NAME -->` before a fenced block writes the block to NAME in an empty folder, in which the commands run.
// `<!-- run: COMMAND -->` … `<!-- end -->` holds what COMMAND prints; `<!-- run, LINES: COMMAND -->` only some lines.
import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "./fingerprint.mjs";

const FILE = /^<!-- file: (\S+) -->\n```\w*\n([\s\S]*?)^```$/gm;
const RUN = /^<!-- run(?:, lines (\d+) to (\d+))?: (.*) -->\n[\s\S]*?^<!-- end -->$/gm;

/** README.md as it should be. */
export function readme() {
  // Beneath the project, so that a program in it finds the library by its name.
  const folder = join(root, `readme.${process.pid}.tmp`);
  mkdirSync(folder);
  try {
    symlinkSync(join(root, "configs"), join(folder, "configs"), "junction");
    const text = readFileSync(join(root, "README.md"), "utf8");
    for (const [, name, content] of text.matchAll(FILE)) writeFileSync(join(folder, name), content);
    return text.replace(RUN, (_, from, to, command) => {
      const all = printed(command, folder).trimEnd().split("\n");
      const shown = from === undefined ? all : all.slice(Number(from) - 1, Number(to));
      const before = Number(from ?? 1) > 1 ? ["…"] : [];
      const after = to !== undefined && Number(to) < all.length ? ["…"] : [];
      const lines = [`$ ${command}`, ...before, ...shown, ...after];
      const only = from === undefined ? "" : `, lines ${from} to ${to}`;
      return `<!-- run${only}: ${command} -->\n\`\`\`text\n${lines.join("\n")}\n\`\`\`\n<!-- end -->`;
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** What a command prints on a terminal without colours, mistakes included. */
function printed(command, cwd) {
  const [program, ...args] = command.match(/"[^"]*"|\S+/g).map((word) => word.replaceAll('"', ""));
  const rest = program === "tenfold" ? [join(root, "dist/tenfold.js"), ...args] : args;
  if (program !== "tenfold" && program !== "node") throw new Error(`README runs ${program}`);
  const { stdout, stderr, error } = spawnSync(process.execPath, rest, {
    cwd,
    encoding: "utf8",
    env: { ...process.env, NO_COLOR: "1", COLUMNS: "80" },
    input: "",
  });
  if (error) throw error;
  return stdout + stderr;
}
