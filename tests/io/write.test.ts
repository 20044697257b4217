import { spawnSync } from "node:child_process";
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { fillFileWhole, writeFilesWhole, writeFileWhole } from "../../src/io/write.ts";

const folder = mkdtempSync(join(tmpdir(), "tenfold-"));
afterAll(() => rmSync(folder, { recursive: true }));

test("of writers that want one new name, one gets it whole and the others are refused", async () => {
  const path = join(folder, "deep/result.txt");
  const texts = Array.from({ length: 8 }, (_, i) => `${i}`.repeat(100_000));
  const done = await Promise.allSettled(texts.map((text) => writeFileWhole(path, text)));
  expect(done.filter(({ status }) => status === "fulfilled")).toHaveLength(1);
  expect(texts).toContain(readFileSync(path, "utf8"));
  expect(readdirSync(join(folder, "deep"))).toEqual(["result.txt"]);
});

test("with force the last one stands, whole", async () => {
  const path = join(folder, "forced.txt");
  await writeFileWhole(path, "first");
  await writeFileWhole(path, "second", { force: true });
  expect(readFileSync(path, "utf8")).toBe("second");
});

test("a refused write leaves no trace", async () => {
  const path = join(folder, "kept.txt");
  await writeFileWhole(path, "kept");
  await expect(writeFileWhole(path, "lost")).rejects.toMatchObject({
    problems: [{ code: "file-exists" }],
  });
  expect(readFileSync(path, "utf8")).toBe("kept");
  expect(readdirSync(folder).filter((name) => name.includes("tmp"))).toEqual([]);
});

const trace = (where: string) => readdirSync(where, { recursive: true, encoding: "utf8" }).sort();
const coded = (code: string) => ({ problems: [expect.objectContaining({ code })] });

test("a link is neither followed nor replaced, whether it leads somewhere or not", async () => {
  const own = join(folder, "links");
  mkdirSync(own);
  writeFileSync(join(own, "victim"), "whole");
  symlinkSync("victim", join(own, "link"));
  symlinkSync("nothing", join(own, "dangling"));
  for (const name of ["link", "dangling"]) {
    for (const force of [false, true]) {
      await expect(writeFileWhole(join(own, name), "x", { force })).rejects.toMatchObject(
        coded("file-not-regular"),
      );
    }
  }
  expect(readFileSync(join(own, "victim"), "utf8")).toBe("whole");
  expect(trace(own)).toEqual(["dangling", "link", "victim"]);
});

test("a directory and a pipe are not replaced, even with force", async () => {
  // A pipe of our own: were the guard broken, root would replace a device of the system.
  const pipe = join(folder, "pipe");
  const made = spawnSync("mkfifo", [pipe]).status === 0;
  for (const path of [folder, ...(made ? [pipe] : [])]) {
    await expect(writeFileWhole(path, "x", { force: true })).rejects.toMatchObject(
      coded("file-not-regular"),
    );
  }
});

test("a file that is replaced keeps who may read it", async () => {
  const path = join(folder, "private.txt");
  await writeFileWhole(path, "first");
  chmodSync(path, 0o600);
  await writeFileWhole(path, "second", { force: true });
  expect(statSync(path).mode & 0o777).toBe(process.platform === "win32" ? 0o666 : 0o600);
});

test("a file where a folder is needed is said as that, not as the output being there", async () => {
  writeFileSync(join(folder, "file"), "");
  for (const name of ["file/x.txt", "file/deep/x.txt"]) {
    await expect(writeFileWhole(join(folder, name), "x")).rejects.toMatchObject({
      exitCode: 3,
      ...coded("file-unwritable"),
    });
  }
});

test.skipIf(!existsSync("/proc/self"))("below /proc it ends, with the reason", async () => {
  // node's recursive mkdir goes on for ever there.
  await expect(writeFileWhole("/proc/nothing/deep/x.txt", "x")).rejects.toMatchObject(
    coded("file-unwritable"),
  );
});

test("a content that fails midway leaves the old file whole and no other", async () => {
  const own = join(folder, "midway");
  await writeFileWhole(join(own, "a"), "old");
  const fill = async (handle: { writeFile(text: string): Promise<void> }) => {
    await handle.writeFile("half");
    throw new Error("midway");
  };
  await expect(fillFileWhole(join(own, "a"), fill, { force: true })).rejects.toThrow("midway");
  expect(readFileSync(join(own, "a"), "utf8")).toBe("old");
  expect(trace(own)).toEqual(["a"]);
});

describe("several files", () => {
  const set = (text: string) => new Map(["a.txt", "sub/b.txt", "c.txt"].map((n) => [n, text]));
  const at = (name: string) => join(folder, "several", name);

  test("are written whole, and again with force", async () => {
    for (const text of ["one", "two"]) {
      await writeFilesWhole(at("good"), set(text), { force: text === "two" });
      for (const name of set("").keys()) {
        expect(readFileSync(join(at("good"), name), "utf8")).toBe(text);
      }
    }
  });

  test.each([
    ["the last one is there", (own: string) => writeFileSync(join(own, "c.txt"), "mine"), false],
    ["the last one is a directory", (own: string) => mkdirSync(join(own, "c.txt")), true],
    ["a folder of theirs is a file", (own: string) => writeFileSync(join(own, "sub"), ""), true],
    ["a folder of theirs is a link", (own: string) => symlinkSync(folder, join(own, "sub")), true],
  ])("are not written at all where %s", async (name, put, force) => {
    const own = at(name);
    mkdirSync(own, { recursive: true });
    writeFileSync(join(own, "other"), "");
    put(own);
    const before = trace(own);
    await expect(writeFilesWhole(own, set("new"), { force })).rejects.toThrow(/file-/);
    expect(trace(own)).toEqual(before);
    expect(existsSync(join(folder, "b.txt"))).toBe(false);
  });

  test("leave every old file as it was where the last can't be written", async () => {
    const own = at("tail");
    await writeFilesWhole(own, set("old"));
    const files = new Map([...set("new"), [`${"x".repeat(300)}/d.txt`, "new"]]);
    await expect(writeFilesWhole(own, files, { force: true })).rejects.toMatchObject(
      coded("file-unwritable"),
    );
    for (const name of set("").keys()) {
      expect(readFileSync(join(own, name), "utf8")).toBe("old");
    }
    expect(trace(own)).toEqual(["a.txt", "c.txt", "sub", "sub/b.txt"]);
  });
});
