import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { writeFileWhole } from "../../src/io/write.ts";

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
