import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { parseFormula } from "../../src/formulas/parse.ts";
import { openText } from "../../src/io/study.ts";
import { modelsOf } from "../../src/studies/estimate.ts";
import { HOSTILE_STUDY } from "./hostile-study.ts";
import { ROOT, tenfold } from "./run.ts";
import { programOf, withProgram } from "./tools.ts";

const FILE = "tarn-working-memory.yaml";
const DEMO = join(ROOT, "configs", FILE);
const WORK = join(ROOT, `explore.${process.pid}.tmp`);
const path = (name: string): string => join(WORK, name);

/** A study with its report by the command line, to hold a page against. */
function byCommand(name: string, text: string): ReadonlyMap<string, string> {
  const study = path(`${name}/${FILE}`);
  mkdirSync(path(name), { recursive: true });
  writeFileSync(study, text);
  const out = path(`${name}/report`);
  expect(tenfold(["report", study, "--out", out, "--quiet"])).toMatchObject({ code: 0, err: "" });
  const names = readdirSync(out, { recursive: true, encoding: "utf8" });
  return new Map(
    names
      .filter((one) => /\.\w+$/.test(one))
      .map((one) => [one.split(/[\\/]/).at(-1)!, readFileSync(join(out, one), "utf8")]),
  );
}

const TEXT = readFileSync(DEMO, "utf8");
const HOT = TEXT.replace("value: 10 degC", "value: 20 degC");

beforeAll(() => {
  mkdirSync(WORK, { recursive: true });
  writeFileSync(path("hostile.yaml"), HOSTILE_STUDY);
  for (const [study, page] of [
    [DEMO, "demo.html"],
    [path("hostile.yaml"), "hostile.html"],
  ] as const) {
    const ran = tenfold(["explore", study, "--out", path(page), "--quiet"]);
    expect(ran).toMatchObject({ code: 0, out: "", err: "" });
  }
  return () => rmSync(WORK, { recursive: true, force: true });
}, 120_000);

describe("tenfold explore", () => {
  test("replaces nothing that is there, unless it is told to, and says how large the page is", () => {
    const again = tenfold(["explore", DEMO, "--out", path("demo.html")]);
    expect(again.code).toBe(2);
    expect(again.err).toContain("--force");
    const before = readFileSync(path("demo.html"));
    const forced = tenfold(["explore", DEMO, "--out", path("demo.html"), "--force"]);
    expect(forced.err).toMatch(/^\d\.\d MiB in .*demo\.html: open it in a browser\n$/);
    expect(readFileSync(path("demo.html")).equals(before)).toBe(true);
  });

  test("stays below what is sent by mail without a thought", () => {
    expect(readFileSync(path("demo.html")).length).toBeLessThan(2 * 2 ** 20);
  });

  test("refuses a study with mistakes, in the words of check", () => {
    writeFileSync(path("wrong.yaml"), TEXT.replace("capacity:", "capacty:"));
    const ran = tenfold(["explore", path("wrong.yaml"), "--out", path("wrong.html")]);
    expect(ran.code).toBe(2);
    expect(ran.err).toContain("did you mean: capacity");
  });
});

const chromium = programOf("TENFOLD_CHROMIUM", ["chromium", "chromium-browser", "google-chrome"]);
withProgram("a browser", chromium, (executablePath) => {
  let browser: Browser;
  let open: typeof import("./explorer-page.ts");
  beforeAll(async () => {
    open = await import("./explorer-page.ts");
    browser = await open.launch(executablePath);
  });
  afterAll(() => browser.close());

  /** Opens a page, does something in it, and finds that nothing went wrong on the way. */
  async function inPage(
    name: string,
    work: (page: Page) => Promise<void>,
    options: Parameters<typeof import("./explorer-page.ts").opened>[2] = {},
  ): Promise<void> {
    const { page, seen } = await open.opened(browser, path(name), options);
    try {
      await work(page);
      expect(seen).toEqual({ errors: [], requests: [], dialogs: [] });
    } finally {
      await page.close();
    }
  }

  test("gives in the page every file that the command line writes, byte for byte", async () => {
    const expected = byCommand("hot", HOT);
    await inPage("demo.html", async (page) => {
      await open.type(page, HOT);
      const files = await open.saved(page);
      expect(files.get(FILE)).toBe(HOT);
      files.delete(FILE);
      expect([...files.keys()].sort()).toEqual([...expected.keys()].sort());
      for (const [name, text] of expected) expect(files.get(name), name).toBe(text);
    });
    expect(expected.get("estimate.json")).toBe(
      tenfold(["estimate", path(`hot/${FILE}`), "--format", "json"]).out,
    );
  });

  test("shows after a change what the page of the changed study shows", async () => {
    mkdirSync(path("fresh"), { recursive: true });
    writeFileSync(path(`fresh/${FILE}`), HOT);
    tenfold(["explore", path(`fresh/${FILE}`), "--out", path("hot.html"), "--quiet"]);
    let fresh: string | null = "";
    const shown = (page: Page) => page.locator("#report").textContent();
    await inPage("hot.html", async (page) => {
      fresh = await shown(page);
    });
    await inPage("demo.html", async (page) => {
      expect(await shown(page)).not.toBe(fresh);
      await open.type(page, HOT);
      expect(await shown(page)).toBe(fresh);
    });
  });

  test("tells mistakes in the words of the command line, leads to them, and keeps the last figures", async () => {
    const wrong = TEXT.replace("switch: oxide-bilayer", "switch: oxide-bilayr").replace(
      "word: 32 bit",
      "wrod: 32 bit",
    );
    writeFileSync(path(FILE), wrong);
    const told = tenfold(["check", path(FILE)]).err + tenfold(["check", path(FILE)]).out;
    await inPage("demo.html", async (page) => {
      const before = await page.locator("#pieces").textContent();
      await open.type(page, wrong, "problems");
      const texts = await page.locator("#problems pre").allTextContents();
      expect(texts.length).toBeGreaterThanOrEqual(2);
      const first = (text: string) => text.split(/\n\s+\d+ \|/)[0]!.replace(/\s+/g, " ");
      for (const text of texts) {
        expect(told.replaceAll(`${WORK}/`, "").replace(/\s+/g, " ")).toContain(first(text));
        expect(text).toMatch(new RegExp(`^${FILE}:\\d+:\\d+: `));
      }
      expect(texts.join()).toContain("did you mean: oxide-bilayer");
      expect(await page.locator("#numbers .wrong").count()).toBe(texts.length);
      await page.locator("#problems li", { hasText: "oxide-bilayr" }).locator("button").click();
      expect(await open.selectedText(page)).toBe("oxide-bilayr");
      expect(await page.locator("#pieces").textContent()).toBe(before);
      expect(await page.locator("#text").getAttribute("aria-invalid")).toBe("true");
      expect(await open.violations(page)).toEqual([]);
      await open.type(page, TEXT);
      expect(await page.locator("#problems").isHidden()).toBe(true);
    });
  });

  test("writes a slider that the keyboard moves into the text, and undoes it in one step", async () => {
    await inPage("demo.html", async (page) => {
      const slider = page.getByRole("slider", { name: /^temperature/ });
      await slider.focus();
      for (let i = 0; i < 20; i++) await page.keyboard.press("ArrowRight");
      await open.settled(page);
      const text = await page.locator("#text").inputValue();
      const [gone, come] = open.changedLines(TEXT, text);
      expect(gone).toHaveLength(1);
      expect(come).toEqual([gone[0]!.replace("value: 10 degC", "value: 12 degC")]);
      await page.waitForSelector("input[aria-valuetext='12 °C']");
      expect(await page.locator("#subtitle").textContent()).toContain("12 °C");
      await page.keyboard.press("Control+z");
      await open.settled(page);
      expect(await page.locator("#text").inputValue()).toBe(TEXT);
      await page.waitForSelector("input[aria-valuetext='10 °C']");
      expect(Number(await slider.inputValue())).toBe(80);
      await page.keyboard.press("Control+Shift+z");
      expect(await page.locator("#text").inputValue()).toBe(text);
    });
  });

  test("moves every slider by mouse, and the text can be read each time", async () => {
    const texts: string[] = [];
    await inPage("demo.html", async (page) => {
      const count = await page.locator("#sliders input[type=range]").count();
      expect(count).toBeGreaterThan(20);
      for (const [i, name] of (await open.designs(page)).entries()) {
        await page.locator("#organised").selectOption(name);
        for (const slider of await page.locator("#sliders input[type=range]:visible").all()) {
          // All designs share the first ones: once is enough.
          const own = (await slider.getAttribute("id"))!.includes(`designs_${name}_tile`);
          if (i > 0 && !own) continue;
          const before = await page.locator("#text").inputValue();
          await open.dragTo(page, slider, 0.61);
          const after = await page.locator("#text").inputValue();
          expect(after, (await slider.getAttribute("id"))!).not.toBe(before);
          texts.push(after);
          await page.locator("#undo").click();
          expect(await page.locator("#text").inputValue()).toBe(before);
        }
      }
      await open.settled(page);
      expect(await page.locator("#problems li").count()).toBe(0);
    });
    expect(texts.length).toBeGreaterThan(25);
    for (const text of texts) {
      const { study, catalogue } = await openText({ text, file: FILE }, DEMO);
      expect(() => modelsOf(study, catalogue, parseFormula)).not.toThrow();
    }
  }, 240_000);

  test("is used by keyboard alone: everything is reached, and menus open and close", async () => {
    await inPage("demo.html", async (page) => {
      const reached = await open.tabThrough(page, 60);
      for (const id of ["skip", "undo", "redo", "text", "organised"]) expect(reached).toContain(id);
      expect(reached.filter((id) => id.startsWith("knob")).length).toBeGreaterThanOrEqual(14);
      await page.locator("#share summary").focus();
      await page.keyboard.press("Enter");
      await page.waitForSelector("#link:visible");
      await page.keyboard.press("Escape");
      expect(await page.locator("#link").isVisible()).toBe(false);
      await page.locator("#skip").focus();
      await page.keyboard.press("Enter");
      expect(await page.evaluate("document.activeElement.id")).toBe("report");
    });
  });

  test("opens a study from the address that it shares", async () => {
    let address = "";
    await inPage("demo.html", async (page) => {
      await open.type(page, HOT);
      address = await open.shared(page);
      expect(address.length).toBeLessThan(5000);
    });
    const hash = address.slice(address.indexOf("#"));
    await inPage(
      "demo.html",
      async (page) => {
        expect(await page.locator("#text").inputValue()).toBe(HOT);
        expect(await page.locator("#subtitle").textContent()).toContain("20 °C");
        await page.locator("#undo").click();
        expect(await page.locator("#text").inputValue()).toBe(TEXT);
      },
      { hash },
    );
  });

  test.each([
    ["that was cut", "#study=q1YqSSwqSVWyUkrLz1GqBQA".slice(0, 12)],
    ["that is no study", "#study=%22%3E%3Cscript%3Ealert(1)%3C/script%3E"],
    ["that names a place of the page", "#the-answer"],
  ])("opens its own study from an address %s", async (_, hash) => {
    await inPage(
      "demo.html",
      async (page) => expect(await page.locator("#text").inputValue()).toBe(TEXT),
      { hash, report: false },
    );
  });

  test("says that a study is too long for an address", async () => {
    await inPage("demo.html", async (page) => {
      const digits = (i: number): string => ((i * 2654435761) >>> 0).toString(36);
      const noise = Array.from({ length: 9000 }, (_, i) => digits(i)).join("");
      await open.type(page, `# ${noise}\n${TEXT}`);
      await page.locator("#share summary").click();
      await page.waitForSelector("#shared:has-text('too long')");
      expect(await page.locator("#link").isHidden()).toBe(true);
    });
  });

  test("prints every table and no control", async () => {
    await inPage("demo.html", async (page) => {
      const tables = await page.locator("#report table").count();
      await page.emulateMedia({ media: "print" });
      expect(await page.locator("#report table:visible").count()).toBe(tables);
      expect(await page.locator("#study").isVisible()).toBe(false);
      const cut = await page.evaluate(
        "[...document.querySelectorAll('.scroll')].filter((b) => getComputedStyle(b).overflowX !== 'visible').length",
      );
      expect(cut).toBe(0);
      expect((await page.pdf({ format: "A4" })).length).toBeGreaterThan(100_000);
    });
  });

  test("shows the report where scripts are off", async () => {
    await inPage(
      "demo.html",
      async (page) => {
        expect(await page.locator("#study").isVisible()).toBe(false);
        expect(await page.locator("h1").textContent()).toBe("Working memory of the Tarn buoy");
        expect(await page.locator("#report table:visible").count()).toBeGreaterThan(5);
        expect(await page.locator("#report svg.chart:visible").count()).toBeGreaterThanOrEqual(6);
      },
      { javaScriptEnabled: false },
    );
  });

  test("has no fault of access in light and dark, on narrow and wide screens, and nothing beside them", async () => {
    await inPage("demo.html", async (page) => {
      for (const [colorScheme, width] of [
        ["light", 1440],
        ["dark", 1440],
        ["light", 390],
        ["dark", 2560],
      ] as const) {
        await page.emulateMedia({ colorScheme });
        await page.setViewportSize({ width, height: 900 });
        const look = `${colorScheme}, ${width} wide`;
        const objections = colorScheme === "light" ? open.violations : open.faint;
        expect(await objections(page), look).toEqual([]);
        const wide = await page.evaluate("document.documentElement.scrollWidth");
        expect(wide, look).toBeLessThanOrEqual(width);
        await page.locator("#save summary").click();
        await page.waitForSelector("#files button");
        expect(await objections(page, "#save"), look).toEqual([]);
        await page.locator("#save summary").click();
      }
    });
  }, 240_000);

  test("leaves hostile texts of a study harmless", async () => {
    await inPage("hostile.html", async (page) => {
      expect(await page.locator("#text").inputValue()).toBe(HOSTILE_STUDY);
      await open.type(page, HOSTILE_STUDY.replace(/$/, "\n# changed\n"));
      expect(await page.locator("#report script, #report img, #report iframe").count()).toBe(0);
      expect(await open.violations(page)).toEqual([]);
    });
  });
});
