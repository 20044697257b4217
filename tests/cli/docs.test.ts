import { spawnSync } from "node:child_process";
import {
  chmodSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  readFileSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { COMMANDS } from "../../src/cli/commands/index.ts";
import { demoCommands, helpExamples, pageCommands } from "./documented.ts";
import { PROGRAM, ROOT, scratch, tenfold } from "./run.ts";

/** A switch that is given by its geometry, for the command that asks for one. */
const FILM = `film_thickness: 3 nm
electrode_area: 100 nm^2
least_gap: 0.3 nm
most_gap: 0.9 nm
barrier_height: 1 eV
conductive_resistivity: 5e-5 ohm m
hop_distance: 0.3 nm
hop_energy: 1.1 eV
set_voltage: 2.6 V
reset_voltage: 2.6 V
read_voltage: 0.2 V
`;

/** Runs within seconds, and has what every example asks for. */
const memory = (line: string) => `title: A small memory
technology: cmos-65
samples: 64
baseline: static
defaults: {capacity: 16 kib, word: 16 bit}
designs:
  static: {cell: sram-6t}
  hybrid:
    cell:
      switch: ${line.includes(" switch ") ? `{${FILM.trim().replaceAll("\n", ", ")}}` : "oxide-bilayer"}
      selector: {kind: transistor}
sweep: {vary: {temperature: {from: 0 degC, to: 30 degC, points: 16}}, quantities: [read_latency]}
organise:
  design: static
  vary: {rows: [64, 128], column_share: [2, 4]}
  minimise: [macro_area, read_latency]
uncertainty: {quantities: [macro_area], most_draws: 1000}
standby: {period: 10 min, active_time: 2 s, reads: 100, writes: 20}
`;
const PROPOSAL = `title: A proposal
technology: cmos-65
samples: 64
baseline: static
defaults: {capacity: 16 kib, word: 16 bit}
designs:
  static: {cell: sram-6t}
  hybrid: {cell: {switch: oxide-bilayer, selector: {kind: transistor}}}
claims:
  routing:
    sentence: One switch replaces a thousand transistors
    subject: hybrid
    function: routing-switch
    number: 1000
    comparison: at least
`;
const CASE = `rows: 8
columns: 8
wires: {row_resistance: 2.5, column_resistance: 2.5}
kinds: {on: {law: ohmic, resistance: 1.0e+4}}
pattern: {form: same, kind: on}
terminals:
  left: [{lines: [0], voltage: 1, resistance: 100}]
  bottom: [{lines: [7], voltage: 0, resistance: 100}]
`;
const SWITCH = `format: tenfold.switch/1
name: my-switch
title: A film
about: Invented.
values:
${FILM.replace(/^/gm, "  ").trimEnd()}
`;

/** What makes each file that examples name. */
const FILES: Readonly<Record<string, (cwd: string, line: string) => void>> = {
  "memory.yaml": (cwd, line) => writeFileSync(join(cwd, "memory.yaml"), memory(line)),
  "*.yaml": (cwd, line) => writeFileSync(join(cwd, "memory.yaml"), memory(line)),
  "memory/study.yaml": (cwd) => tenfold(["new", "memory"], { cwd }),
  "proposal.yaml": (cwd) => writeFileSync(join(cwd, "proposal.yaml"), PROPOSAL),
  "case.yaml": (cwd) => writeFileSync(join(cwd, "case.yaml"), CASE),
  "my-switch.yaml": (cwd) => writeFileSync(join(cwd, "my-switch.yaml"), SWITCH),
  "times.csv": (cwd) => {
    const args = ["switch", "my-switch.yaml", "--part", "switching_times", "--format", "csv"];
    const rows = tenfold(args, { cwd }).out.trim().split(/\r?\n/);
    const [head, ...body] = rows.map((row) => row.split(","));
    const [v, t] = ["voltage", "set_time"].map((name) => head!.indexOf(name));
    const points = body.map((row) => `${row[v!]},${row[t!]}`);
    writeFileSync(join(cwd, "times.csv"), ["voltage,time", ...points, ""].join("\n"));
  },
  "all.*-of-8.csv": (cwd) => {
    writeFileSync(join(cwd, "memory.yaml"), memory(""));
    for (let k = 1; k <= 8; k++) {
      const args = ["sweep", "memory.yaml", "--out", `all.${k}-of-8.csv`, "--shard", `${k}/8`];
      expect(tenfold([...args, "--workers", "1"], { cwd }).code).toBe(0);
    }
  },
  "kept-aside": (cwd) => {
    mkdirSync(join(cwd, "kept-aside"));
    const name = "sram-65nm-1mb";
    const plan = readFileSync(join(ROOT, "shared/evidence/compared.yaml"), "utf8");
    const [head] = plan.split(/^chips:$/m);
    const chip = new RegExp(`^ {2}${name}:\\n(?: {3,}.*\\n)*`, "m").exec(plan)![0];
    writeFileSync(join(cwd, "kept-aside/compared.yaml"), `${head}chips:\n${chip}`);
    copyFileSync(join(ROOT, `shared/evidence/${name}.yaml`), join(cwd, `kept-aside/${name}.yaml`));
  },
};

/** A folder with the files that a line names, and `tenfold` on the path. */
function folderFor(line: string): { cwd: string; env: NodeJS.ProcessEnv } {
  const cwd = scratch();
  for (const [name, make] of Object.entries(FILES)) {
    if (line.split(" ").includes(name)) make(cwd, line);
  }
  symlinkSync(join(ROOT, "configs"), join(cwd, "configs"), "junction");
  const bin = join(cwd, ".bin");
  mkdirSync(bin);
  writeFileSync(join(bin, "tenfold"), `#!/bin/sh\nexec "${process.execPath}" "${PROGRAM}" "$@"\n`);
  chmodSync(join(bin, "tenfold"), 0o755);
  return { cwd, env: { ...process.env, NO_COLOR: "1", PATH: `${bin}:${process.env["PATH"]}` } };
}

const shown = [...helpExamples(), ...pageCommands(), ...demoCommands()];
const names = COMMANDS.map(({ command }) => String(command).split(" ")[0]!);
/** README.md's blocks are run, and compared, by `.settings/readme.mjs`. */
const readme = readFileSync(join(ROOT, "README.md"), "utf8");
const compared = new Set([...readme.matchAll(/^<!-- run.*?: (.*) -->$/gm)].map(([, line]) => line));

/** Sections of a demo are computed into `reports/`, which is compared byte by byte. */
function reported(line: string): boolean {
  const [, command, name] = /^tenfold (\w+) configs\/([\w-]+)\.yaml/.exec(line) ?? [];
  return ["md", "csv"].some((ending) =>
    existsSync(join(ROOT, `reports/${name}.${command}.${ending}`)),
  );
}

const lines = [...new Set(shown.map(({ line }) => line))].filter((line) => {
  const [program, command, ...rest] = line.split(" ");
  if (program !== "tenfold" || compared.has(line) || line.includes("<")) return false;
  if (reported(line)) return false;
  // A command's name alone, within a sentence, is an example only where it needs no more.
  return rest.length > 0 || ["new", "list", "evidence"].includes(command ?? "");
});

test("the examples are found: some for every command", () => {
  const helped = new Set(helpExamples().map(({ line }) => line.split(" ")[1]));
  expect(names.filter((name) => !helped.has(name))).toEqual([]);
  expect(lines.length).toBeGreaterThan(40);
});

test("every command and every script that a page names is there", () => {
  const { scripts } = JSON.parse(readFileSync(join(ROOT, "package.json"), "utf8"));
  for (const { where, line } of shown) {
    const [program, word, script] = line.split(" ");
    if (program === "tenfold" && /^[a-z]/.test(word ?? "")) expect(names, where).toContain(word);
    if (program === "npm" && word === "run") expect(Object.keys(scripts), where).toContain(script);
  }
});

test("every command whose output README.md shows is compared", () => {
  const blocks = [...readme.matchAll(/(^<!-- run.*? -->\n)?^```\w*\n\$ (.*)\n/gm)];
  expect(blocks.length).toBeGreaterThan(7);
  for (const [, marked, line] of blocks) {
    expect(marked, line).toBeDefined();
    expect(compared).toContain(line);
  }
});

test.skipIf(process.platform === "win32").each(lines)("%s does what it says", (line) => {
  const { cwd, env } = folderFor(line);
  const ran = spawnSync("/bin/sh", ["-c", line], { cwd, env, encoding: "utf8", timeout: 110_000 });
  expect(ran.stderr).not.toMatch(/problems?$|not your fault/m);
  expect(ran.status).toBe(line.includes("--require") ? 1 : 0);
  const out = /(?:--out|--chart|--map|--array-job) (\S+)/.exec(line)?.[1];
  if (out === undefined) expect(ran.stdout.length).toBeGreaterThan(20);
  // What is written at the place that the line names can be read back.
  else
    expect(
      spawnSync("test", ["-s", join(cwd, line.split("--array-job ")[1]?.split(" ")[0] ?? out)])
        .status,
    ).toBe(0);
});
