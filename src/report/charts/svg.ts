import { parseHTML } from "linkedom";
import { plain } from "../renderers/plain.ts";
import { CHART_RULES } from "./rules.ts";

/** What charts share: how they look in light and dark, and what a reader without eyes is told. */

/** Colours that most eyes tell apart and on which dark text reads well; the last one is for the rest. */
export const FILLS = ["#56b4e9", "#e69f00", "#f0e442", "#cc79a7", "#5cc8a6", "#e8845a"] as const;
export const REST_FILL = "#b8bcc2";

const BACKGROUND = `
svg.chart{background:#fff}
@media(prefers-color-scheme:dark){svg.chart{background:#14171b}}
`;

const SVG = "http://www.w3.org/2000/svg";

/** What charts need of an element; the types of a browser's page are not those of node. */
export interface Drawn {
  setAttribute(name: string, value: string): void;
  removeAttribute(name: string): void;
  insertBefore(one: Drawn, other: Drawn | null): void;
  appendChild(one: Drawn): void;
  remove(): void;
  querySelectorAll(selector: string): Iterable<Drawn>;
  readonly firstChild: Drawn | null;
  readonly outerHTML: string;
  textContent: string;
}

export interface Page {
  createElementNS(namespace: string, tag: string): Drawn;
}

/** An empty page to draw in. */
export function blankPage(): Page {
  return parseHTML("<html><body></body></html>").document as unknown as Page;
}

/** A new element of a drawing. */
export function element(
  page: Page,
  tag: string,
  attributes: Readonly<Record<string, string | number>>,
  content?: string,
): Drawn {
  const made = page.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, String(value));
  if (content !== undefined) made.textContent = content;
  return made;
}

/**
 * The text of a drawing to stand in a page: no style of its own (a content-security policy would refuse it), a title
 * and a description, one picture to a screen reader.
 */
export function finished(page: Page, svg: Drawn, title: string, description: string): string {
  for (const style of svg.querySelectorAll("style")) style.remove();
  for (const one of svg.querySelectorAll("*")) {
    for (const name of ["style", "class", "aria-label", "aria-description", "aria-hidden"]) {
      one.removeAttribute(name);
    }
  }
  svg.removeAttribute("style");
  svg.setAttribute("class", "chart");
  svg.setAttribute("role", "img");
  svg.setAttribute("xmlns", SVG);
  svg.setAttribute("aria-label", `${title}. ${description}`);
  svg.insertBefore(element(page, "desc", {}, description), svg.firstChild);
  return drawnText(svg);
}

/**
 * The text of a drawing, in which no character acts: some are no XML at all. Nor does any in an
 * attribute, which pages may hold raw but XML may not.
 */
export function drawnText(svg: { readonly outerHTML: string }): string {
  const text = svg.outerHTML.split("\n").map(plain).join("\n");
  return text.replace(TAG, (tag) => roundedPlaces(tag).replace(VALUE, escapedValue));
}

/**
 * Places on the page to a thousandth of a dot: the charting library takes logarithms by the engine's own
 * functions, whose last bits differ between engines.
 */
function roundedPlaces(tag: string): string {
  return tag.replace(PLACES, (attribute) =>
    attribute.replace(LONG, (number) => String(Math.round(1000 * Number(number)) / 1000)),
  );
}

/** Attributes of numbers; words for who sees no picture keep their digits. */
const PLACES = / (?!aria-)[\w:-]+="[^"]*"/g;
const LONG = /-?\d+\.\d{4,}(?:e[-+]?\d+)?/g;

const TAG = /<[\w:-]+(?:\s+[\w:-]+="[^"]*")+\s*\/?>/g;
const VALUE = /"[^"]*"/g;
const ESCAPES: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;" };

function escapedValue(value: string): string {
  return value.replace(/[<>]|&(?!(?:amp|lt|gt|quot|#160);)/g, (c) => ESCAPES[c]!);
}

/** The same drawing as a file of its own. */
export function svgFile(svg: string): string {
  return `${svg.replace(/>/, `><style>${CHART_RULES}${BACKGROUND}</style>`)}\n`;
}

/** About how wide a text is: no font is measured, so that the bytes are the same everywhere. */
export function widthOf(text: string, size = 13): number {
  return text.length * size * 0.56;
}
