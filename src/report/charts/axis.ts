/** One axis of a chart: where values lie, and where its marks are. */
import { log10, pow } from "../../numerics/special/elementary.ts";
import { engineeringPrefix } from "../../quantities/display.ts";
import { unitText } from "../../quantities/format.ts";

export interface ChartAxis {
  /** Share of the axis at which a value in SI lies. */
  at(value: number): number;
  readonly ticks: readonly { readonly at: number; readonly text: string }[];
  /** Unit of the marks, with a comma before it. */
  readonly unit: string;
}

/** From this ratio of the ends on an axis is logarithmic. */
const WIDE = 12;
const MARKS = 5;
const ROOM = 0.06;

/**
 * The axis that holds all values: logarithmic where they are positive and far apart.
 *
 * @param values in SI, finite
 */
export function axisFor(values: readonly number[], si: string): ChartAxis {
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const prefix = engineeringPrefix(values, si);
  const unit = unitText(prefix.text);
  const logarithmic = least > 0 && most / least >= WIDE;
  const to = logarithmic
    ? (x: number) => log10(x / prefix.factor)
    : (x: number) => x / prefix.factor;
  const [a, b] = [to(least), to(most)];
  const spare = ROOM * (b - a) || Math.abs(a) * ROOM || 1;
  const [low, high] = [a - spare, b + spare];
  const share = (x: number) => (x - low) / (high - low);
  const marks = logarithmic ? decades(low, high) : steps(low, high);
  return {
    at: (value) => share(to(value)),
    ticks: marks.map((x) => ({ at: share(logarithmic ? log10(x) : x), text: text(x) })),
    unit: unit === "" ? "" : `, ${unit}`,
  };
}

/** Round numbers at equal steps of 1, 2 or 5 times a power of ten. */
function steps(low: number, high: number): number[] {
  const rough = (high - low) / MARKS;
  const power = pow(10, Math.floor(log10(rough)));
  const step = [1, 2, 5, 10].map((n) => n * power).find((one) => one >= rough)!;
  const first = Math.ceil(low / step);
  return Array.from({ length: Math.floor(high / step) - first + 1 }, (_, i) => (first + i) * step);
}

function decades(low: number, high: number): number[] {
  const whole = Array.from({ length: Math.ceil(high) - Math.floor(low) + 1 }, (_, i) =>
    pow(10, Math.floor(low) + i),
  );
  const marks = high - low > 2 ? whole : whole.flatMap((x) => [x, 2 * x, 5 * x]);
  return marks.filter((x) => log10(x) >= low && log10(x) <= high);
}

function text(x: number): string {
  return String(Number(x.toPrecision(3))).replaceAll("-", "−");
}
