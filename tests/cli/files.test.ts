import { spawnSync } from "node:child_process";
import {
  chmodSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { scratch, tenfold } from "./run.ts";

test("new writes a study that check accepts, and its schema", () => {
  const cwd = scratch();
  const made = tenfold(["new", "memory"], { cwd });
  expect(made).toMatchObject({ code: 0, out: "memory/study.yaml\nmemory/study.schema.json\n" });
  expect(readFileSync(join(cwd, "memory/study.yaml"), "utf8")).toMatch(
    /^# yaml-language-server: \$schema=\.\/study\.schema\.json\n/,
  );
  expect(tenfold(["check", "memory/study.yaml"], { cwd })).toEqual({
    code: 0,
    out: "memory/study.yaml: a study without mistakes\n",
    err: "",
  });
});

test("an existing file is kept unless --force is said, byte for byte", () => {
  const cwd = scratch();
  writeFileSync(join(cwd, "study.yaml"), "mine");
  const refused = tenfold(["new"], { cwd });
  expect(refused.code).toBe(2);
  expect(refused.err).toContain("--force");
  expect(readFileSync(join(cwd, "study.yaml"), "utf8")).toBe("mine");
  expect(readdirSync(cwd)).toEqual(["study.yaml"]);
  expect(tenfold(["new", "--force"], { cwd }).code).toBe(0);
  expect(readFileSync(join(cwd, "study.yaml"), "utf8")).not.toBe("mine");
});

test("--out writes what standard output would get, in the format that the ending says", () => {
  const cwd = scratch();
  for (const [ending, format] of [
    ["txt", "table"],
    ["md", "markdown"],
    ["csv", "csv"],
    ["json", "json"],
    ["tex", "latex"],
    ["html", "html"],
  ] as const) {
    const file = `deep/er/result.${ending}`;
    expect(tenfold(["list", "technology", "--out", file], { cwd })).toEqual({
      code: 0,
      out: "",
      err: "",
    });
    const direct = tenfold(["list", "technology", "--format", format], { cwd });
    expect(readFileSync(join(cwd, file), "utf8")).toBe(direct.out);
  }
  expect(readdirSync(join(cwd, "deep/er")).filter((name) => name.includes("tmp"))).toEqual([]);
});

test("check reads standard input for a lone dash", () => {
  const good = tenfold(["check", "-"], {
    input: "title: x\ndesigns:\n  a: {cell: sram-6t, capacity: 1 Mib, word: 32 bit}\n",
  });
  expect(good).toMatchObject({ code: 0, out: "standard input: a study without mistakes\n" });
  const bad = tenfold(["check", "-"], { input: "title: x\ndesings: {}\n" });
  expect(bad.code).toBe(2);
  expect(bad.out).toContain("standard input:2:1: ");
  expect(bad.out).toContain("did you mean: designs");
});

test("check reports all files, and all mistakes of each, in one run", () => {
  const cwd = scratch();
  writeFileSync(
    join(cwd, "a.yaml"),
    "title: x\ntechnolgy: cmos-65\ndesigns:\n  d: {cel: sram-6t}\n",
  );
  const { code, out } = tenfold(["check", "a.yaml", "missing.yaml"], { cwd });
  expect(code).toBe(2);
  expect(out).toContain("a.yaml:2:1");
  expect(out).toContain("did you mean: technology");
  expect(out).toContain("did you mean: cell");
  expect(out).toContain("there is no file missing.yaml");
});

test("check --format json gives places that an editor can use", () => {
  const { code, out } = tenfold(["check", "-", "--format", "json"], {
    input: "title: x\nfoo: 1\n",
  });
  expect(code).toBe(2);
  const { format, files } = JSON.parse(out);
  expect(format).toBe("tenfold.check/1");
  expect(files[0].problems).toContainEqual(
    expect.objectContaining({ code: "unknown-key", line: 2, column: 1 }),
  );
});

test("an entry of the catalogue is checked as its kind", () => {
  const { out, code } = tenfold(["check", "shared/switches/oxide-bilayer.yaml"]);
  expect(out).toBe("shared/switches/oxide-bilayer.yaml: a switch without mistakes\n");
  expect(code).toBe(0);
});

test.each([
  ["an empty file", ""],
  ["UTF-16", "\ufeff\u0074\u0000"],
  ["a zero byte", "title: \u0000"],
  ["a tab for an indent", "designs:\n\ta: 1\n"],
  ["two documents", "title: a\n---\ntitle: b\n"],
  ["a duplicate key", "title: a\ntitle: b\n"],
  [
    "an alias bomb",
    `a: &a [x, x]\n${"bcdefgh".replace(/./g, (c, i: number) => `${c}: &${c} [${`*${"abcdefg"[i]}, `.repeat(9)}]\n`)}`,
  ],
  ["a prototype key", "title: a\n__proto__: {x: 1}\nconstructor: 2\n"],
  ["deep nesting", `title: ${"[".repeat(5000)}`],
  ["a tag", "title: !!js/function 'x'\n"],
])("a file with %s is refused with code 2, in plain words", (_, text) => {
  const { code, out, err } = tenfold(["check", "-"], { input: text });
  expect(code).toBe(2);
  expect(err).toBe("");
  expect(out).toMatch(/\d+ problems?\n$/);
  expect(out).not.toMatch(/not your fault|\bat .*\.js/);
});

test("bytes that are no UTF-8 are refused with their line", () => {
  const bytes = Buffer.concat([Buffer.from("title: x\nabout: "), Buffer.from([0xe4, 0xf6, 0x0a])]);
  const { code, out } = tenfold(["check", "-"], { input: bytes });
  expect(code).toBe(2);
  expect(out).toContain("standard input:2:1: ");
  expect(out).toContain("UTF-8");
});

test("a file of 100 MB is refused before it is read, and so is one from a pipe", () => {
  const cwd = scratch();
  writeFileSync(join(cwd, "big.yaml"), "");
  spawnSync("truncate", ["-s", "100M", join(cwd, "big.yaml")]);
  const from = performance.now();
  const { code, out } = tenfold(["check", "big.yaml"], { cwd });
  expect(performance.now() - from).toBeLessThan(5_000);
  expect(code).toBe(2);
  expect(out).toContain("100 MiB");
  const piped = tenfold(["check", "-"], { input: Buffer.alloc(20 * 1024 * 1024, 0x20) });
  expect(piped.code).toBe(2);
  expect(piped.out).toContain("standard input");
});

test("a directory, a device and a file without permission are told apart", () => {
  const cwd = scratch();
  mkdirSync(join(cwd, "folder"));
  expect(tenfold(["check", "folder"], { cwd }).out).toContain("folder is a directory");
  if (existsSync("/dev/zero")) {
    expect(tenfold(["check", "/dev/zero"], { cwd }).out).toContain("a device or socket");
  }
  writeFileSync(join(cwd, "secret.yaml"), "title: x\n");
  chmodSync(join(cwd, "secret.yaml"), 0);
  // The superuser may read everything.
  if (process.getuid?.() !== 0) {
    expect(tenfold(["check", "secret.yaml"], { cwd }).out).toContain("permission denied");
  }
});

test("output that can't be written ends with code 3 and the reason", () => {
  const cwd = scratch();
  writeFileSync(join(cwd, "file"), "");
  const { code, err } = tenfold(["list", "--out", "file/under/it.txt"], { cwd });
  expect(code).toBe(3);
  expect(err).toContain("a part of its path is no directory");
  if (existsSync("/dev/full")) {
    const full = spawnSync("sh", ["-c", `"${process.execPath}" dist/tenfold.js list > /dev/full`], {
      encoding: "utf8",
    });
    expect(full.status).toBe(3);
    expect(full.stderr).toContain("the disk is full");
  }
});

test("the schema is JSON Schema that names the keys of a study", () => {
  const schema = JSON.parse(tenfold(["schema"]).out);
  expect(schema.$schema).toContain("2020-12");
  expect(Object.keys(schema.properties)).toContain("designs");
});

test("show gives value, source and basis, as text and as data", () => {
  const text = tenfold(["show", "cmos-65"]).out;
  expect(text).toContain("supply");
  const data = JSON.parse(tenfold(["show", "cmos-65", "--format", "json"]).out);
  expect(data.values.supply).toMatchObject({ unit: "V", source: expect.any(String) });
});
