import { spawnSync } from "node:child_process";
import { expect, test } from "vitest";
import manifest from "../../package.json" with { type: "json" };
import { COMMANDS } from "../../src/cli/commands/index.ts";
import { PROGRAM, tenfold } from "./run.ts";

const names = COMMANDS.map(({ command }) => String(command).split(" ")[0]!);

test("--version is the version of the package", () => {
  expect(tenfold(["--version"])).toEqual({ code: 0, out: `${manifest.version}\n`, err: "" });
});

test("without a command, and with --help, the commands are listed on standard output", () => {
  const bare = tenfold([]);
  expect(bare.code).toBe(0);
  expect(tenfold(["--help"]).out.trim()).toBe(bare.out.trim());
  for (const name of names) expect(bare.out).toContain(`tenfold ${name}`);
  expect(bare.err).toBe("");
});

test.each(names)("%s --help explains the command and shows an example of it", (name) => {
  const { code, out } = tenfold([name, "--help"]);
  expect(code).toBe(0);
  expect(out).toMatch(/Examples:\n/);
  expect(out.split("Examples:")[1]).toContain(`tenfold ${name}`);
  expect(Math.max(...out.split("\n").map((line) => line.length))).toBeLessThanOrEqual(90);
});

test.each([
  [["lst"], "there is no command lst", "list"],
  [["list", "--formt", "csv"], "there is no option --formt", "--format"],
  [["list", "--format", "makrdown"], "--format can't be makrdown", "markdown"],
  [["list", "swich"], "swich is no kind of entry", "switch"],
  [["show", "sram6t"], "there is no entry sram6t", "sram-6t"],
  [["list", "--out", "table.cvs"], "the ending of table.cvs", ".csv"],
])("tenfold %j is refused with code 2 and the nearest right word", (args, what, nearest) => {
  const { code, out, err } = tenfold(args);
  expect(code).toBe(2);
  expect(out).toBe("");
  expect(err).toContain(what);
  expect(err).toContain(`did you mean: ${nearest}\n`);
});

test.each([
  [["show"], "expected: tenfold show <name>"],
  [["show", "a", "b"], "expected: tenfold show <name>"],
  [["list", "--out"], "not enough arguments following: out"],
  [["--nonsense"], "a command is missing"],
  [["list", "--nonsense"], "there is no option --nonsense"],
])("tenfold %j is refused with code 2 and says how it goes", (args, what) => {
  const { code, err } = tenfold(args);
  expect(code).toBe(2);
  expect(err).toContain(what);
  expect(err).toMatch(/--help shows what there is/);
});

test("a mistake in the command line never shows a stack or an apology", () => {
  for (const args of [["lst"], ["show"], ["list", "--format", "x"], ["check", "missing.yaml"]]) {
    const { out, err } = tenfold(args);
    expect(out + err).not.toMatch(/\bat .*\.js:\d+|not your fault/);
  }
});

test("the completion script names the program, and commands and options complete", () => {
  expect(tenfold(["completion"]).out).toContain("tenfold");
  const env = { SHELL: "/bin/bash" };
  expect(tenfold(["--get-yargs-completions", "tenfold", "l"], { env }).out).toContain("list");
  const options = tenfold(["--get-yargs-completions", "tenfold", "list", "--"], { env }).out;
  expect(options).toContain("--format");
});

test("a reader that closes the pipe early gets no complaint", () => {
  const script = `"${process.execPath}" "${PROGRAM}" show cmos-65 --format json | head -c 1`;
  const ran = spawnSync("sh", ["-c", script], { encoding: "utf8" });
  expect(ran.stderr).toBe("");
  expect(ran.status).toBe(0);
});
