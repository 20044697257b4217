// The explorer page in a browser: from a keystroke to new figures and bars, to their intervals, and to the whole report.
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

export const name = "explore";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const ROUNDS = 15;

const found = () => {
  const named = process.env["TENFOLD_CHROMIUM"];
  if (named !== undefined) return named;
  const folders = (process.env["PATH"] ?? "").split(delimiter);
  const names = ["chromium", "chromium-browser", "google-chrome"];
  return names.flatMap((one) => folders.map((f) => join(f, one))).find((path) => existsSync(path));
};

/** Runs in the page: changes the text, and notes when figures, intervals and report come. */
const ROUND = `async (from, to) => {
  const field = document.getElementById("text");
  const report = document.getElementById("report");
  const table = document.querySelector("[data-key=comparison-comparison]");
  const seen = {};
  const start = performance.now();
  const done = new Promise((resolve) => {
    const look = () => {
      const now = performance.now() - start;
      if (table.querySelector(".stale")) seen.figures ??= now;
      else if (seen.figures) seen.intervals ??= now;
      if (report.getAttribute("aria-busy") === "false") { watch.disconnect(); seen.report = now; resolve(); }
    };
    const watch = new MutationObserver(look);
    watch.observe(report, { childList: true, subtree: true, attributes: true });
  });
  field.value = field.value.replace(from, to);
  field.dispatchEvent(new Event("input", { bubbles: true }));
  await done;
  return seen;
}`;

export async function run(report) {
  const executablePath = found();
  if (executablePath === undefined) return report("no browser is there: not measured");
  const { chromium } = await import("playwright-core");
  const folder = mkdtempSync(join(tmpdir(), "tenfold-bench-"));
  const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
  try {
    const path = join(folder, "page.html");
    const args = ["explore", "configs/tarn-working-memory.yaml", "--out", path, "--quiet"];
    spawnSync(process.execPath, ["dist/tenfold.js", ...args], { cwd: ROOT, stdio: "inherit" });
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    await page.goto(pathToFileURL(path).href);
    await page.waitForSelector("#sliders input[aria-valuetext]", { timeout: 120_000 });
    await page.waitForSelector("#report[aria-busy=false]", { timeout: 120_000 });
    for (const [label, from, to] of [
      ["a value of all designs", "/value: [\\d.]+ degC/", (i) => `value: ${3 + i} degC`],
      [
        "a value of one design",
        "/set_voltage: {value: [\\d.]+ V/",
        (i) => `set_voltage: {value: ${0.96 + i / 250} V`,
      ],
    ]) {
      const rounds = [];
      for (let i = 0; i < ROUNDS; i++) {
        rounds.push(await page.evaluate(`(${ROUND})(${from}, ${JSON.stringify(to(i))})`));
      }
      const of = (key) =>
        rounds
          .map((round) => round[key])
          .filter((x) => x > 0)
          .sort((a, b) => a - b);
      const [figures, intervals, whole] = ["figures", "intervals", "report"].map(of);
      const middle = (all) => all[all.length >> 1];
      report(`${label}: figures and bars, least`, figures[0], "ms", "below 50");
      report(`${label}: figures and bars, median`, middle(figures), "ms", "below 50");
      report(`${label}: intervals over figures, median`, middle(intervals) / middle(figures), "×");
      report(`${label}: whole report over figures, median`, middle(whole) / middle(figures), "×");
    }
    report("the page", statSync(path).size / 2 ** 20, "MiB");
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  }
}
