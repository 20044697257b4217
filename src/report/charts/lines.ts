import * as Plot from "@observablehq/plot";
import { parseHTML } from "linkedom";
import type { LineChart, Series } from "./chart.ts";
import { drawnText } from "./svg.ts";

const WIDTH = 880;
const HEIGHT = 560;
const ROOM_FOR_NAMES = 190;
/** Least distance of two names, as a share of the height. */
const NAME_STEP = 1 / 28;
/** Colours that stay apart for most eyes; lines of one colour differ in their dashes. */
const COLOURS = ["#0072b2", "#d55e00", "#009e73", "#cc79a7", "#56b4e9", "#8a6d00", "#333333"];
const DASHES = ["none", "7 3", "2 3"];

interface Drawn {
  readonly series: string;
  readonly x: number;
  readonly y: number;
  readonly title: string;
}

/**
 * A chart of lines as SVG. The same chart gives the same bytes everywhere: no fonts are measured
 * and nothing is random.
 */
export function drawLines(chart: LineChart): string {
  const { document } = parseHTML("<html><body></body></html>");
  const { x, y, series, marks } = chart;
  const inside = (value: number) => Math.min(y.to, Math.max(y.from, value));
  const svg = Plot.plot({
    document: document as never,
    className: "chart",
    width: WIDTH,
    height: HEIGHT,
    marginLeft: 55,
    marginRight: ROOM_FOR_NAMES,
    marginTop: 40,
    marginBottom: 48,
    style: { fontFamily: "sans-serif", fontSize: "12px", background: "white" },
    x: { type: "log", base: 2, label: x.label, ticks: [...x.ticks], tickFormat: x.tickText },
    y: { label: y.label, domain: [y.from, y.to], grid: true, ticks: 12 },
    marks: [
      Plot.ruleY([0], { stroke: "#999" }),
      ...marks.map((mark) => Plot.ruleY([mark.y], { stroke: "#b00020", strokeWidth: 2 })),
      ...marks.map((mark) =>
        Plot.text([mark], {
          x: x.ticks[0]!,
          y: "y",
          text: "text",
          dy: -8,
          textAnchor: "start",
          fill: "#b00020",
        }),
      ),
      ...series.flatMap((one, i) => {
        const points = one.points.map((point) =>
          drawn(one, point.x, inside(point.y), point, x.tickText),
        );
        const look = { stroke: COLOURS[i % COLOURS.length]!, strokeWidth: 1.8 };
        const dash = DASHES[Math.floor(i / COLOURS.length) % DASHES.length]!;
        return [
          Plot.line(points, { x: "x", y: "y", ...look, strokeDasharray: dash }),
          Plot.dot(points, { x: "x", y: "y", r: 2.5, fill: look.stroke, title: "title" }),
        ];
      }),
      ...nameMarks(chart, inside),
    ],
  });
  svg.setAttribute("role", "img");
  svg.setAttribute("xmlns", "http://www.w3.org/2000/svg");
  const text = (tag: string, content: string) => {
    const element = document.createElementNS("http://www.w3.org/2000/svg", tag);
    element.textContent = content;
    return element as never;
  };
  svg.insertBefore(text("desc", chart.description), svg.firstChild);
  svg.insertBefore(text("title", chart.title), svg.firstChild);
  return `${drawnText(svg)}\n`;
}

function drawn(
  { name }: Series,
  x: number,
  y: number,
  point: { readonly y: number; readonly low: number; readonly high: number },
  tickText: (x: number) => string,
): Drawn {
  const [value, low, high] = [point.y, point.low, point.high].map((one) => one.toFixed(1));
  return { series: name, x, y, title: `${name} at ${tickText(x)}: ${value} (${low} to ${high})` };
}

/** Names stand behind the ends of their lines, pushed apart as little as possible. */
function nameMarks({ series, y }: LineChart, inside: (value: number) => number) {
  const ends = series
    .map((one, i) => ({ one, i, at: inside(one.points.at(-1)!.y) }))
    .sort((a, b) => a.at - b.at);
  const places = spread(
    ends.map(({ at }) => at),
    (y.to - y.from) * NAME_STEP,
  );
  return ends.map(({ one, i }, rank) =>
    Plot.text([{ name: one.name }], {
      x: one.points.at(-1)!.x,
      y: places[rank]!,
      text: "name",
      textAnchor: "start",
      dx: 10,
      fill: COLOURS[i % COLOURS.length]!,
    }),
  );
}

/**
 * The places nearest to the wanted ones (least squares) that are at least `step` apart: names that
 * would touch form a block around their mean.
 */
function spread(wanted: readonly number[], step: number): number[] {
  const blocks: { sum: number; count: number }[] = [];
  for (const [i, at] of wanted.entries()) {
    let block = { sum: at - i * step, count: 1 };
    for (;;) {
      const before = blocks.at(-1);
      if (before === undefined || before.sum / before.count <= block.sum / block.count) break;
      blocks.pop();
      block = { sum: block.sum + before.sum, count: block.count + before.count };
    }
    blocks.push(block);
  }
  const means = blocks.flatMap(({ sum, count }) => Array<number>(count).fill(sum / count));
  return means.map((mean, i) => mean + i * step);
}
