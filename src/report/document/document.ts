/**
 * A result as a neutral tree: described once, drawn by each renderer. Numbers stay numbers (SI) up to the renderer, so
 * that no two formats round differently.
 */
export interface Document {
  readonly title: string;
  readonly subtitle?: string;
  readonly blocks: readonly Block[];
}

export type Block =
  | Heading
  | Contents
  | Paragraph
  | List
  | Table
  | Comparison
  | Pairs
  | Formula
  | Note
  | Bars
  | Picture
  | Indented;

export interface Heading {
  readonly kind: "heading";
  /** 1 is the level right below the document's title. */
  readonly level: 1 | 2;
  readonly text: string;
}

/** Headings of this or another page, with links to them where the format has links. */
export interface Contents {
  readonly kind: "contents";
  readonly items: readonly {
    readonly level: Heading["level"];
    readonly text: string;
    /** Page and anchor, made by `contentsOf`. */
    readonly target: string;
  }[];
}

export interface Paragraph {
  readonly kind: "paragraph";
  readonly text: string;
}

export interface List {
  readonly kind: "list";
  readonly items: readonly string[];
}

/** A caution is for the reader of the result, a warning for who wrote the study. */
export interface Note {
  readonly kind: "note";
  readonly level: "note" | "caution" | "warning";
  readonly text: string;
}

/** From to, in the SI unit of what it belongs to. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** A number with its interval. All in the SI unit. */
export interface Figure {
  readonly value: number;
  readonly low?: number;
  readonly high?: number;
}

export type Cell =
  /** `latex` where it is a symbol, for renderers that set mathematics. */
  | { readonly kind: "text"; readonly text: string; readonly latex?: string }
  /** `unit` is an SI unit text such as `m^2`; `show` the unit to print in, such as `mm^2`, where that is not free. */
  | ({ readonly kind: "quantity"; readonly unit: string; readonly show?: string } & Figure)
  /** A factor, printed as `× 0.38`. */
  | ({ readonly kind: "ratio" } & Figure)
  /** An interval alone. */
  | ({ readonly kind: "interval"; readonly unit: string; readonly show?: string } & Interval)
  /** A part of one, printed in percent. */
  | { readonly kind: "share"; readonly value: number }
  | { readonly kind: "none" };

export interface Column {
  /** The key in CSV and JSON: snake_case. */
  readonly name: string;
  readonly title: string;
  readonly align?: "left" | "right";
  /** Left out where a line has no room for it: in a terminal. */
  readonly roomy?: true;
}

export interface Table {
  readonly kind: "table";
  /** Snake_case; the name of its CSV file. */
  readonly name: string;
  readonly caption?: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly Cell[])[];
}

/** Quantities are rows, designs are columns; value, interval and ratio to the baseline stand together. */
export interface Comparison {
  readonly kind: "comparison";
  readonly name: string;
  readonly caption?: string;
  readonly designs: readonly string[];
  /** The design that the ratios refer to, where there is one. */
  readonly baseline?: string;
  readonly rows: readonly ComparisonRow[];
}

export interface ComparisonRow {
  /** The quantity's name, as in JSON. */
  readonly name: string;
  readonly label: string;
  readonly unit: string;
  /** One for each design; undefined where the design has no such quantity. */
  readonly figures: readonly (ComparedFigure | undefined)[];
}

export interface ComparedFigure extends Figure {
  readonly median?: number;
  /** Where a measurement would lie, by the error that the models had on published silicon. */
  readonly model?: Interval;
  /** To the baseline; leave out for the baseline itself and where a ratio says nothing. */
  readonly ratio?: Figure & { readonly model?: Interval };
}

/** Names with their values: a header, a set of settings, the symbols below a formula. */
export interface Pairs {
  readonly kind: "pairs";
  readonly pairs: readonly Pair[];
}

export interface Pair {
  readonly key: string;
  readonly value: Cell;
  /** The source, or what else is to be said. */
  readonly remark?: string;
}

/** A formula as it was computed: with symbols, then with numbers, then the result. */
export interface Formula {
  readonly kind: "formula";
  readonly text: string;
  readonly latex: string;
  readonly numbers?: string;
  readonly result?: Cell;
}

/** What makes up a total: one bar for each design, cut into parts. */
export interface Bars {
  readonly kind: "bars";
  readonly name: string;
  readonly caption?: string;
  readonly unit: string;
  readonly bars: readonly Bar[];
}

export interface Bar {
  readonly label: string;
  /** Where it isn't the unit of the other bars. */
  readonly unit?: string;
  readonly parts: readonly { readonly part: string; readonly value: number }[];
}

/** A drawing of what a table of the document says too. */
export interface Picture {
  readonly kind: "picture";
  /** Snake_case; the name of its file. */
  readonly name: string;
  readonly caption: string;
  /** What a reader who sees no picture is told. */
  readonly alternative: string;
  /** Made by `charts/`, never from a user's text alone. */
  readonly svg: string;
}

/** One step further in: the derivation of a symbol of the formula above. */
export interface Indented {
  readonly kind: "indented";
  readonly blocks: readonly Block[];
}
