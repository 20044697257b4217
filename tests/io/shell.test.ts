import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { shellWord } from "../../src/io/shell.ts";
import { arrayJobScript } from "../../src/io/sweep/array-job.ts";

/** Names of files that want to be commands. */
const NAMES = [
  "plain.csv",
  "with space.csv",
  "$(touch pwned).csv",
  "`touch pwned`.csv",
  "a;touch pwned;.csv",
  "a' ; touch pwned ; '.csv",
  'a" ; touch pwned ; ".csv',
  "a\ntouch pwned\n.csv",
  "a\r\ntouch pwned.csv",
  "$SLURM_ARRAY_TASK_ID.csv",
  // biome-ignore lint/suspicious/noTemplateCurlyInString: the shell's, not ours
  "${HOME}*?[a].csv",
  "a\\n\\$x!!.csv",
  "\u001b]0;title\u0007.csv",
  "\u202eabc 中文 🤖.csv",
  "~root&|<>#.csv",
  "a\n#SBATCH --array=1-9.csv",
];

const bash = existsSync("/bin/bash") ? "/bin/bash" : undefined;

test.skipIf(bash === undefined)("every name is one word to bash, with every byte", () => {
  const script = `printf '%s\\0' ${NAMES.map(shellWord).join(" ")}`;
  const ran = spawnSync(bash!, ["-c", script], { encoding: "utf8" });
  expect(ran.stdout.split("\0").slice(0, -1)).toEqual(NAMES);
});

test.skipIf(bash === undefined)(
  "a script of an array job starts one program with the names as they are",
  () => {
    const folder = mkdtempSync(join(tmpdir(), "tenfold-"));
    try {
      for (const name of NAMES) {
        const script = arrayJobScript({
          study: name,
          out: name,
          jobs: 2,
          set: [`title=${name}`],
        });
        // Nothing stands on a line of its own but what we write.
        expect(script.match(/^#SBATCH.*/gm)).toHaveLength(4);
        // biome-ignore lint/suspicious/noControlCharactersInRegex: controls are what is looked for
        expect(script).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e]/);
        writeFileSync(join(folder, "job.sh"), script);
        writeFileSync(join(folder, "show.sh"), `printf '%s\\0' "$@"`);
        const ran = spawnSync(bash!, ["job.sh"], {
          cwd: folder,
          encoding: "utf8",
          env: { PATH: process.env["PATH"], TENFOLD: "bash show.sh", SLURM_ARRAY_TASK_ID: "2" },
        });
        expect(ran.stderr).toBe("");
        const words = ran.stdout.split("\0");
        expect(words.slice(0, 3)).toEqual(["sweep", name, "--out"]);
        expect(words[3]).toBe(`${name.slice(0, -4)}.2-of-2.csv`);
        expect(words).toContain(`title=${name}`);
        expect(readdirSync(folder).sort()).toEqual(["job.sh", "show.sh"]);
      }
    } finally {
      rmSync(folder, { recursive: true });
    }
  },
);
