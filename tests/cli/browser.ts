import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { pathToFileURL } from "node:url";
import { chromium, type Page } from "playwright-core";

/** What a browser found in a page. */
export interface Seen {
  readonly errors: readonly string[];
  /** Addresses that were asked for beside the page's own. */
  readonly requests: readonly string[];
  readonly dialogs: readonly string[];
  /** What the accessibility engine objects to. */
  readonly violations: readonly string[];
  /** The bold figures of the first comparison, by row. */
  readonly comparison: readonly (readonly string[])[];
  readonly tables: number;
  /** Bytes of the page on paper. */
  readonly printed: number;
}

const ENGINE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/**
 * Opens a page from disk and looks at all that can be wrong with it.
 *
 * @param thorough also runs the accessibility engine and prints the page
 */
export async function visit(
  executablePath: string,
  path: string,
  colorScheme: "light" | "dark",
  thorough = true,
): Promise<Seen> {
  const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
  try {
    const page = await browser.newPage({ colorScheme });
    const address = pathToFileURL(path).href;
    const errors: string[] = [];
    const requests: string[] = [];
    const dialogs: string[] = [];
    page.on("console", (message) => {
      if (message.type() === "error" || message.type() === "warning") errors.push(message.text());
    });
    page.on("pageerror", (error) => errors.push(error.message));
    page.on("request", (request) => {
      if (request.url() !== address) requests.push(request.url());
    });
    page.on("dialog", (dialog) => {
      dialogs.push(dialog.message());
      void dialog.dismiss();
    });
    await page.goto(address);
    const violations = thorough ? await violationsOf(page) : [];
    const comparison = (await page.evaluate(
      `[...document.querySelectorAll("tbody")].find((one) => one.querySelector(".interval"))
        ? [...[...document.querySelectorAll("tbody")].find((one) => one.querySelector(".interval")).rows]
          .map((row) => [...row.querySelectorAll("td > b")].map((b) => b.textContent))
        : []`,
    )) as string[][];
    const tables = (await page.evaluate("document.querySelectorAll('table').length")) as number;
    const printed = thorough ? (await page.pdf()).length : 0;
    return { errors, requests, dialogs, violations, comparison, tables, printed };
  } finally {
    await browser.close();
  }
}

async function violationsOf(page: Page): Promise<string[]> {
  await page.evaluate(ENGINE);
  return page.evaluate(
    "axe.run().then(({ violations }) => violations.map((v) => v.id + ': ' + v.nodes[0].html))",
  );
}
