/** The organisations that were found, by the first two aims. */
import { formatQuantity } from "../../quantities/format.ts";
import type { Organisation, Organised } from "../../studies/organise/study.ts";
import { axisFor, type ChartAxis } from "./axis.ts";
import { labelsFor } from "./labels.ts";
import { drawMarker } from "./markers.ts";
import { blankPage, type Drawn, element, FILLS, finished, type Page } from "./svg.ts";

const WIDTH = 760;
const HEIGHT = 520;
const SIDES = { left: 74, right: 90, top: 76, bottom: 60 } as const;
const SMALL = 11;
const GRID = { stroke: "currentColor", "stroke-opacity": 0.18 } as const;

interface Frame {
  readonly x: ChartAxis;
  readonly y: ChartAxis;
  across(value: number): number;
  up(value: number): number;
}

/**
 * The trade-off front: each organisation a mark, named by what sets it apart, the winner filled.
 *
 * @param result with two aims or more, of which the first two are drawn
 */
export function frontChart(result: Organised): string {
  const { plan, found } = result;
  const [first, second] = plan.aims as [(typeof plan.aims)[0], (typeof plan.aims)[0]];
  const of = (k: number) => found.map(({ aims }) => aims[k]!);
  const [x, y] = [axisFor(of(0), first.unit), axisFor(of(1), second.unit)];
  const inner = {
    width: WIDTH - SIDES.left - SIDES.right,
    height: HEIGHT - SIDES.top - SIDES.bottom,
  };
  const frame: Frame = {
    x,
    y,
    across: (value) => SIDES.left + x.at(value) * inner.width,
    up: (value) => SIDES.top + (1 - y.at(value)) * inner.height,
  };
  const page = blankPage();
  const svg = element(page, "svg", {
    viewBox: `0 0 ${WIDTH} ${HEIGHT}`,
    width: WIDTH,
    height: HEIGHT,
    "font-size": 13,
    "font-family": "system-ui, sans-serif",
  });
  const put = (attributes: Record<string, string | number>, text: string) =>
    svg.appendChild(element(page, "text", { fill: "currentColor", ...attributes }, text));
  put({ x: SIDES.left, y: 24, "font-weight": 600 }, titleOf(result));
  const names = differing(plan, found).map((k) => shortName(plan.variables[k]!.name));
  const lines = [
    `${first.sense} ${words(first.text)}, ${second.sense} ${words(second.text)}` +
      `${names.length === 0 ? "" : `; names: ${names.join(" · ")}`}`,
    ...intervalLine(result),
  ];
  for (const [i, line] of lines.entries()) {
    put({ x: SIDES.left, y: 44 + 16 * i, "font-size": SMALL }, line);
  }
  drawAxes(page, svg, frame, [words(first.text), words(second.text)]);
  drawMarks(page, svg, frame, result);
  return finished(page, svg, titleOf(result), descriptionOf(result));
}

export function titleOf({ plan }: Organised): string {
  return `${plan.aims.length > 1 ? "Trade-off front" : "Best organisations"} of ${plan.design}`;
}

const words = (name: string): string => name.replaceAll("_", " ");

function descriptionOf({ plan, found, winner }: Organised): string {
  const [x, y] = plan.aims;
  return (
    `${found.length} organisations by ${words(x!.text)} and ${words(y!.text)}. The winner is ` +
    `number ${winner + 1}: ${nameOf(plan, found[winner]!, differing(plan, found))}. ` +
    "The table of the front says the same."
  );
}

const shortName = (name: string): string => words(name.split(".").at(-1)!);

/** The interval of the winner in words: as a bar it would dwarf the front, whose points share its parameters. */
function intervalLine({ plan, intervals }: Organised): string[] {
  const ends = plan.aims.slice(0, 2).flatMap(({ text, unit }, k) => {
    const one = intervals[k];
    if (one === undefined) return [];
    const [low, high] = [one.low, one.high].map((value) => formatQuantity({ value }, unit));
    return [`${words(text)} ${low} to ${high}`];
  });
  if (ends.length === 0) return [];
  return [`${Math.round(100 * plan.study.coverage)} % interval of the winner: ${ends.join(", ")}`];
}

/** Places of the variables in which those that were found differ. */
function differing({ variables }: Organised["plan"], found: readonly Organisation[]): number[] {
  return [...variables.keys()].filter((k) =>
    found.some(({ values }) => values[k] !== found[0]!.values[k]),
  );
}

/** What an organisation is named by: the values in which those that were found differ. */
function nameOf(
  plan: Organised["plan"],
  { values }: Organisation,
  places: readonly number[],
): string {
  return places
    .map((k) => {
      const value = values[k]!;
      if (typeof value === "string") return value;
      const { unit } = plan.variables[k]!;
      return unit === "1" ? String(Number(value.toPrecision(3))) : formatQuantity({ value }, unit);
    })
    .join(" · ");
}

function drawAxes(
  page: Page,
  svg: Drawn,
  { x, y }: Frame,
  [across, up]: readonly [string, string],
): void {
  const [left, right] = [SIDES.left, WIDTH - SIDES.right];
  const [top, bottom] = [SIDES.top, HEIGHT - SIDES.bottom];
  const small = { fill: "currentColor", "font-size": SMALL } as const;
  for (const { at, text } of x.ticks) {
    const place = left + at * (right - left);
    svg.appendChild(element(page, "line", { x1: place, x2: place, y1: top, y2: bottom, ...GRID }));
    const middle = { x: place, y: bottom + 16, "text-anchor": "middle", ...small };
    svg.appendChild(element(page, "text", middle, text));
  }
  for (const { at, text } of y.ticks) {
    const place = bottom - at * (bottom - top);
    svg.appendChild(element(page, "line", { x1: left, x2: right, y1: place, y2: place, ...GRID }));
    const beside = { x: left - 6, y: place + 4, "text-anchor": "end", ...small };
    svg.appendChild(element(page, "text", beside, text));
  }
  const middle = { fill: "currentColor", "text-anchor": "middle" } as const;
  const [cx, cy] = [(left + right) / 2, (top + bottom) / 2];
  svg.appendChild(element(page, "text", { x: cx, y: HEIGHT - 16, ...middle }, across + x.unit));
  const turned = { transform: `translate(20 ${cy}) rotate(-90)`, ...middle };
  svg.appendChild(element(page, "text", turned, up + y.unit));
}

function drawMarks(page: Page, svg: Drawn, frame: Frame, { plan, found, winner }: Organised): void {
  const places = differing(plan, found);
  const spots = found.map((one, i) => ({
    one,
    i,
    x: frame.across(one.aims[0]!),
    y: frame.up(one.aims[1]!),
    text: nameOf(plan, one, places),
  }));
  for (const { i, x, y, text } of spots) {
    const mark = drawMarker(page, x, y, { shape: 0, fill: FILLS[0], open: i !== winner });
    mark.appendChild(element(page, "title", {}, text));
    svg.appendChild(mark);
  }
  // The winner is named first, then the ends, then who still finds room.
  const weight = (i: number): number =>
    i === winner ? 0 : i === 0 || i === spots.length - 1 ? 1 : 2;
  const wanted = [...spots].sort((a, b) => weight(a.i) - weight(b.i) || a.i - b.i);
  const inside = {
    left: SIDES.left,
    right: WIDTH - 4,
    top: SIDES.top,
    bottom: HEIGHT - SIDES.bottom,
  };
  for (const { x, y, anchor, text } of labelsFor(wanted, spots, inside, SMALL)) {
    const at = { x, y, "text-anchor": anchor, "font-size": SMALL, fill: "currentColor" };
    svg.appendChild(element(page, "text", at, text));
  }
}
