/** Studies that nobody would write: no crash, no figure that cannot be, every refusal in its place. Nightly: `npm run nightly`. */
import { spawnSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { judge } from "../fuzz/judge.ts";
import { ROOT } from "./run.ts";

const FINDINGS = join(ROOT, "tests/fuzz/findings");

test("2000 generated studies give figures that can be, or refusals with a place and exit code 2", () => {
  // A machine that runs other checks too gets ten seconds of processor time for a case, the nightly run two.
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    ["tests/fuzz/run.mjs", "--cases", "2000", "--seed", "20261125", "--seconds", "10"],
    { cwd: ROOT, encoding: "utf8", maxBuffer: 64e6 },
  );
  expect(stderr).toBe("");
  expect(status, stdout.slice(0, 20_000)).toBe(0);
}, 600_000);

describe("what once was a finding", () => {
  const files = readdirSync(FINDINGS).filter((name) => name.endsWith(".yaml"));
  test.each(files)("%s is none any more", async (file) => {
    // Crossbars and switches have their kind before their name.
    const kind = (["crossbar", "switch"] as const).find((one) => file.startsWith(`${one}-`));
    const text = readFileSync(join(FINDINGS, file), "utf8");
    const { outcome, why } = await judge(kind ?? "study", text);
    expect(["figures", "broken", "refused"], why).toContain(outcome);
  });
});
