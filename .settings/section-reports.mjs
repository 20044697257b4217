// Reports of the sections `uncertainty`, `sweep`, `organise` and `standby` of a study.
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const COMMANDS = { uncertainty: "uncertainty", organise: "organise", standby: "standby" };

/**
 * Ending → text of each section that the study has.
 *
 * @param tenfold runs the built program and gives its standard output
 * @param study path of the study
 * @param text its text
 */
export function sectionReports(tenfold, study, text) {
  const has = (section) => new RegExp(`^${section}:`, "m").test(text);
  const files = Object.entries(COMMANDS)
    .filter(([section]) => has(section))
    .map(([section, command]) => [`.${section}.md`, tenfold(command, study, "--format", "markdown")]);
  if (has("sweep")) files.push([".sweep.csv", swept(tenfold, study)]);
  return files;
}

function swept(tenfold, study) {
  const folder = mkdtempSync(join(tmpdir(), "tenfold-sweep-"));
  try {
    const out = join(folder, "sweep.csv");
    tenfold("sweep", study, "--out", out, "--quiet");
    return readFileSync(out, "utf8");
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
