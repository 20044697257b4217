import * as Plot from "@observablehq/plot";
import { engineeringPrefix } from "../../quantities/display.ts";
import { formatQuantity, unitText } from "../../quantities/format.ts";
import type { Bars } from "../document/document.ts";
import { blankPage, type Drawn, element, FILLS, finished, REST_FILL, widthOf } from "./svg.ts";

const WIDTH = 860;
const LEFT = 170;
const RIGHT = 100;
const BAR = 30;
const LEGEND_LINE = 22;
const REST = "rest";

interface Segment {
  readonly bar: string;
  readonly part: string;
  readonly from: number;
  readonly to: number;
  readonly share: number;
}

/** Bars cut into parts: the parts that matter most in any of them have a colour, all others are the rest. */
export function drawStacks(bars: Bars, title: string, description: string): string {
  const page = blankPage();
  const named = largestParts(bars);
  const totals = bars.bars.map(({ parts }) => parts.reduce((sum, { value }) => sum + value, 0));
  const shown = engineeringPrefix(totals, bars.unit);
  const relative = tooFarApart(totals);
  const scales = totals.map((total) => (relative ? total / 100 || 1 : shown.factor));
  const segments = bars.bars.flatMap((_, i) => segmentsOf(bars, i, named, scales[i]!));
  const fill = (part: string) => FILLS[named.indexOf(part)] ?? REST_FILL;
  const most = Math.max(...totals.map((total, i) => total / scales[i]!));
  const legend = legendOf([...named, REST]);
  const top = 14 + legend.lines * LEGEND_LINE;
  const perUnit = (WIDTH - LEFT - RIGHT) / (most || 1);
  const fits = ({ from, to, part }: Segment) => (to - from) * perUnit > widthOf(part, 12) + 8;
  const ends = bars.bars.map(({ label }, i) => ({
    label,
    at: totals[i]! / scales[i]!,
    words: formatQuantity({ value: totals[i]! }, bars.unit),
  }));
  const svg = Plot.plot({
    document: page as never,
    width: WIDTH,
    height: top + bars.bars.length * BAR + 46,
    marginLeft: LEFT,
    marginRight: RIGHT,
    marginTop: top,
    marginBottom: 40,
    x: { domain: [0, most || 1], nice: false },
    y: { domain: bars.bars.map(({ label }) => label), label: null, padding: 0.22 },
    marks: [
      Plot.gridX({ strokeOpacity: 0.18 }),
      Plot.axisX({
        tickSize: 0,
        ticks: 6,
        label: relative ? "% of each total" : unitText(shown.text) || null,
        labelArrow: "none",
        labelOffset: 36,
      }),
      Plot.axisY({ tickSize: 0 }),
      Plot.barX(segments, {
        x1: "from",
        x2: "to",
        y: "bar",
        fill: (d: Segment) => fill(d.part),
        insetLeft: 0.5,
        title: (d: Segment) => `${d.bar}, ${d.part}: ${(100 * d.share).toFixed(1)} %`,
      }),
      Plot.text(segments.filter(fits), {
        x: (d: Segment) => (d.from + d.to) / 2,
        y: "bar",
        text: "part",
        fill: "#14171b",
        fontSize: 12,
      }),
      Plot.text(ends, { x: "at", y: "label", text: "words", textAnchor: "start", dx: 6 }),
      Plot.ruleX([0]),
    ],
  });
  const drawing = svg as unknown as Drawn;
  for (const { text, x, line } of legend.items) {
    const y = 14 + line * LEGEND_LINE;
    const box = { x: LEFT + x, y: y - 9, width: 12, height: 12, fill: fill(text) };
    drawing.appendChild(element(page, "rect", box));
    const words = {
      x: LEFT + x + 17,
      y: y + 2,
      "font-size": 12,
      fill: "currentColor",
      "text-anchor": "start",
    };
    drawing.appendChild(element(page, "text", words, text));
  }
  return finished(page, drawing, title, description);
}

/** On one scale the smaller bars would vanish: each is then drawn in percent of its own total. */
function tooFarApart(totals: readonly number[]): boolean {
  const sizes = totals.filter((total) => total > 0);
  return Math.max(...sizes) > 15 * Math.min(...sizes);
}

/** The parts with the largest share of any bar, as many as there are colours. */
function largestParts({ bars }: Bars): readonly string[] {
  const shares = new Map<string, number>();
  for (const { parts } of bars) {
    const total = parts.reduce((sum, { value }) => sum + value, 0);
    for (const { part, value } of parts) {
      if (total > 0) shares.set(part, Math.max(shares.get(part) ?? 0, value / total));
    }
  }
  const sorted = [...shares].sort(([a, x], [b, y]) => y - x || (a < b ? -1 : 1));
  return sorted.slice(0, FILLS.length).map(([part]) => part);
}

function segmentsOf(
  { bars }: Bars,
  i: number,
  named: readonly string[],
  factor: number,
): Segment[] {
  const { label, parts } = bars[i]!;
  const of = (name: string) =>
    parts.reduce((sum, { part, value }) => {
      const own = name === REST ? !named.includes(part) : part === name;
      return own ? sum + value : sum;
    }, 0);
  const total = parts.reduce((sum, { value }) => sum + value, 0);
  let from = 0;
  return [...named, REST].flatMap((part) => {
    const value = of(part);
    if (!(value > 0)) return [];
    const segment = { bar: label, part, from, to: from + value / factor, share: value / total };
    from = segment.to;
    return [segment];
  });
}

/** Where each name of the legend stands, in as many lines as it needs. */
function legendOf(names: readonly string[]) {
  const room = WIDTH - LEFT - 20;
  let x = 0;
  let line = 0;
  const items = names.map((text) => {
    const width = widthOf(text, 12) + 36;
    if (x > 0 && x + width > room) {
      x = 0;
      line += 1;
    }
    const item = { text, x, line };
    x += width;
    return item;
  });
  return { items, lines: line + 1 };
}
