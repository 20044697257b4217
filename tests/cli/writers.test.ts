import { spawnSync } from "node:child_process";
import {
  copyFileSync,
  existsSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { PROGRAM, ROOT, scratch, tenfold } from "./run.ts";

const STUDY = `title: Small
technology: cmos-65
samples: 64
defaults: {capacity: 16 kib, word: 16 bit}
designs:
  static: {cell: sram-6t}
  mine:
    cell: {switch: oxide-bilayer, selector: {kind: transistor}}
sweep:
  vary: {temperature: [20 degC, 40 degC]}
organise:
  design: static
  vary: {rows: [64, 128, 256], column_share: [2, 4, 8]}
  minimise: [macro_area, read_latency]
standby: {period: 10 min, active_time: 2 s, reads: 100, writes: 20}
claims:
  one: {sentence: One, subject: mine, function: memory-sram-6t, number: 2, comparison: at least}
`;
const CASE = `rows: 4
columns: 4
wires: {row_resistance: 2.5, column_resistance: 2.5}
kinds: {a: {law: ohmic, resistance: 1.0e+4}}
pattern: {form: same, kind: a}
terminals:
  left: [{lines: [0], voltage: 1, resistance: 100}]
  bottom: [{lines: [3], voltage: 0, resistance: 100}]
`;
/** Each command that writes, with one of its files. */
const WRITERS: readonly (readonly [file: string, command: string])[] = [
  ["o.md", "estimate s.yaml --out o.md"],
  ["o.html", "compare s.yaml --out o.html"],
  ["o.tex", "explain s.yaml macro_area --out o.tex"],
  ["o.csv", "standby s.yaml --out o.csv"],
  ["o.bib", "sources s.yaml --format bibtex --out o.bib"],
  ["o.json", "claim s.yaml --out o.json"],
  ["o.txt", "list --out o.txt"],
  ["o.txt", "show cmos-65 --out o.txt"],
  ["o.json", "schema --out o.json"],
  ["o.md", "solve case.yaml --out o.md"],
  ["o.svg", "solve case.yaml --map o.svg"],
  ["study.yaml", "new"],
  ["study.schema.json", "new"],
  ["o.html", "explore s.yaml --out o.html"],
  ["r/report.tex", "report s.yaml --out r"],
  ["r/tables/comparison.csv", "report s.yaml --out r"],
  ["o.svg", "organise s.yaml --chart o.svg"],
  ["o.svg", "switch film.yaml --chart o.svg"],
  ["o.csv", "sweep s.yaml --out o.csv"],
  ["o.parquet", "sweep s.yaml --out o.parquet --workers 1"],
  ["job.sh", "sweep s.yaml --out o.csv --array-job job.sh"],
  ["o.csv", "merge p.1-of-2.csv p.2-of-2.csv --out o.csv"],
  ["o.parquet", "merge p.1-of-2.parquet p.2-of-2.parquet --out o.parquet"],
];

const parts = new Map<string, Buffer>();

beforeAll(() => {
  const cwd = join(ROOT, `writers.${process.pid}.tmp`);
  mkdirSync(cwd);
  try {
    writeFileSync(join(cwd, "s.yaml"), STUDY);
    for (const form of ["csv", "parquet"]) {
      for (const k of [1, 2]) {
        const name = `p.${k}-of-2.${form}`;
        expect(tenfold(["sweep", "s.yaml", "--out", name, "--shard", `${k}/2`], { cwd }).code).toBe(
          0,
        );
        parts.set(name, readFileSync(join(cwd, name)));
      }
    }
  } finally {
    rmSync(cwd, { recursive: true });
  }
}, 60_000);

/** A folder with all that the commands read, and an old file where one writes. */
function folderWith(file: string): string {
  const cwd = scratch();
  writeFileSync(join(cwd, "s.yaml"), STUDY);
  writeFileSync(join(cwd, "case.yaml"), CASE);
  copyFileSync(join(ROOT, "configs/tarn-film.yaml"), join(cwd, "film.yaml"));
  for (const [name, bytes] of parts) writeFileSync(join(cwd, name), bytes);
  mkdirSync(join(cwd, file, ".."), { recursive: true });
  writeFileSync(join(cwd, file), "mine");
  return cwd;
}

const filesOf = (cwd: string) =>
  readdirSync(cwd, { recursive: true, encoding: "utf8" })
    .filter((name) => lstatSync(join(cwd, name)).isFile())
    .sort();

describe.each(WRITERS)("%s of tenfold %s", (file, command) => {
  test("is kept where it is there, and nothing else is written", () => {
    const cwd = folderWith(file);
    const there = filesOf(cwd);
    const { code, err } = tenfold(command.split(" "), { cwd });
    expect(err).toContain("--force");
    expect(code).toBe(2);
    expect(readFileSync(join(cwd, file), "utf8")).toBe("mine");
    expect(filesOf(cwd)).toEqual(there);
  });

  // A limit on the size of files refuses every byte, as a full disk does.
  test.skipIf(!existsSync("/bin/sh"))("is whole after --force on a full disk", () => {
    const cwd = folderWith(file);
    const there = filesOf(cwd);
    const line = `ulimit -f 0; exec "$0" "$@"`;
    const args = [process.execPath, PROGRAM, ...command.split(" "), "--force"];
    const { status, stderr } = spawnSync("/bin/sh", ["-c", line, ...args], {
      cwd,
      encoding: "utf8",
    });
    expect(stderr).toContain("it is larger than files may be here");
    expect(status).toBe(3);
    expect(readFileSync(join(cwd, file), "utf8")).toBe("mine");
    // A sweep keeps what it has under its own name, to go on with.
    const own = filesOf(cwd).filter((name) => !/^o\.\w+\.part(\.mark)?(\.tmp)?$/.test(name));
    expect(own).toEqual(there);
  });
});

test("no link in a folder of results leads a report out of it, even with --force", () => {
  const cwd = folderWith("r/other");
  mkdirSync(join(cwd, "outside"));
  symlinkSync("../outside", join(cwd, "r/charts"));
  const { code, err } = tenfold(["report", "s.yaml", "--out", "r", "--force"], { cwd });
  expect(err).toContain("is a link");
  expect(code).toBe(2);
  expect(readdirSync(join(cwd, "outside"))).toEqual([]);
  expect(readdirSync(join(cwd, "r")).sort()).toEqual(["charts", "other"]);
});

test.each(["o.csv", "o.csv.part", "o.csv.part.mark.tmp"])(
  "a link at %s leads no sweep out, even with --force",
  (name) => {
    const cwd = folderWith("victim");
    symlinkSync("victim", join(cwd, name));
    const { code } = tenfold(["sweep", "s.yaml", "--out", "o.csv", "--force"], { cwd });
    expect(code).toBeGreaterThanOrEqual(2);
    expect(readFileSync(join(cwd, "victim"), "utf8")).toBe("mine");
  },
);

test("a sweep leaves alone a file that only has the name of an unfinished output", () => {
  const cwd = folderWith("o.csv.part");
  for (const more of [[], ["--resume"]]) {
    const { code, err } = tenfold(["sweep", "s.yaml", "--out", "o.csv", ...more], { cwd });
    expect(err).toContain("o.csv.part is there already");
    expect(code).toBe(2);
    expect(readFileSync(join(cwd, "o.csv.part"), "utf8")).toBe("mine");
  }
});

test("an unfinished output that was cut is not gone on with", () => {
  const cwd = folderWith("victim");
  // On a full disk the sweep stops before its first row.
  writeFileSync(join(cwd, "o.csv.part"), "");
  writeFileSync(join(cwd, "o.csv.part.mark"), `{"identity":"x","chunks":1,"bytes":1000}`);
  const other = tenfold(["sweep", "s.yaml", "--out", "o.csv", "--resume"], { cwd });
  expect(other.err).toContain("is of another study");
  const identity = parts
    .get("p.1-of-2.csv")!
    .toString()
    .split("\r\n")[0]!
    .slice("# tenfold ".length);
  writeFileSync(join(cwd, "o.csv.part.mark"), JSON.stringify({ identity, chunks: 1, bytes: 1e6 }));
  const args = ["sweep", "s.yaml", "--out", "o.csv", "--shard", "1/2", "--resume"];
  const cut = tenfold(args, { cwd });
  expect(cut.err).toContain("holds less than was written");
  expect(cut.code).toBe(2);
});

test.each(["__proto__", "[]", '{"identity":"x","chunks":-1,"bytes":"all"}', "{}", ""])(
  "a mark that says %s is none",
  (text) => {
    const cwd = folderWith("victim");
    writeFileSync(join(cwd, "o.csv.part.mark"), text);
    const { code, err } = tenfold(["sweep", "s.yaml", "--out", "o.csv", "--resume"], { cwd });
    expect(err).toContain("o.csv: 2 points");
    expect(code).toBe(0);
  },
);

test("only these files of the source write anything", () => {
  const writing = /\b(?:writeFile|appendFile|createWriteStream|copyFile|symlink|rename|mkdir)\w*\(/;
  const found = readdirSync(join(ROOT, "src"), { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".ts"))
    .filter((name) => {
      const text = readFileSync(join(ROOT, "src", name), "utf8");
      return text.includes("node:fs") && writing.test(text);
    });
  expect(found.map((name) => name.replaceAll("\\", "/")).sort()).toEqual([
    "io/folders.ts",
    // The build's own.
    "io/prepared.ts",
    "io/sweep/merge.ts",
    "io/sweep/parquet.ts",
    "io/sweep/part.ts",
    "io/write.ts",
  ]);
});
