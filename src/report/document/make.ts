import type { Block, Cell, Figure, Heading, Interval, Note, Paragraph } from "./document.ts";

/** Short ways to write the commonest pieces of a document. */

export function heading(text: string, level: Heading["level"] = 1): Heading {
  return { kind: "heading", level, text };
}

export function paragraph(text: string): Paragraph {
  return { kind: "paragraph", text };
}

export function note(level: Note["level"], text: string): Note {
  return { kind: "note", level, text };
}

export function indented(...blocks: Block[]): Block {
  return { kind: "indented", blocks };
}

export const none: Cell = { kind: "none" };

export function text(content: string): Cell {
  return { kind: "text", text: content };
}

type QuantityCell = Extract<Cell, { readonly kind: "quantity" }>;

/** A number with its SI unit, and with its interval where it has one. */
export function quantity(unit: string, figure: Figure | number): QuantityCell {
  return typeof figure === "number"
    ? { kind: "quantity", unit, value: figure }
    : { kind: "quantity", unit, ...figure };
}

export function ratio(figure: Figure | number): Cell {
  return typeof figure === "number"
    ? { kind: "ratio", value: figure }
    : { kind: "ratio", ...figure };
}

/** From to, in the unit in SI. */
export function interval(unit: string, { low, high }: Interval): Cell {
  return { kind: "interval", unit, low, high };
}

export function share(value: number): Cell {
  return { kind: "share", value };
}
