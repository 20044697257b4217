import type { Compared } from "../../studies/evidence/compare.ts";
import type { Evidence } from "../../studies/evidence/evidence.ts";
import { COMPARED_QUANTITIES } from "../../studies/evidence/plan.ts";
import { blankPage, type Drawn, element, FILLS, finished, type Page, REST_FILL } from "./svg.ts";

const PANEL = 260;
const GAP = 70;
const TOP = 50;
const COLUMNS = 3;
const DECADES_LEAST = 1;

/** Predicted against published, both axes logarithmic, one panel for each quantity, with a band of a factor of two. */
export function evidenceChart({ chips }: Evidence): string {
  const rows = chips.flatMap(({ figures }) => figures);
  const quantities = [...new Set(rows.map(({ quantity }) => quantity))];
  const kinds = [...new Set(rows.map(({ kind }) => kind))];
  const width = COLUMNS * (PANEL + GAP) + GAP;
  const panels = Math.ceil(quantities.length / COLUMNS);
  const height = panels * (PANEL + GAP + TOP) + TOP;
  const page = blankPage();
  const svg = element(page, "svg", {
    viewBox: `0 0 ${width} ${height}`,
    width,
    height,
    "font-size": 12,
    "font-family": "sans-serif",
  });
  const colour = (kind: string) => FILLS[kinds.indexOf(kind)] ?? REST_FILL;
  kinds.forEach((kind, i) => {
    const x = GAP + i * 115;
    svg.appendChild(
      element(page, "circle", { cx: x, cy: 20, r: 5, fill: colour(kind), stroke: "currentColor" }),
    );
    svg.appendChild(element(page, "text", { x: x + 10, y: 24, fill: "currentColor" }, kind));
  });
  quantities.forEach((quantity, i) => {
    const x = GAP + (i % COLUMNS) * (PANEL + GAP);
    const y = TOP + 30 + Math.floor(i / COLUMNS) * (PANEL + GAP + TOP);
    panel(
      page,
      svg,
      rows.filter((row) => row.quantity === quantity),
      x,
      y,
      colour,
    );
  });
  return finished(
    page,
    svg,
    "Predictions against published silicon",
    "Predicted against published figures on logarithmic axes, with a band of a factor of " +
      "two. Open circles are published values from memory. The table of ratios says the same.",
  );
}

function panel(
  page: Page,
  svg: Drawn,
  rows: readonly Compared[],
  left: number,
  top: number,
  colour: (kind: string) => string,
): void {
  const all = rows.flatMap(({ predicted, measured }) => [predicted, measured]).map(Math.log10);
  const from = Math.floor(Math.min(...all) - 0.3);
  const to = Math.max(from + DECADES_LEAST, Math.ceil(Math.max(...all) + 0.3));
  const at = (log: number) => (PANEL * (log - from)) / (to - from);
  const x = (log: number) => (left + at(log)).toFixed(1);
  const y = (log: number) => (top + PANEL - at(log)).toFixed(1);
  const two = Math.log10(2);
  const draw = (tag: string, attributes: Record<string, string | number>, content?: string) =>
    svg.appendChild(element(page, tag, attributes, content));
  const band = [
    [from, from + two],
    [to - two, to],
    [to, to],
    [to, to - two],
    [from + two, from],
    [from, from],
  ];
  draw("polygon", {
    points: band.map(([a, b]) => `${x(a!)},${y(b!)}`).join(" "),
    fill: REST_FILL,
    "fill-opacity": 0.35,
  });
  draw("rect", {
    x: left,
    y: top,
    width: PANEL,
    height: PANEL,
    fill: "none",
    stroke: "currentColor",
  });
  draw("line", { x1: x(from), y1: y(from), x2: x(to), y2: y(to), stroke: "currentColor" });
  const step = Math.max(1, Math.ceil((to - from) / 5));
  for (let decade = from; decade <= to; decade += step) {
    draw(
      "text",
      { x: x(decade), y: top + PANEL + 16, "text-anchor": "middle", fill: "currentColor" },
      `1e${decade}`,
    );
    draw(
      "text",
      { x: left - 6, y: y(decade), "text-anchor": "end", fill: "currentColor" },
      `1e${decade}`,
    );
  }
  draw(
    "text",
    { x: left, y: top - 8, fill: "currentColor" },
    `${COMPARED_QUANTITIES[rows[0]!.quantity]}, SI`,
  );
  draw(
    "text",
    { x: left + PANEL / 2, y: top + PANEL + 34, "text-anchor": "middle", fill: "currentColor" },
    "published",
  );
  for (const { chip, kind, predicted, measured, recalled } of rows) {
    const place = { cx: x(Math.log10(measured)), cy: y(Math.log10(predicted)), r: 5 };
    const look = recalled
      ? { fill: "none", stroke: colour(kind), "stroke-width": 2 }
      : { fill: colour(kind), stroke: "currentColor" };
    const dot = element(page, "circle", { ...place, ...look });
    dot.appendChild(
      element(page, "title", {}, `${chip}: ${(predicted / measured).toPrecision(2)}`),
    );
    svg.appendChild(dot);
  }
}
