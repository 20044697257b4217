/** Lines over a logarithmic axis, described once: numbers in SI, words for people. */
export interface LineChart {
  readonly title: string;
  /** What a reader who sees no picture is told. */
  readonly description: string;
  readonly x: Axis & {
    readonly ticks: readonly number[];
    readonly tickText: (x: number) => string;
  };
  readonly y: Axis & { readonly from: number; readonly to: number };
  readonly series: readonly Series[];
  /** Horizontal lines to read the others against. */
  readonly marks: readonly { readonly y: number; readonly text: string }[];
}

export interface Axis {
  readonly label: string;
}

export interface Series {
  readonly name: string;
  readonly points: readonly Point[];
}

export interface Point {
  readonly x: number;
  readonly y: number;
  readonly low: number;
  readonly high: number;
}
