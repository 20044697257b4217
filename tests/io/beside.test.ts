import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { besideStudy } from "../../src/io/beside.ts";

const folder = mkdtempSync(join(tmpdir(), "tenfold-"));
afterAll(() => rmSync(folder, { recursive: true }));

mkdirSync(join(folder, "in/sub"), { recursive: true });
writeFileSync(join(folder, "outside.yaml"), "");
writeFileSync(join(folder, "in/sub/entry.yaml"), "");
symlinkSync("../outside.yaml", join(folder, "in/link.yaml"));
symlinkSync("sub/entry.yaml", join(folder, "in/inner-link.yaml"));
const study = join(folder, "in/study.yaml");

test.each(["sub/entry.yaml", "./sub/../sub/entry.yaml", "inner-link.yaml", "..odd.yaml"])(
  "%s is within the folder of the study",
  async (name) => {
    expect(await besideStudy(study, name)).toBe(join(folder, "in", name));
  },
);

test.each([
  "../outside.yaml",
  "sub/../../outside.yaml",
  "link.yaml",
  "..",
  "/etc/passwd",
  "a\0b.yaml",
])("%s is not", async (name) => {
  await expect(besideStudy(study, name)).rejects.toMatchObject({
    problems: [{ code: "path-outside" }],
  });
});
