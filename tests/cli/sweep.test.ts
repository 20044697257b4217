import { spawn, spawnSync } from "node:child_process";
import { chmodSync, existsSync, mkdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { asyncBufferFromFile, parquetMetadataAsync, parquetReadObjects } from "hyparquet";
import { describe, expect, onTestFinished, test } from "vitest";
import { PROGRAM, scratch, tenfold } from "./run.ts";

const STUDY = `title: Swept
samples: 64
defaults: {capacity: 64 Kib, word: 32 bit}
designs:
  static: {cell: sram-6t}
  resistive:
    cell: {switch: oxide-bilayer, selector: transistor}
sweep:
  vary:
    rows: [256, 128, 64]
    on_resistance: {from: 1 kohm, to: 100 kohm, points: 10, spacing: logarithmic}
    designs.resistive.cell.switch: [oxide-bilayer, oxide-filament]
    temperature: {from: 0 degC, to: 80 degC, points: POINTS}
  where: ["rows >= 100", "macro_area < 1 mm^2"]
  quantities: [macro_area, read_latency]
`;

function study(directory: string, points: number): string {
  const path = join(directory, "study.yaml");
  writeFileSync(path, STUDY.replace("POINTS", String(points)));
  return path;
}
const bytes = (path: string) => readFileSync(path);
const run = (...args: string[]) => {
  const ran = tenfold(args);
  expect(ran.err).not.toMatch(/failed, and it is not your fault/);
  return ran;
};

describe.each(["csv", "jsonl", "parquet"])("a sweep to %s", (ending) => {
  test("has the same bytes from 1 and 2 workers, and from parts that are merged", () => {
    const directory = scratch();
    const file = study(directory, 480);
    const at = (name: string) => join(directory, `${name}.${ending}`);
    const sweep = (name: string, ...more: string[]) =>
      expect(run("sweep", file, "--out", at(name), ...more).code).toBe(0);
    sweep("one", "--workers", "1");
    sweep("two", "--workers", "2");
    expect(bytes(at("two")).equals(bytes(at("one")))).toBe(true);
    for (const parts of ending === "csv" ? [1, 2, 7] : [2]) {
      const names = Array.from({ length: parts }, (_, i) => `${i + 1}-of-${parts}`);
      for (const [i, name] of names.entries()) sweep(name, "--shard", `${i + 1}/${parts}`);
      // The order in which parts are named makes no difference.
      const merged = run("merge", ...names.reverse().map(at), "--out", at(`merged-${parts}`));
      expect(merged.code).toBe(0);
      expect(bytes(at(`merged-${parts}`)).equals(bytes(at("one")))).toBe(true);
    }
  }, 240_000);
});

test("a sweep's figures are those of `estimate` with the same values", async () => {
  const directory = scratch();
  const file = study(directory, 3);
  const out = join(directory, "all.parquet");
  expect(run("sweep", file, "--out", out).code).toBe(0);
  const buffer = await asyncBufferFromFile(out);
  const head = (await parquetMetadataAsync(buffer)).key_value_metadata!.find(
    ({ key }) => key === "tenfold",
  );
  expect(JSON.parse(head!.value!)).toMatchObject({
    format: "tenfold.sweep/1",
    seed: 1,
    points: 180,
  });
  const rows = await parquetReadObjects({ file: buffer });
  // Hot and with a high on resistance the sense amplifiers outgrow the condition on the area.
  expect(rows.length).toBeGreaterThan(2 * 120 - 12);
  expect(rows.length).toBeLessThanOrEqual(2 * 120);
  const row = rows.find(
    (one) =>
      one["design"] === "resistive" &&
      one["designs.resistive.cell.switch"] === "oxide-filament" &&
      one["rows"] === 256 &&
      one["temperature"] === 313.15 &&
      one["on_resistance"] === 1000,
  )!;
  const set = [
    "designs.resistive.cell.switch=oxide-filament",
    "designs.resistive.cell.switch.on_resistance=1000 ohm",
    "designs.resistive.tile.rows=256",
    "temperature=313.15 K",
  ].flatMap((one) => ["--set", one]);
  const data = JSON.parse(run("estimate", file, "--format", "json", ...set).out);
  const { quantities } = data.designs[1];
  expect(row["macro_area"]).toBe(quantities.macro_area.value);
  expect(row["read_latency"]).toBe(quantities.read_latency.value);
});

test("CSV and JSON lines hold the same values as Parquet, and say where they come from", async () => {
  const directory = scratch();
  const file = study(directory, 3);
  const at = (ending: string) => join(directory, `all.${ending}`);
  for (const ending of ["csv", "jsonl", "parquet"]) run("sweep", file, "--out", at(ending));
  const parquet = await parquetReadObjects({ file: await asyncBufferFromFile(at("parquet")) });
  const [comment, names, ...lines] = bytes(at("csv")).toString().trimEnd().split("\r\n");
  expect(JSON.parse(comment!.replace("# tenfold ", ""))).toMatchObject({ title: "Swept", set: [] });
  const [head, ...objects] = bytes(at("jsonl")).toString().trimEnd().split("\n");
  expect(JSON.parse(head!).sha256).toMatch(/^[0-9a-f]{64}$/);
  expect(lines).toHaveLength(parquet.length);
  for (const [i, line] of lines.entries()) {
    const cells = line.split(",");
    const object = JSON.parse(objects[i]!);
    for (const [k, name] of names!.split(",").entries()) {
      const value = parquet[i]![name] ?? "";
      expect(cells[k]).toBe(String(value));
      expect(String(object[name] ?? "")).toBe(String(value));
    }
  }
});

/** Starts a sweep, waits until some of it is on the disk, then sends the signal. */
async function stopped(file: string, out: string, signal: NodeJS.Signals): Promise<number | null> {
  const child = spawn(process.execPath, [PROGRAM, "sweep", file, "--out", out, "--workers", "2"], {
    stdio: "ignore",
  });
  const ended = new Promise<number | null>((resolve) => child.on("exit", resolve));
  const mark = `${out}.part.mark`;
  while (!existsSync(mark) || JSON.parse(readFileSync(mark, "utf8")).chunks < 1) {
    if (child.exitCode !== null) break;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  child.kill(signal);
  return ended;
}

test.each(["SIGKILL", "SIGTERM"] as const)(
  "after %s in the middle, --resume gives the bytes of an undisturbed run",
  async (signal) => {
    const directory = scratch();
    const file = study(directory, 1200);
    const out = join(directory, "cut.csv");
    const whole = join(directory, "whole.csv");
    const code = await stopped(file, out, signal);
    expect(code).toBe(signal === "SIGTERM" ? 3 : null);
    expect(existsSync(out)).toBe(false);
    const again = run("sweep", file, "--out", out);
    expect(again.code).toBe(2);
    expect(again.err).toMatch(/holds an unfinished output[\s\S]*--resume/);
    const other = run("sweep", file, "--out", out, "--resume", "--seed", "2");
    expect(other.err).toMatch(/of another study, of other values or of another version/);
    const before = statSync(`${out}.part`).size;
    expect(before).toBeGreaterThan(1e5);
    expect(run("sweep", file, "--out", out, "--resume").code).toBe(0);
    expect(run("sweep", file, "--out", whole).code).toBe(0);
    expect(bytes(out).equals(bytes(whole))).toBe(true);
    expect(existsSync(`${out}.part`)).toBe(false);
    expect(existsSync(`${out}.part.mark`)).toBe(false);
  },
  240_000,
);

test("a full disk is said clearly, and what was finished is gone on with", (context) => {
  const directory = scratch();
  const disk = join(directory, "disk");
  mkdirSync(disk);
  const mount = (...options: string[]) =>
    spawnSync("mount", ["-t", "tmpfs", "-o", options.join(","), "tmpfs", disk]).status === 0;
  if (!mount("size=2m")) {
    console.error("SKIPPED: a full disk can't be made here, mounting needs root");
    if (process.env["CI"]) throw new Error("CI must be able to mount a small disk");
    return context.skip();
  }
  onTestFinished(() => void spawnSync("umount", [disk]));
  const file = study(directory, 1200);
  const out = join(disk, "x.csv");
  const full = run("sweep", file, "--out", out);
  expect(full.code).toBe(3);
  expect(full.err).toMatch(/can't be written: the disk is full[\s\S]*--resume/);
  expect(statSync(`${out}.part`).size).toBeGreaterThan(1e6);
  expect(mount("remount", "size=200m")).toBe(true);
  expect(run("sweep", file, "--out", out, "--resume").code).toBe(0);
  const whole = join(directory, "whole.csv");
  run("sweep", file, "--out", whole);
  expect(bytes(out).equals(bytes(whole))).toBe(true);
}, 240_000);

test("a directory that can't be written to is said clearly", () => {
  const directory = scratch();
  const file = study(directory, 3);
  const { code, err } = run("sweep", file, "--out", join(file, "x.csv"));
  expect(code).toBe(3);
  expect(err).toMatch(/x\.csv can't be written: a file lies in the way/);
  // Nothing is closed to root, who therefore runs the program as nobody.
  const locked = join(directory, "locked");
  mkdirSync(locked, { mode: 0o555 });
  chmodSync(directory, 0o755);
  const nobody = process.getuid?.() === 0 ? { uid: 65534, gid: 65534 } : {};
  const ran = spawnSync(
    process.execPath,
    [PROGRAM, "sweep", file, "--out", join(locked, "x.csv")],
    {
      ...nobody,
      encoding: "utf8",
    },
  );
  expect(ran.stderr).toMatch(/x\.csv\S* can't be written: permission denied/);
  expect(ran.status).toBe(3);
});

test("mistakes in the section are told with their places and the nearest word", () => {
  const directory = scratch();
  const path = join(directory, "bad.yaml");
  const wrong = (text: string) => {
    writeFileSync(path, STUDY.slice(0, STUDY.indexOf("sweep:")) + text);
    const { code, err } = run("sweep", path, "--out", join(directory, "x.csv"));
    expect(code).toBe(2);
    return err;
  };
  expect(wrong("sweep: {vary: {on_resistence: [1 kohm]}}\n")).toMatch(
    /bad\.yaml:8:\d+[\s\S]*did you mean: on_resistance/,
  );
  expect(wrong("sweep: {vary: {on_resistance: [1 V]}}\n")).toMatch(
    /bad\.yaml:8:\d+: on_resistance/,
  );
  expect(wrong("sweep: {vary: {rows: {from: 1, to: 9}}}\n")).toMatch(/either `points` or `step`/);
  expect(wrong("sweep: {vary: {rows: [64]}, where: [row > 2]}\n")).toMatch(/did you mean: rows/);
  expect(wrong("sweep: {vary: {rows: [64]}, where: [rows > 2 V]}\n")).toMatch(
    /cannot compare with >/,
  );
  expect(wrong("sweep: {vary: {rows: [64]}, quantities: [macro_aera]}\n")).toMatch(
    /did you mean: macro_area/,
  );
  expect(wrong("sweep: {designs: [statik], vary: {rows: [64]}}\n")).toMatch(/did you mean: static/);
  expect(wrong("sweep: {points: [{rows: 64}, {columns: 3}]}\n")).toMatch(
    /other names than the first/,
  );
  expect(wrong("title_: x\n")).toMatch(/did you mean: title/);
});

test("parts that don't belong together are refused", () => {
  const directory = scratch();
  const file = study(directory, 480);
  const at = (name: string) => join(directory, `${name}.csv`);
  run("sweep", file, "--out", at("a"), "--shard", "1/2");
  run("sweep", file, "--out", at("b"), "--shard", "2/2", "--seed", "2");
  const merge = (...names: string[]) => run("merge", ...names.map(at), "--out", at("all")).err;
  expect(merge("a")).toMatch(/these are missing: 2/);
  expect(merge("a", "b")).toMatch(/not parts of the same sweep/);
  expect(merge("a", "a")).toMatch(/missing: 2/);
  expect(merge("a", "none")).toMatch(/is not there/);
  expect(run("merge", file, "--out", at("all")).err).toMatch(/another form/);
  expect(run("sweep", file, "--out", at("c"), "--shard", "3/2").err).toMatch(
    /--shard can't be 3\/2/,
  );
});
