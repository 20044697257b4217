import * as Plot from "@observablehq/plot";
import { log10, pow } from "../../numerics/special/elementary.ts";
import { formatRatio } from "../../quantities/format.ts";
import { blankPage, type Drawn, finished } from "./svg.ts";

/** One ratio with its interval: a design's quantity over the baseline's. */
export interface RatioPoint {
  readonly quantity: string;
  readonly design: string;
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

export interface RatioChart {
  readonly title: string;
  readonly description: string;
  readonly axis: string;
  readonly points: readonly RatioPoint[];
}

const WIDTH = 900;
const LINE = 20;
const HEAD = 30;
const LEFT = 170;
const RIGHT = 210;
/** What lies further out is cut: no decision needs it. */
const LEAST = 1e-4;
const MOST = 1e6;

/** Ratios to the baseline on a logarithmic axis: a dot with its interval for each design, by quantity. */
export function drawRatios({ title, description, axis, points }: RatioChart): string {
  const page = blankPage();
  const quantities = [...new Set(points.map(({ quantity }) => quantity))];
  const designs = [...new Set(points.map(({ design }) => design))];
  const block = designs.length * LINE + HEAD;
  const domain = domainOf(points);
  const inside = (x: number) => Math.min(domain[1], Math.max(domain[0], x));
  const rows = points.map((one) => ({
    ...one,
    from: inside(one.low),
    to: inside(one.high),
    at: inside(one.value),
    open: one.low <= 1 && one.high >= 1,
    words: `${formatRatio(one.value)}  (${[one.low, one.high].map(bare).join(" – ")})`,
  }));
  const place = { fy: "quantity", y: "design" } as const;
  const svg = Plot.plot({
    document: page as never,
    width: WIDTH,
    height: quantities.length * block + 76,
    marginLeft: LEFT,
    marginRight: RIGHT,
    marginTop: 56,
    marginBottom: 20,
    x: { type: "log", domain, label: null },
    y: { domain: designs, label: null, padding: 0.3 },
    fy: { domain: quantities, label: null, padding: HEAD / block },
    marks: [
      Plot.axisFy({ ticks: [] }),
      Plot.gridX(decades(domain), { strokeOpacity: 0.18 }),
      Plot.axisX(decades(domain), {
        anchor: "top",
        tickFormat: powerText,
        label: null,
        tickSize: 0,
      }),
      Plot.ruleX([1], { strokeWidth: 1.5 }),
      Plot.axisY({ tickSize: 0 }),
      Plot.ruleY(rows, { ...place, x1: "from", x2: "to", strokeWidth: 2, strokeOpacity: 0.55 }),
      Plot.dot(rows, {
        ...place,
        x: "at",
        r: 4,
        fill: "currentColor",
        stroke: "currentColor",
        filter: (d) => !d.open,
      }),
      Plot.dot(rows, {
        ...place,
        x: "at",
        r: 4,
        stroke: "currentColor",
        strokeWidth: 2,
        filter: (d) => d.open,
      }),
      Plot.text(rows, {
        ...place,
        text: "words",
        frameAnchor: "right",
        textAnchor: "start",
        dx: 10,
      }),
      Plot.text([axis], {
        fy: () => quantities[0]!,
        text: (d: string) => d,
        frameAnchor: "top",
        dy: -44,
        lineAnchor: "bottom",
        fontWeight: 600,
      }),
      Plot.text(quantities, {
        fy: (d: string) => d,
        text: (d: string) => d,
        frameAnchor: "top-left",
        dx: -LEFT + 4,
        dy: -16,
        fontWeight: 600,
        textAnchor: "start",
      }),
    ],
  });
  return finished(page, svg as unknown as Drawn, title, description);
}

const bare = (x: number) => formatRatio(x).replace("× ", "");

/** Whole decades around all intervals and the baseline. */
function domainOf(points: readonly RatioPoint[]): [number, number] {
  const all = points.flatMap(({ low, high }) => [low, high]).filter((x) => x > 0 && x < Infinity);
  const low = Math.max(LEAST, Math.min(0.5, ...all));
  const high = Math.min(MOST, Math.max(2, ...all));
  return [pow(10, Math.floor(log10(low))), pow(10, Math.ceil(log10(high)))];
}

function decades([from, to]: readonly [number, number]): number[] {
  const first = Math.round(log10(from));
  const count = Math.round(log10(to)) - first + 1;
  return Array.from({ length: count }, (_, i) => pow(10, first + i));
}

function powerText(x: number): string {
  if (x >= 1e-2 && x < 1e4) return String(Number(x.toPrecision(1)));
  const digits = String(Math.round(log10(x)));
  return `10${[...digits].map((c) => (c === "-" ? "⁻" : "⁰¹²³⁴⁵⁶⁷⁸⁹"[Number(c)])).join("")}`;
}
