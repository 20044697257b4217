import { execFileSync, spawn, spawnSync } from "node:child_process";
import {
  chownSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  writeFileSync,
} from "node:fs";
import { hostname } from "node:os";
import { join } from "node:path";
import { expect, onTestFinished, test } from "vitest";
import { PROGRAM, scratch, tenfold } from "./run.ts";

const has = (command: string): boolean => spawnSync("which", [command]).status === 0;

/** Installs the scheduler where that can be done; true when it is there. */
function scheduler(): boolean {
  const needed = ["sbatch", "slurmctld", "slurmd", "munged"];
  if (needed.every(has)) return true;
  const asRoot = process.getuid?.() === 0 && has("apt-get");
  if (!asRoot) return false;
  const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
  spawnSync("apt-get", ["update", "-q"], { env, timeout: 120_000 });
  const packages = ["slurm-wlm", "munge"];
  spawnSync("apt-get", ["install", "-y", "-q", "--no-install-recommends", ...packages], {
    env,
    timeout: 300_000,
  });
  return needed.every(has);
}

const wait = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

async function until(what: string, holds: () => boolean, seconds: number): Promise<void> {
  for (let i = 0; i < seconds * 5; i++) {
    if (holds()) return;
    await wait(200);
  }
  throw new Error(`after ${seconds} s: no ${what}`);
}

/** One node that is this machine. @returns the environment for its commands */
async function startNode(directory: string): Promise<NodeJS.ProcessEnv> {
  const run = join(directory, "munge");
  for (const folder of [run, join(directory, "state"), join(directory, "spool")]) mkdirSync(folder);
  const [uid, gid] = ["-u", "-g"].map((flag) =>
    Number(execFileSync("id", [flag, "munge"], { encoding: "utf8" })),
  );
  const key = join(run, "key");
  writeFileSync(key, Buffer.from(Array.from({ length: 1024 }, (_, i) => (i * 37 + 11) % 256)), {
    mode: 0o400,
  });
  chownSync(key, uid!, gid!);
  chownSync(run, uid!, gid!);
  // The folder above must let the daemon through to its socket.
  execFileSync("chmod", ["755", directory, run]);
  const socket = join(run, "socket");
  const munge = spawn(
    "munged",
    [
      "--foreground",
      "--force",
      `--key-file=${key}`,
      `--socket=${socket}`,
      `--pid-file=${join(run, "pid")}`,
      `--log-file=${join(run, "log")}`,
      `--seed-file=${join(run, "seed")}`,
    ],
    { uid: uid!, gid: gid!, stdio: "ignore" },
  );
  onTestFinished(() => void munge.kill());
  await until("authentication daemon", () => existsSync(socket), 20);
  const host = hostname().split(".")[0]!;
  const conf = join(directory, "slurm.conf");
  writeFileSync(
    conf,
    [
      "ClusterName=test",
      `SlurmctldHost=${host}`,
      "AuthType=auth/munge",
      `AuthInfo=socket=${socket}`,
      "CredType=cred/munge",
      "ProctrackType=proctrack/linuxproc",
      "TaskPlugin=task/none",
      "SwitchType=switch/none",
      "SlurmUser=root",
      "SlurmdUser=root",
      "SlurmctldPort=36817",
      "SlurmdPort=36818",
      `StateSaveLocation=${join(directory, "state")}`,
      `SlurmdSpoolDir=${join(directory, "spool")}`,
      `SlurmctldPidFile=${join(directory, "ctld.pid")}`,
      `SlurmdPidFile=${join(directory, "d.pid")}`,
      `SlurmctldLogFile=${join(directory, "ctld.log")}`,
      `SlurmdLogFile=${join(directory, "d.log")}`,
      "SelectType=select/cons_tres",
      "SelectTypeParameters=CR_CPU",
      "ReturnToService=2",
      `NodeName=${host} CPUs=2 State=UNKNOWN`,
      `PartitionName=all Nodes=${host} Default=YES State=UP`,
      "",
    ].join("\n"),
  );
  const env = { ...process.env, SLURM_CONF: conf };
  for (const daemon of ["slurmctld", "slurmd"]) {
    const child = spawn(daemon, ["-D"], { env, stdio: "ignore" });
    const ended = new Promise((resolve) => child.once("exit", resolve));
    // It writes its state to the last; the folder goes after it.
    onTestFinished(async () => {
      if (child.kill()) await ended;
    });
  }
  const idle = () =>
    spawnSync("sinfo", ["-h", "-o", "%T"], { env, encoding: "utf8" }).stdout?.includes("idle") ===
    true;
  await until("idle node", idle, 60);
  return env;
}

test("an array job on a one-node Slurm gives, merged, the bytes of one machine", async (context) => {
  if (!scheduler()) {
    console.error("SKIPPED: slurm-wlm and munge are not here and can't be installed");
    if (process.env["CI"]) throw new Error("CI must have the scheduler");
    return context.skip();
  }
  const directory = scratch();
  const env = await startNode(directory);
  const study = join(directory, "study.yaml");
  writeFileSync(
    study,
    `title: Array
defaults: {capacity: 64 Kib, word: 32 bit}
designs:
  static: {cell: sram-6t}
sweep:
  vary:
    temperature: {from: 0 degC, to: 80 degC, points: 160}
    drive_effort: {from: 4, to: 8, points: 100}
  quantities: [macro_area, standby_power]
`,
  );
  const inFolder = (...args: string[]) => {
    const ran = tenfold(args, { cwd: directory });
    expect(ran.err + ran.out).not.toMatch(/problem/);
    expect(ran.code).toBe(0);
  };
  inFolder("sweep", "study.yaml", "--out", "all.csv", "--array-job", "job.sh", "--jobs", "4");
  execFileSync("sbatch", ["job.sh"], {
    cwd: directory,
    env: { ...env, TENFOLD: `${process.execPath} ${PROGRAM}` },
  });
  const parts = () => readdirSync(directory).filter((file) => /^all\.\d-of-4\.csv$/.test(file));
  await until("finished array job", () => parts().length === 4, 180);
  inFolder("merge", ...parts(), "--out", "all.csv");
  inFolder("sweep", "study.yaml", "--out", "whole.csv");
  const read = (file: string) => readFileSync(join(directory, file));
  expect(read("all.csv").equals(read("whole.csv"))).toBe(true);
}, 700_000);
