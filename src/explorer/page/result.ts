import type { Piece } from "../engine/blocks.ts";
import type { Picture } from "../engine/session.ts";
import { byId, made } from "./dom.ts";

/** The report: pieces that are replaced when their text changes. All of it comes escaped from the engine. */
export class Result {
  private readonly home = byId("pieces");
  private readonly html = new Map<string, string>();
  private readonly elements = new Map<string, HTMLElement>();

  constructor() {
    for (const element of this.home.querySelectorAll<HTMLElement>(":scope > .piece")) {
      this.elements.set(element.dataset["key"]!, element);
    }
  }

  /** Figures at once, without their intervals: those that are there are dimmed until the next ones come. */
  quick(pieces: readonly Piece[]): void {
    for (const piece of pieces) {
      const element = this.elements.get(piece.key);
      if (element === undefined || this.html.get(piece.key) === piece.html) continue;
      this.html.set(piece.key, piece.html);
      if (piece.key.startsWith("comparison")) keepIntervals(element, piece.html);
      else element.innerHTML = piece.html;
    }
  }

  /** Pieces with their intervals. */
  figures(pieces: readonly Piece[]): void {
    for (const piece of pieces) this.put(piece);
    this.old(false);
  }

  /** The whole report. */
  report({ title, subtitle, pieces }: Picture): void {
    document.title = title;
    byId("title").textContent = title;
    byId("subtitle").textContent = subtitle;
    if (!this.sameKeys(pieces)) this.rebuild(pieces);
    for (const piece of pieces) this.put(piece);
    this.old(false);
  }

  private put({ key, html }: Piece): void {
    const element = this.elements.get(key);
    if (element === undefined || this.html.get(key) === html) return;
    this.html.set(key, html);
    keepScroll(element, () => {
      element.innerHTML = html;
    });
  }

  /** Whether figures of the text are still to come. */
  busy(is: boolean): void {
    byId("report").setAttribute("aria-busy", String(is));
  }

  /** Whether what is shown belongs to an earlier text. */
  old(is: boolean): void {
    this.home.classList.toggle("old", is);
  }

  private sameKeys(pieces: readonly Piece[]): boolean {
    const keys = [...this.elements.keys()];
    return keys.length === pieces.length && pieces.every(({ key }, i) => key === keys[i]);
  }

  private rebuild(pieces: readonly Piece[]): void {
    const before = new Map(this.elements);
    this.elements.clear();
    for (const { key } of pieces) {
      const element = before.get(key) ?? made("div", "piece");
      element.dataset["key"] = key;
      this.elements.set(key, element);
    }
    for (const key of [...this.html.keys()]) if (!this.elements.has(key)) this.html.delete(key);
    this.home.replaceChildren(...this.elements.values());
  }
}

/** A wide table stays scrolled where it is. */
function keepScroll(element: HTMLElement, change: () => void): void {
  const left = element.querySelector(".scroll")?.scrollLeft ?? 0;
  change();
  const after = element.querySelector(".scroll");
  if (after !== null) after.scrollLeft = left;
}

/** A new table in which a figure without interval keeps the old one, dimmed, so that nothing jumps. */
function keepIntervals(element: HTMLElement, html: string): void {
  const old = cellsOf(element);
  keepScroll(element, () => {
    element.innerHTML = html;
  });
  const now = cellsOf(element);
  if (now.length !== old.length) return;
  for (const [i, cell] of now.entries()) {
    const before = [...old[i]!.querySelectorAll(".interval")];
    const come = cell.querySelectorAll(".interval");
    if (before.length <= come.length) continue;
    for (const interval of come) interval.remove();
    for (const interval of before) interval.classList.add("stale");
    cell.querySelector("b")?.after(...before);
  }
}

function cellsOf(element: HTMLElement): HTMLTableCellElement[] {
  return [...element.querySelectorAll<HTMLTableCellElement>("tbody td")];
}
