import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { onTestFinished } from "vitest";

export const ROOT = resolve(import.meta.dirname, "../..");
export const PROGRAM = join(ROOT, "dist/tenfold.js");

if (!existsSync(PROGRAM)) throw new Error("dist/ is missing: npm run build");

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the built program and waits for it. */
export function tenfold(
  args: readonly string[],
  options: { input?: string | Uint8Array; cwd?: string; env?: NodeJS.ProcessEnv } = {},
): Ran {
  const ran = spawnSync(process.execPath, [PROGRAM, ...args], {
    cwd: options.cwd ?? ROOT,
    input: options.input ?? "",
    encoding: "utf8",
    env: { ...process.env, NO_COLOR: "", TENFOLD_DEBUG: "", ...options.env },
    maxBuffer: 64e6,
    timeout: 60_000,
  });
  return { code: ran.status, out: ran.stdout, err: ran.stderr };
}

/** An empty directory that goes with the test. */
export function scratch(): string {
  const directory = mkdtempSync(join(tmpdir(), "tenfold-"));
  onTestFinished(() =>
    rmSync(directory, { recursive: true, force: true, maxRetries: 20, retryDelay: 100 }),
  );
  return directory;
}
