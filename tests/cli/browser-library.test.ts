import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import manifest from "../../package.json" with { type: "json" };
import { ROOT, tenfold } from "./run.ts";
import { programOf, withProgram } from "./tools.ts";

const FILE = "tarn-working-memory.yaml";
const LIBRARY = readFileSync(join(ROOT, manifest.exports["./browser"].default), "utf8");
const POLICY = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'";

/** What the page below runs: the estimate of the demo, by the library alone. */
const SCRIPT = `
import * as tenfold from "./tenfold.js";
const text = ${JSON.stringify(readFileSync(join(ROOT, "configs", FILE), "utf8"))};
const { study, catalogue } = tenfold.openStudyText(text, { file: "${FILE}" });
const estimate = tenfold.estimateStudy(study, catalogue, tenfold.parseFormula);
const data = tenfold.estimateData(estimate, { sha256: "of the text", version: "of the page" });
const told = [tenfold.renderJson(data), JSON.stringify(tenfold.parseFormula("a + 2 * b"))];
document.body.append(...told.map((one) => Object.assign(document.createElement("pre"), { textContent: one })));
`;

test("the library for browsers asks for nothing of node's and makes no code from text", () => {
  expect(LIBRARY).not.toMatch(/createRequire|from"node:|\bnew Function\(|\beval\(/);
});

const chromium = programOf("TENFOLD_CHROMIUM", ["chromium", "chromium-browser", "google-chrome"]);
withProgram("a browser", chromium, (executablePath) => {
  test("the library estimates in a page with a strict policy what the command line estimates", async () => {
    const { launch } = await import("./explorer-page.ts");
    const browser = await launch(executablePath);
    try {
      const page = await browser.newPage();
      const errors: string[] = [];
      page.on("pageerror", (error) => errors.push(error.message));
      page.on("console", (message) => errors.push(message.text()));
      const served: Record<string, [type: string, body: string]> = {
        "/": ["text/html", '<body><script type="module" src="./main.js"></script>'],
        "/main.js": ["text/javascript", SCRIPT],
        "/tenfold.js": ["text/javascript", LIBRARY],
      };
      // Nothing leaves the machine: every request is answered here.
      await page.route("**/*", (route) => {
        const found = served[new URL(route.request().url()).pathname];
        if (found === undefined) return route.fulfill({ status: 204 });
        const [contentType, body] = found;
        const headers = { "content-security-policy": POLICY };
        return route.fulfill({ contentType, body, headers });
      });
      await page.goto("http://page.invalid/");
      await page.waitForSelector("pre >> nth=1", { state: "attached", timeout: 60_000 });
      const [json, tree] = await page.locator("pre").allTextContents();
      const { study, ...own } = JSON.parse(json!);
      const printed = tenfold(["estimate", join(ROOT, "configs", FILE), "--format", "json"]).out;
      const { study: _, ...expected } = JSON.parse(printed);
      expect(own).toEqual(expected);
      expect(study.seed).toBe(1);
      expect(JSON.parse(tree!)).toMatchObject({ kind: "binary", operator: "+" });
      expect(errors).toEqual([]);
    } finally {
      await browser.close();
    }
  });
});
