import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";
import { violations as violationsOf } from "./access.ts";

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

/**
 * Opens a page from disk and looks at all that can be wrong with it.
 *
 * @param also whether the accessibility engine runs too, and whether the page is printed
 */
export async function visit(
  executablePath: string,
  path: string,
  colorScheme: "light" | "dark",
  also: { readonly access?: boolean; readonly paper?: boolean } = {},
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
    const violations = also.access ? await violationsOf(page) : [];
    const comparison = (await page.evaluate(
      `[...document.querySelectorAll("tbody")].find((one) => one.querySelector(".interval"))
        ? [...[...document.querySelectorAll("tbody")].find((one) => one.querySelector(".interval")).rows]
          .map((row) => [...row.querySelectorAll("td > b")].map((b) => b.textContent))
        : []`,
    )) as string[][];
    const tables = (await page.evaluate("document.querySelectorAll('table').length")) as number;
    const printed = also.paper ? (await page.pdf()).length : 0;
    return { errors, requests, dialogs, violations, comparison, tables, printed };
  } finally {
    await browser.close();
  }
}
