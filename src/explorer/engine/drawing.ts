/**
 * A page to draw in, for the browser build: what the charting library asks of a document, and no
 * more. It stands in the place of the package that the command line draws with, and writes the same
 * bytes.
 */

const SVG = "http://www.w3.org/2000/svg";

/** A page of its own; whatever the text, it is empty. */
export function parseHTML(_text: string): { readonly document: DrawingPage } {
  return { document: new DrawingPage() };
}

abstract class Part {
  readonly ownerDocument: DrawingPage;
  parentNode: Element | null = null;

  constructor(page: DrawingPage) {
    this.ownerDocument = page;
  }

  get nextSibling(): Part | null {
    const all = this.parentNode?.childNodes ?? [];
    return all[all.indexOf(this) + 1] ?? null;
  }

  remove(): void {
    this.parentNode?.removeChild(this);
  }

  abstract get textContent(): string;
  abstract toString(): string;
}

class Text extends Part {
  readonly nodeType = 3;
  nodeValue: string;

  constructor(page: DrawingPage, value: string) {
    super(page);
    this.nodeValue = String(value);
  }

  get textContent(): string {
    return this.nodeValue;
  }

  toString(): string {
    return escaped(this.nodeValue);
  }
}

class Element extends Part {
  readonly nodeType = 1;
  readonly namespaceURI: string;
  readonly localName: string;
  readonly childNodes: Part[] = [];
  private readonly attributes = new Map<string, string>();

  constructor(page: DrawingPage, localName: string, namespace: string) {
    super(page);
    this.localName = localName;
    this.namespaceURI = namespace;
  }

  get tagName(): string {
    return this.localName;
  }

  get ownerSVGElement(): Element | null {
    const { parentNode } = this;
    if (this.namespaceURI !== SVG) return null;
    return parentNode?.ownerSVGElement ?? (parentNode?.localName === "svg" ? parentNode : null);
  }

  get firstChild(): Part | null {
    return this.childNodes[0] ?? null;
  }

  get lastChild(): Part | null {
    return this.childNodes.at(-1) ?? null;
  }

  get children(): Element[] {
    return this.childNodes.filter((one): one is Element => one instanceof Element);
  }

  /** Nothing is laid out: a rule of style is an attribute or nothing. */
  get style() {
    return { setProperty: () => undefined, removeProperty: () => undefined };
  }

  getAttribute(name: string): string | null {
    return this.attributes.get(name) ?? null;
  }

  hasAttribute(name: string): boolean {
    return this.attributes.has(name);
  }

  setAttribute(name: string, value: unknown): void {
    this.attributes.set(name, String(value));
  }

  setAttributeNS(_: string | null, name: string, value: unknown): void {
    this.setAttribute(name, value);
  }

  removeAttribute(name: string): void {
    this.attributes.delete(name);
  }

  appendChild<T extends Part>(child: T): T {
    return this.insertBefore(child, null);
  }

  append(...children: (Part | string)[]): void {
    for (const one of children) {
      this.appendChild(one instanceof Part ? one : new Text(this.ownerDocument, one));
    }
  }

  insertBefore<T extends Part>(child: T, before: Part | null): T {
    child.remove();
    const at = before === null ? this.childNodes.length : this.childNodes.indexOf(before);
    this.childNodes.splice(at, 0, child);
    child.parentNode = this;
    return child;
  }

  removeChild<T extends Part>(child: T): T {
    const at = this.childNodes.indexOf(child);
    if (at >= 0) this.childNodes.splice(at, 1);
    child.parentNode = null;
    return child;
  }

  get textContent(): string {
    return this.childNodes.map((one) => one.textContent).join("");
  }

  set textContent(text: string) {
    for (const one of this.childNodes.splice(0)) one.parentNode = null;
    if (text !== null && text !== "") this.append(String(text));
  }

  /** By the name of their tags, or all: charts ask for nothing else. */
  querySelectorAll(selector: string): Element[] {
    return this.children.flatMap((one) => [
      ...(selector === "*" || selector === one.localName ? [one] : []),
      ...one.querySelectorAll(selector),
    ]);
  }

  querySelector(selector: string): Element | null {
    return this.querySelectorAll(selector)[0] ?? null;
  }

  get outerHTML(): string {
    return this.toString();
  }

  /**
   * The last attribute comes first, an element without content has no closing tag: as the command
   * line's package writes.
   */
  toString(): string {
    const attributes = [...this.attributes]
      .reverse()
      .map(([name, value]) => ` ${name}="${escaped(value).replaceAll('"', "&quot;")}"`);
    const head = `<${this.localName}${attributes.join("")}`;
    if (this.childNodes.length === 0) return `${head} />`;
    return `${head}>${this.childNodes.join("")}</${this.localName}>`;
  }
}

class DrawingPage {
  readonly documentElement = new Element(this, "html", "http://www.w3.org/1999/xhtml");
  readonly body = this.documentElement;
  readonly defaultView = null;

  createElementNS(namespace: string, name: string): Element {
    return new Element(this, name, namespace);
  }

  createElement(name: string): Element {
    return new Element(this, name, "http://www.w3.org/1999/xhtml");
  }

  createTextNode(text: string): Text {
    return new Text(this, text);
  }
}

const SPECIAL: Readonly<Record<string, string>> = {
  "\u00a0": "&#160;",
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
};

function escaped(text: string): string {
  return text.replace(/[<>&\u00a0]/g, (letter) => SPECIAL[letter]!);
}
