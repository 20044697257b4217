/** Figures as text: the typographic form of a proposal, or plain ASCII. */

import { type DisplayUnit, displayUnit, engineeringPrefix } from "./display.ts";
import { decadeOf, roundToDigits, roundToUncertainty } from "./rounding.ts";
import { SPELLINGS, UNITS } from "./units.ts";

/** A figure in SI, with its interval where there is one. */
export interface Figure {
  readonly value: number;
  readonly low?: number;
  readonly high?: number;
}

export interface FormatOptions {
  /** Plain ASCII instead of µ Ω ² × –; default false. */
  readonly ascii?: boolean;
  /** The unit to print in; by default the prefix that suits best. */
  readonly show?: string;
  /** Significant digits of a figure without interval; default 3. */
  readonly digits?: number;
}

export interface FormattedFigure {
  readonly value: string;
  readonly low?: string;
  readonly high?: string;
  /** Such as `0.74 – 0.93`. */
  readonly interval?: string;
}

export interface FormattedRow {
  /** The unit of all figures of the row; for a count its prefix, or nothing. */
  readonly unit: string;
  readonly figures: readonly FormattedFigure[];
}

const SUPERSCRIPTS = "⁰¹²³⁴⁵⁶⁷⁸⁹";
/** Outside of these a figure gets a power of ten. */
const SMALLEST_PLAIN = 1e-3;
const LARGEST_PLAIN = 1e6;

/** A row of figures that share one unit, each with its own last digit. */
export function formatRow(
  figures: readonly Figure[],
  unit: string,
  options: FormatOptions = {},
): FormattedRow {
  const shown =
    options.show === undefined
      ? engineeringPrefix(
          figures.map((f) => f.value),
          unit,
        )
      : displayUnit(options.show);
  return {
    unit: unitText(shown.text, options),
    figures: figures.map((figure) => formatFigure(figure, shown, options)),
  };
}

/** One figure with its unit, such as `0.82 mm² (0.74 – 0.93 mm²)`, or without interval `2.5 kΩ`. */
export function formatQuantity(figure: Figure, unit: string, options: FormatOptions = {}): string {
  const row = formatRow([figure], unit, options);
  const { value, interval } = row.figures[0]!;
  const behind = row.unit === "" ? "" : ` ${row.unit}`;
  return value + behind + (interval === undefined ? "" : ` (${interval}${behind})`);
}

/** A ratio with two significant digits: `× 0.38`, in ASCII `x 0.38`. */
export function formatRatio(ratio: number, options: FormatOptions = {}): string {
  const two = Number.isFinite(ratio) ? Number(ratio.toPrecision(2)) : ratio;
  const text =
    Number.isFinite(two) && two > 0 && two < 10 && two >= 0.001
      ? two.toFixed(1 - decadeOf(two))
      : formatNumber(two, { ...options, digits: 2 });
  return `${options.ascii === true ? "x" : "×"} ${text}`;
}

/** A plain number; beyond the comfortable sizes with a power of ten, `1.2 × 10⁻¹⁵` or `1.2e-15`. */
export function formatNumber(x: number, options: FormatOptions = {}): string {
  const digits = options.digits ?? 3;
  if (Number.isNaN(x)) return options.ascii === true ? "-" : "–";
  if (!Number.isFinite(x))
    return minus((x < 0 ? "-" : "") + (options.ascii ? "inf" : "∞"), options);
  const size = Math.abs(x);
  if (size === 0 || (size >= SMALLEST_PLAIN && size < LARGEST_PLAIN)) {
    return minus(roundToDigits(x, digits), options);
  }
  const [mantissa, exponent] = x.toExponential(digits - 1).split("e") as [string, string];
  if (options.ascii === true) return `${mantissa}e${Number(exponent)}`;
  return minus(`${mantissa} × 10${superscript(String(Number(exponent)))}`, options);
}

/** A unit text as it is printed: `um^2` becomes `µm²`, `ohm` `Ω`; `1` becomes nothing. */
export function unitText(text: string, options: FormatOptions = {}): string {
  if (text === "1") return "";
  if (options.ascii === true) return text;
  return text
    .replace(/[A-Za-z]+/g, printedName)
    .replace(/\^\(?(-?\d+)\)?(?!\/)/g, (_, digits: string) => superscript(digits));
}

function printedName(word: string): string {
  if (word === "degC") return "°C";
  if (Object.hasOwn(UNITS, word) || Object.hasOwn(SPELLINGS, word))
    return word === "ohm" ? "Ω" : word;
  return word.replace(/^u/, "µ").replace(/ohm$/, "Ω");
}

function superscript(digits: string): string {
  return [...digits].map((c) => (c === "-" ? "⁻" : SUPERSCRIPTS[Number(c)])).join("");
}

function minus(text: string, options: FormatOptions): string {
  return options.ascii === true ? text : text.replace(/^-/, "\u2212");
}

function formatFigure(figure: Figure, unit: DisplayUnit, options: FormatOptions): FormattedFigure {
  const scaled = (x: number): number => (x - unit.offset) / unit.factor;
  const value = scaled(figure.value);
  const low = figure.low === undefined ? value : scaled(figure.low);
  const high = figure.high === undefined ? value : scaled(figure.high);
  const all = [value, low, high];
  if (!all.every(Number.isFinite) || low === high) {
    return { value: formatNumber(value, options) };
  }
  const plain = all.every(
    (x) => x === 0 || (Math.abs(x) >= SMALLEST_PLAIN && Math.abs(x) < LARGEST_PLAIN),
  );
  const rounded = roundToUncertainty(value, low, high);
  const print = (text: string, x: number): string =>
    plain ? minus(text, options) : formatNumber(x, { ...options, digits: 2 });
  const lowText = print(rounded.low, low);
  const highText = print(rounded.high, high);
  return {
    value: print(rounded.value, value),
    low: lowText,
    high: highText,
    interval: `${lowText} ${options.ascii === true ? "to" : "–"} ${highText}`,
  };
}
