// What reports/ holds of a study's claims: verdicts for people and for programs, and the chart of a claim about all functions.
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** Ending behind the study's name → text; nothing for a study without claims. */
export function claimReports(tenfold, study, text) {
  if (!/^claims:/m.test(text)) return [];
  const folder = mkdtempSync(join(tmpdir(), "tenfold-"));
  const chart = join(folder, "chart.svg");
  const drawn = /function: all\b/.test(text);
  try {
    return [
      ["-claims.md", tenfold("claim", study, "--ledger", "--format", "markdown")],
      ["-claims.csv", tenfold("claim", study, "--format", "csv")],
      ["-claims.json", tenfold("claim", study, "--format", "json", ...(drawn ? ["--chart", chart] : []))],
      ...(drawn ? [["-claims.svg", readFileSync(chart, "utf8")]] : []),
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
