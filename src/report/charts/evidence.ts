import { log10, pow } from "../../numerics/special/elementary.ts";
import { engineeringPrefix } from "../../quantities/display.ts";
import { formatRatio, unitText } from "../../quantities/format.ts";
import type { Compared } from "../../studies/evidence/compare.ts";
import { type Evidence, isOff, OFF } from "../../studies/evidence/evidence.ts";
import { COMPARED_QUANTITIES } from "../../studies/evidence/plan.ts";
import { type Label, labelsFor } from "./labels.ts";
import { drawMarker, type MarkerLook } from "./markers.ts";
import { blankPage, type Drawn, element, FILLS, finished, type Page, REST_FILL } from "./svg.ts";

const PANEL = 280;
/** Between panels: room for the labels of the axis to the right. */
const GAP = 92;
const ABOVE = 34;
const BELOW = 56;
const TOP = 66;
const COLUMNS = 3;
const LEGEND_ITEM = 118;
const SMALL = 11;

/** Where a panel lies and how its axes run, both alike. */
interface Frame {
  readonly left: number;
  readonly top: number;
  readonly from: number;
  readonly to: number;
  /** What one of the axis is in SI. */
  readonly unit: number;
}

/** Predicted against published, both axes logarithmic, a panel for each quantity, with a band of a factor of two. */
export function evidenceChart({ chips }: Evidence): string {
  const rows = chips.flatMap(({ figures }) => figures);
  const quantities = Object.keys(COMPARED_QUANTITIES).filter((name) =>
    rows.some(({ quantity }) => quantity === name),
  );
  const kinds = [...new Set(rows.map(({ kind }) => kind))];
  const across = Math.min(COLUMNS, quantities.length);
  const width = Math.max(across * (PANEL + GAP) + 40, kinds.length * LEGEND_ITEM + GAP);
  const height = TOP + Math.ceil(quantities.length / COLUMNS) * (ABOVE + PANEL + BELOW);
  const page = blankPage();
  const svg = element(page, "svg", {
    viewBox: `0 0 ${width} ${height}`,
    width,
    height,
    "font-size": 13,
    "font-family": "system-ui, sans-serif",
  });
  const look = (kind: string, open: boolean): MarkerLook => {
    const at = kinds.indexOf(kind);
    return { shape: at, fill: FILLS[at] ?? REST_FILL, open };
  };
  drawLegend(page, svg, kinds, look);
  for (const [i, quantity] of quantities.entries()) {
    const of = rows.filter((row) => row.quantity === quantity);
    const place = {
      left: GAP - 24 + (i % COLUMNS) * (PANEL + GAP),
      top: TOP + ABOVE + Math.floor(i / COLUMNS) * (ABOVE + PANEL + BELOW),
    };
    drawPanel(page, svg, of, place, look);
  }
  return finished(page, svg, "Predictions against published silicon", descriptionOf(rows));
}

function descriptionOf(rows: readonly Compared[]): string {
  const off = rows.filter(({ ratio }) => isOff(ratio)).length;
  return (
    `Predicted against published figures on logarithmic axes, with a band of a factor of ${OFF}: ` +
    `${rows.length - off} of ${rows.length} figures lie in it, the others are named. Open marks are ` +
    "published figures from memory. The table of ratios says the same."
  );
}

type Look = (kind: string, open: boolean) => MarkerLook;

function drawLegend(page: Page, svg: Drawn, kinds: readonly string[], look: Look): void {
  const left = GAP - 24;
  const put = (x: number, y: number, text: string) =>
    svg.appendChild(element(page, "text", { x, y, fill: "currentColor" }, text));
  for (const [i, kind] of kinds.entries()) {
    const x = left + i * LEGEND_ITEM;
    svg.appendChild(drawMarker(page, x + 6, 20, look(kind, false)));
    put(x + 18, 24, kind);
  }
  put(
    left,
    48,
    `Open: published figure from memory · band: a factor of ${OFF} · named: outside of it`,
  );
}

function drawPanel(
  page: Page,
  svg: Drawn,
  rows: readonly Compared[],
  place: Pick<Frame, "left" | "top">,
  look: Look,
): void {
  const { label, unit: si } = COMPARED_QUANTITIES[rows[0]!.quantity];
  const values = rows.flatMap(({ predicted, measured }) => [predicted, measured]);
  const prefix = engineeringPrefix(values, si);
  const logs = values.map((x) => log10(x / prefix.factor));
  const frame: Frame = {
    ...place,
    from: Math.floor(Math.min(...logs) - 0.15),
    // A share ends at one.
    to: si === "1" ? 0 : Math.ceil(Math.max(...logs) + 0.15),
    unit: prefix.factor,
  };
  const unit = unitText(prefix.text);
  drawGround(page, svg, frame);
  drawAxes(page, svg, frame, unit === "" ? "" : `, ${unit}`);
  const { left, top } = frame;
  const heading = { x: left, y: top - 12, fill: "currentColor", "font-weight": 600 };
  svg.appendChild(element(page, "text", heading, label));
  const dots = rows.map((row) => ({
    row,
    x: across(frame, row.measured),
    y: up(frame, row.predicted),
  }));
  for (const { row, x, y } of dots) {
    const mark = drawMarker(page, x, y, look(row.kind, row.recalled));
    const told = `${row.chip} ${formatRatio(row.ratio)}`;
    mark.appendChild(element(page, "title", {}, told));
    svg.appendChild(mark);
  }
  const box = { left, right: left + PANEL, top, bottom: top + PANEL };
  const named = dots
    .filter(({ row }) => isOff(row.ratio))
    .map(({ row, x, y }) => ({ x, y, text: `${row.chip} ${formatRatio(row.ratio)}` }));
  const marks = dots.map(({ x, y }) => ({ x, y }));
  for (const one of labelsFor(named, marks, box, SMALL)) drawLabel(page, svg, one);
}

function drawLabel(page: Page, svg: Drawn, { x, y, anchor, text }: Label): void {
  const attributes = {
    x: x.toFixed(1),
    y: y.toFixed(1),
    "font-size": SMALL,
    "text-anchor": anchor,
    fill: "currentColor",
  };
  svg.appendChild(element(page, "text", attributes, text));
}

const along = ({ from, to, unit }: Frame, value: number): number =>
  (PANEL * (log10(value / unit) - from)) / (to - from);
const across = (frame: Frame, value: number): number => frame.left + along(frame, value);
const up = (frame: Frame, value: number): number => frame.top + PANEL - along(frame, value);

/** The band, the diagonal and the frame. */
function drawGround(page: Page, svg: Drawn, frame: Frame): void {
  const { from, to, unit, left, top } = frame;
  const [low, high] = [unit * pow(10, from), unit * pow(10, to)];
  const corners = [
    [low, low],
    [low, low * OFF],
    [high / OFF, high],
    [high, high],
    [high, high / OFF],
    [low * OFF, low],
  ];
  const points = corners
    .map(([x, y]) => `${across(frame, x!).toFixed(1)},${up(frame, y!).toFixed(1)}`)
    .join(" ");
  svg.appendChild(element(page, "polygon", { points, fill: REST_FILL, "fill-opacity": 0.35 }));
  const line = { stroke: "currentColor", "stroke-opacity": 0.6 };
  svg.appendChild(
    element(page, "line", { x1: left, y1: top + PANEL, x2: left + PANEL, y2: top, ...line }),
  );
  const frameBox = { x: left, y: top, width: PANEL, height: PANEL, fill: "none" };
  svg.appendChild(element(page, "rect", { ...frameBox, stroke: "currentColor" }));
}

/** Decades along both axes, and what they are of. */
function drawAxes(page: Page, svg: Drawn, frame: Frame, unit: string): void {
  const { from, to, left, top, unit: one } = frame;
  const bottom = top + PANEL;
  const text = (content: string, attributes: Readonly<Record<string, string | number>>) =>
    svg.appendChild(element(page, "text", { fill: "currentColor", ...attributes }, content));
  const step = Math.max(1, Math.ceil((to - from) / 6));
  for (let decade = from; decade <= to; decade += step) {
    const x = across(frame, one * pow(10, decade));
    const y = up(frame, one * pow(10, decade));
    const tick = { stroke: "currentColor", "stroke-opacity": decade === from ? 0 : 0.14 };
    svg.appendChild(element(page, "line", { x1: x, x2: x, y1: top, y2: bottom, ...tick }));
    svg.appendChild(element(page, "line", { x1: left, x2: left + PANEL, y1: y, y2: y, ...tick }));
    text(decadeText(decade), { x, y: bottom + 17, "text-anchor": "middle" });
    text(decadeText(decade), { x: left - 6, y: y + 4, "text-anchor": "end" });
  }
  const middle = { "text-anchor": "middle" };
  text(`published${unit}`, { x: left + PANEL / 2, y: bottom + 36, ...middle });
  const at = { x: left - 44, y: top + PANEL / 2 };
  text(`predicted${unit}`, { ...at, ...middle, transform: `rotate(-90 ${at.x} ${at.y})` });
}

function decadeText(decade: number): string {
  if (decade >= -2 && decade <= 3) return String(Number(pow(10, decade).toPrecision(1)));
  return `10${[...String(decade)].map((c) => (c === "-" ? "⁻" : "⁰¹²³⁴⁵⁶⁷⁸⁹"[Number(c)])).join("")}`;
}
