import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";

const ENGINE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/**
 * Marks what looks like an element before it: the same tags with the same paint from the root down. The contrast of one
 * is the contrast of all, and measuring each of five thousand cells of a table takes the engine half a minute.
 */
const MARK_ALIKE = `(() => {
  const kinds = new Map();
  const seen = new Set();
  const walk = (element, above) => {
    const { color, backgroundColor, backgroundImage, fill, opacity, fontSize, fontWeight, visibility, display } =
      getComputedStyle(element);
    const key = [above, element.localName, color, backgroundColor, backgroundImage, fill, opacity, fontSize, fontWeight,
      visibility, display].join("|");
    if (!kinds.has(key)) kinds.set(key, String(kinds.size));
    const kind = kinds.get(key);
    const known = seen.has(kind);
    seen.add(kind);
    // Every child is walked: the first of its kind may stand within an element that is not.
    const alike = [...element.children].map((child) => walk(child, kind)).every(Boolean) && known;
    element.toggleAttribute("data-alike", alike && element.localName === "td");
    return alike;
  };
  walk(document.documentElement, "");
})()`;

const NAMES = ".then(({ violations }) => violations.map((v) => v.id + ': ' + v.nodes[0].html))";

/**
 * What the accessibility engine objects to in a page.
 *
 * @param part selector of the part to look at; the whole page unless told
 */
export async function violations(page: Page, part = "html"): Promise<string[]> {
  return [...(await withoutColours(page, part)), ...(await faint(page, part))];
}

/** What it objects to in the structure, which is the same in light and dark. */
async function withoutColours(page: Page, part: string): Promise<string[]> {
  await page.evaluate(ENGINE);
  const context = `{ include: [[${JSON.stringify(part)}]] }`;
  return page.evaluate(
    `axe.run(${context}, { rules: { "color-contrast": { enabled: false } } })${NAMES}`,
  );
}

/** What stands out too little from what is behind it. */
export async function faint(page: Page, part = "html"): Promise<string[]> {
  await page.evaluate(ENGINE);
  await page.evaluate(MARK_ALIKE);
  const context = `{ include: [[${JSON.stringify(part)}]], exclude: [["[data-alike]"]] }`;
  return page.evaluate(`axe.run(${context}, { runOnly: ["color-contrast"] })${NAMES}`);
}
