import { readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { scratch, tenfold } from "./run.ts";

/** A name of a file, and a word, that clears the screen, turns the writing and goes on below. */
const EVIL = "a\u001b[2J\u009b31m\u202eb\nc";

const STUDY = `title: x
technology: cmos-65
samples: 64
designs: {a: {cell: sram-6t, capacity: 16 kib, word: 16 bit}}
sweep: {vary: {temperature: [20 degC, 40 degC]}}
`;

// biome-ignore lint/suspicious/noControlCharactersInRegex: controls are what is looked for
const ACTING = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/;

test
  .skipIf(process.platform === "win32")
  .each([
    ["check", `${EVIL}.yaml`],
    ["check", `${EVIL}.yaml`, "--format", "json"],
    ["check", `missing ${EVIL}`],
    ["check", "wrong.yaml"],
    ["estimate", `${EVIL}.yaml`, "--out", `${EVIL}.md`],
    ["estimate", `${EVIL}.yaml`, "--out", `${EVIL}`],
    ["estimate", `${EVIL}.yaml`, "--set", EVIL],
    ["estimate", `${EVIL}.yaml`, "--set", `${EVIL}=1`],
    ["explain", `${EVIL}.yaml`, EVIL],
    ["explain", `${EVIL}.yaml`, "macro_area", "--design", EVIL],
    ["sweep", `${EVIL}.yaml`, "--out", `${EVIL}.csv`],
    ["sweep", `${EVIL}.yaml`, "--out", `${EVIL}.csv`, "--array-job", `${EVIL}.sh`],
    ["sweep", `${EVIL}.yaml`, "--out", `${EVIL}.csv`, "--shard", EVIL],
    ["merge", `${EVIL}.1.csv`, "--out", `${EVIL}.csv`],
    ["new", EVIL],
    ["report", `${EVIL}.yaml`, "--out", EVIL],
    ["show", EVIL],
    ["list", EVIL],
    ["solve", `${EVIL}.yaml`, "--pick", EVIL],
    ["evidence", "--chips", EVIL],
    ["evidence", "--kind", EVIL],
    [EVIL],
    ["estimate", `--${EVIL}`],
    ["estimate", "x", "--format", EVIL],
  ])("nothing acts on the terminal in what a command says of hostile names (%#)", (...args) => {
  const cwd = scratch();
  writeFileSync(join(cwd, `${EVIL}.yaml`), STUDY);
  writeFileSync(join(cwd, "wrong.yaml"), JSON.stringify({ title: "x", [EVIL]: EVIL }));
  const { out, err } = tenfold(args, { cwd });
  expect(`${out}${err}`).not.toMatch(ACTING);
  expect(`${out}${err}`).not.toContain("not your fault");
  expect(`${out}${err}`.length + readdirSync(cwd).length).toBeGreaterThan(2);
});
