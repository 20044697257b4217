import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { type Browser, chromium, type Locator, type Page } from "playwright-core";

export { faint, violations } from "./access.ts";

/** What went wrong in a page. */
export interface SeenWrong {
  readonly errors: string[];
  /** Addresses that were asked for beside the page's own and those of its workers. */
  readonly requests: string[];
  readonly dialogs: string[];
}

export interface Opening {
  /** Behind the page's address. */
  readonly hash?: string;
  readonly javaScriptEnabled?: boolean;
  readonly colorScheme?: "light" | "dark";
  readonly viewport?: { readonly width: number; readonly height: number };
  /** Whether to wait for the whole report (the default) or for the figures alone. */
  readonly report?: boolean;
}

const LONG = 60_000;

export function launch(executablePath: string): Promise<Browser> {
  return chromium.launch({ executablePath, args: ["--no-sandbox"] });
}

/** Opens a page from disk and waits until it has computed once. */
export async function opened(
  browser: Browser,
  path: string,
  { hash = "", viewport = { width: 1440, height: 900 }, report = true, ...options }: Opening,
): Promise<{ readonly page: Page; readonly seen: SeenWrong }> {
  const page = await browser.newPage({ viewport, ...options });
  page.setDefaultTimeout(LONG);
  const address = pathToFileURL(path).href;
  const seen: SeenWrong = { errors: [], requests: [], dialogs: [] };
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning")
      seen.errors.push(message.text());
  });
  page.on("pageerror", (error) => seen.errors.push(error.message));
  page.on("request", (request) => {
    const url = request.url();
    if (url !== address + hash && url !== address && !url.startsWith("blob:")) {
      seen.requests.push(url);
    }
  });
  page.on("dialog", (dialog) => {
    seen.dialogs.push(dialog.message());
    void dialog.dismiss();
  });
  await page.goto(address + hash);
  if (options.javaScriptEnabled === false) return { page, seen };
  await page.waitForSelector("#sliders input[aria-valuetext]", { timeout: LONG });
  if (report) await settled(page);
  return { page, seen };
}

/** Waits until the figures belong to the text. */
export async function settled(page: Page): Promise<void> {
  await page.waitForSelector("#report[aria-busy=false]", { timeout: LONG }).catch((error) => error);
  const state = await page.locator("#state").textContent();
  if (/failed|Computing|set up/.test(state!)) throw new Error(`the page says: ${state}`);
}

/** Puts a text in as if it were typed. */
export async function type(page: Page, text: string, until: "figures" | "problems" = "figures") {
  await page.locator("#text").fill(text);
  if (until === "problems") await page.waitForSelector("#problems li", { timeout: LONG });
  else await settled(page);
}

/** Browsers stop pages that save more files than this in a row. */
const DOWNLOADED = 8;

/** Every file of the save menu by its name: the first ones as the browser saves them, all others as they are given to it. */
export async function saved(page: Page): Promise<Map<string, string>> {
  const files = new Map<string, string>();
  await page.locator("#save summary").click();
  await page.waitForSelector("#files button");
  const buttons = await page.locator("#files button").all();
  for (const button of buttons.slice(0, DOWNLOADED)) {
    const [download] = await Promise.all([page.waitForEvent("download"), button.click()]);
    files.set(download.suggestedFilename(), readFileSync(await download.path(), "utf8"));
  }
  await page.evaluate(`
    window.given = [];
    let content;
    URL.createObjectURL = (blob) => { content = blob.text(); return "blob:none"; };
    HTMLAnchorElement.prototype.click = function () {
      given.push(content.then((text) => [this.download, text]));
    };`);
  for (const button of buttons.slice(DOWNLOADED)) await button.click();
  const given = (await page.evaluate("Promise.all(given)")) as [string, string][];
  for (const [name, text] of given) files.set(name, text);
  return files;
}

/** The address of the share menu. */
export async function shared(page: Page): Promise<string> {
  await page.locator("#share summary").click();
  // The page's policy lets nobody make code from text, so that what is waited for are elements.
  await page.waitForSelector("#link:visible");
  return page.locator("#link").inputValue();
}

export function selectedText(page: Page): Promise<string> {
  return page.evaluate(
    "(() => { const t = document.getElementById('text');" +
      " return t.value.slice(t.selectionStart, t.selectionEnd); })()",
  );
}

/** Lines of the first text alone, and of the second alone. */
export function changedLines(before: string, after: string): [string[], string[]] {
  const [a, b] = [before.split("\n"), after.split("\n")];
  return [a.filter((line) => !b.includes(line)), b.filter((line) => !a.includes(line))];
}

/** The designs that can be organised. */
export function designs(page: Page): Promise<string[]> {
  return page.evaluate("[...document.getElementById('organised').options].map((o) => o.value)");
}

/** Drags the handle of a slider to a share of its width. */
export async function dragTo(page: Page, slider: Locator, share: number): Promise<void> {
  await slider.scrollIntoViewIfNeeded();
  const box = (await slider.boundingBox())!;
  const y = box.y + box.height / 2;
  const [value, most] = await Promise.all([slider.inputValue(), slider.getAttribute("max")]);
  // The handle moves by its own width less than the track is long.
  const HANDLE = 14;
  const at = (s: number): number => box.x + HANDLE / 2 + s * (box.width - HANDLE);
  const from = Number(value) / Number(most);
  const to = Math.abs(from - share) < 0.08 ? share + 0.2 : share;
  await page.mouse.move(at(from), y);
  await page.mouse.down();
  await page.mouse.move(at(to), y, { steps: 3 });
  await page.mouse.up();
}

/** Names of the elements that the tabulator reaches. */
export async function tabThrough(page: Page, times: number): Promise<string[]> {
  const reached: string[] = [];
  await page.evaluate("document.activeElement.blur()");
  for (let i = 0; i < times; i++) {
    await page.keyboard.press("Tab");
    reached.push((await page.evaluate("document.activeElement.id")) as string);
  }
  return reached;
}
