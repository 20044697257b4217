// What reports/ holds of a study's claims: verdicts for people and for programs, and the chart of a claim about all functions.
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** Ending behind the study's name → text; nothing for a study without claims. */
export function claimReports(tenfold, study, text) {
  if (!/^claims:/m.test(text)) return [];
  const data = tenfold("claim", study, "--format", "json");
  const files = [
    ["-claims.md", tenfold("claim", study, "--ledger", "--format", "markdown")],
    ["-claims.csv", tenfold("claim", study, "--format", "csv")],
    ["-claims.json", data],
  ];
  if (JSON.parse(data).surveys.length === 0) return files;
  const folder = mkdtempSync(join(tmpdir(), "tenfold-"));
  try {
    const chart = join(folder, "chart.svg");
    tenfold("claim", study, "--format", "json", "--chart", chart);
    return [...files, ["-claims.svg", readFileSync(chart, "utf8")]];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
