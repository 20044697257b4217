import type { ShownProblem } from "../engine/problems.ts";
import { byId } from "./dom.ts";

/** A plain text field with line numbers beside it and marks behind it. */
export class Editor {
  private readonly field = byId<HTMLTextAreaElement>("text");
  private readonly numbers = byId("numbers");
  private readonly marks = byId("marks");
  private problems: readonly ShownProblem[] = [];
  private lines = 0;

  constructor(onInput: (event: Event) => void) {
    const { field } = this;
    field.addEventListener("input", onInput);
    field.addEventListener("scroll", () => this.follow());
    field.addEventListener("keydown", (event) => {
      if (event.key !== "Enter" || event.isComposing) return;
      if (event.ctrlKey || event.metaKey || event.altKey || event.shiftKey) return;
      event.preventDefault();
      this.breakLine();
      onInput(event);
    });
  }

  get text(): string {
    return this.field.value;
  }

  get selection(): { readonly start: number; readonly end: number } {
    return { start: this.field.selectionStart, end: this.field.selectionEnd };
  }

  /** Puts another text in, and leaves the focus where it is. */
  show(text: string, start?: number, end = start): void {
    const { scrollTop, scrollLeft } = this.field;
    this.field.value = text;
    if (start !== undefined) this.field.setSelectionRange(start, end ?? start);
    this.field.scrollTop = scrollTop;
    this.field.scrollLeft = scrollLeft;
    this.draw();
  }

  /** Marks mistakes in the text and in the line numbers. */
  mark(problems: readonly ShownProblem[]): void {
    this.problems = problems;
    this.field.setAttribute("aria-invalid", String(problems.length > 0));
    this.draw();
  }

  /** Selects what a mistake is about. */
  goTo({ line = 1, column = 1, length = 1 }: ShownProblem): void {
    const start = offsetOf(this.text, line) + column - 1;
    this.field.focus();
    this.field.setSelectionRange(start, start + length);
    this.reveal(line);
  }

  /** Scrolls a line into view, from 1. */
  reveal(line: number): void {
    const { field } = this;
    const height = field.scrollHeight / Math.max(1, this.text.split("\n").length);
    const top = (line - 1) * height;
    if (top < field.scrollTop || top + 2 * height > field.scrollTop + field.clientHeight) {
      field.scrollTop = Math.max(0, top - field.clientHeight / 3);
    }
    this.follow();
  }

  /** Numbers and marks anew. */
  draw(): void {
    const { text, problems } = this;
    const count = text.split("\n").length;
    const wrong = new Set(problems.map(({ line }) => line));
    this.numbers.replaceChildren(
      ...Array.from({ length: count }, (_, i) => {
        const number = document.createElement("span");
        number.textContent = `${i + 1}\n`;
        if (wrong.has(i + 1)) number.className = "wrong";
        return number;
      }),
    );
    if (count !== this.lines) {
      this.lines = count;
      this.field.style.setProperty("--digits", String(String(count).length));
    }
    this.marks.replaceChildren(...markedText(text, problems));
    this.follow();
  }

  private follow(): void {
    const { scrollTop, scrollLeft } = this.field;
    this.numbers.scrollTop = scrollTop;
    this.marks.scrollTop = scrollTop;
    this.marks.scrollLeft = scrollLeft;
  }

  /** A new line begins as far in as the one before it. */
  private breakLine(): void {
    const { field } = this;
    const before = field.value.slice(0, field.selectionStart);
    const line = before.slice(before.lastIndexOf("\n") + 1);
    const indent = /^ */.exec(line)![0];
    const more = /:\s*$/.test(line) ? "  " : "";
    field.setRangeText(`\n${indent}${more}`, field.selectionStart, field.selectionEnd, "end");
  }
}

function offsetOf(text: string, line: number): number {
  let at = 0;
  for (let i = 1; i < line; i++) {
    const next = text.indexOf("\n", at);
    if (next < 0) return at;
    at = next + 1;
  }
  return at;
}

/** The text with its mistakes in elements of their own; all of it is transparent but the marks. */
function markedText(text: string, problems: readonly ShownProblem[]): (string | Node)[] {
  const spans = problems
    .flatMap(({ line, column = 1, length = 1 }) => {
      if (line === undefined) return [];
      const start = offsetOf(text, line) + column - 1;
      return [{ start, end: start + Math.max(1, length) }];
    })
    .sort((a, b) => a.start - b.start);
  const nodes: (string | Node)[] = [];
  let at = 0;
  for (const { start, end } of spans) {
    if (start < at) continue;
    nodes.push(text.slice(at, start));
    const mark = document.createElement("mark");
    mark.textContent = text.slice(start, end) || " ";
    nodes.push(mark);
    at = end;
  }
  nodes.push(`${text.slice(at)}\n`);
  return nodes;
}
