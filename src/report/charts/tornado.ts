/** One parameter at a time: how far each moves a quantity. */
import { formatQuantity } from "../../quantities/format.ts";
import type { Swing, Tornado } from "../../studies/uncertainty/tornado.ts";
import { axisFor } from "./axis.ts";
import { blankPage, element, FILLS, finished } from "./svg.ts";

const WIDTH = 760;
const MOST = 16;
const ROW = 26;
const BAR = 15;
const [LEFT, RIGHT, TOP, BELOW] = [210, 40, 64, 58];
const SMALL = 11;

/** A quantity and what single parameters do to it. */
export interface Swinging {
  readonly label: string;
  readonly unit: string;
  readonly tornado: Tornado;
}

/**
 * A bar for each parameter, from where it takes the quantity at its low value to where it does at its
 * high one, the widest first; a line stands at the nominal parameters.
 *
 * @param design what the design is called
 */
export function tornadoChart(design: string, { tornado, label, unit }: Swinging): string {
  const { nominal } = tornado;
  const whole = tornado.swings.filter(({ atLow, atHigh }) => Number.isFinite(atLow + atHigh));
  const swings = whole.slice(0, MOST);
  const axis = axisFor([nominal, ...swings.flatMap(({ atLow, atHigh }) => [atLow, atHigh])], unit);
  const height = TOP + swings.length * ROW + BELOW;
  const bottom = height - BELOW + 6;
  const across = (value: number): number => LEFT + axis.at(value) * (WIDTH - LEFT - RIGHT);
  const page = blankPage();
  const svg = element(page, "svg", {
    viewBox: `0 0 ${WIDTH} ${height}`,
    width: WIDTH,
    height,
    "font-size": 13,
    "font-family": "system-ui, sans-serif",
  });
  const put = (attributes: Record<string, string | number>, text: string): void =>
    svg.appendChild(element(page, "text", { fill: "currentColor", ...attributes }, text));
  const rule = (x: number, look: Record<string, string | number>): void => {
    const ends = { x1: x, x2: x, y1: TOP - 8, y2: bottom };
    svg.appendChild(element(page, "line", { ...ends, stroke: "currentColor", ...look }));
  };
  put({ x: 14, y: 22, "font-weight": 600 }, titleOf(design, label));
  put(
    { x: 14, y: 42, "font-size": SMALL },
    "one parameter at a time at its 2.5 % and 97.5 % points; named ends are its values there",
  );
  for (const { at, text } of axis.ticks) {
    const x = LEFT + at * (WIDTH - LEFT - RIGHT);
    rule(x, { "stroke-opacity": 0.18 });
    put({ x, y: bottom + 16, "text-anchor": "middle", "font-size": SMALL }, text);
  }
  const middle = (LEFT + WIDTH - RIGHT) / 2;
  put({ x: middle, y: height - 12, "text-anchor": "middle" }, label + axis.unit);
  for (const [i, swing] of swings.entries()) {
    const top = TOP + i * ROW;
    const name = swing.parameter.name.replaceAll("_", " ");
    put({ x: 14, y: top + BAR - 3, "font-size": SMALL }, name);
    for (const end of [
      { to: swing.atLow, at: swing.from, fill: FILLS[0] },
      { to: swing.atHigh, at: swing.to, fill: FILLS[1] },
    ]) {
      const [from, to] = [across(nominal), across(end.to)];
      const bar = { x: Math.min(from, to), y: top, width: Math.abs(to - from), height: BAR };
      svg.appendChild(element(page, "rect", { ...bar, fill: end.fill }));
    }
    for (const one of endLabels(swing, across)) {
      put(
        { x: one.x, y: top + BAR - 3, "text-anchor": one.anchor, "font-size": SMALL - 1 },
        one.text,
      );
    }
  }
  rule(across(nominal), { "stroke-width": 1.5 });
  return finished(page, svg, titleOf(design, label), descriptionOf(swings, label, nominal, unit));
}

function titleOf(design: string, label: string): string {
  return `What moves the ${label} of ${design}`;
}

/** The values of the parameter stand beyond the two ends of its bar, on one side where both ends are there. */
function endLabels(
  { parameter, from, to, atLow, atHigh }: Swing,
  across: (value: number) => number,
) {
  const shown = (value: number): string => formatQuantity({ value }, parameter.unit);
  const ends = [
    { at: across(atLow), text: shown(from) },
    { at: across(atHigh), text: shown(to) },
  ].sort((a, b) => a.at - b.at) as [{ at: number; text: string }, { at: number; text: string }];
  return [
    { x: ends[0].at - 4, anchor: "end", text: ends[0].text },
    { x: ends[1].at + 4, anchor: "start", text: ends[1].text },
  ];
}

function descriptionOf(
  swings: readonly Swing[],
  label: string,
  nominal: number,
  unit: string,
): string {
  const text = (value: number): string => formatQuantity({ value }, unit);
  const told = swings.map(
    ({ parameter, atLow, atHigh }) =>
      `${parameter.name.replaceAll("_", " ")} from ${text(atLow)} to ${text(atHigh)}`,
  );
  return `The ${label} is ${text(nominal)} at the nominal parameters. ${told.join("; ")}.`;
}
