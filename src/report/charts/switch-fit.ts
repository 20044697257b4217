import * as Plot from "@observablehq/plot";
import { formatQuantity } from "../../quantities/format.ts";
import { blankPage, type Drawn, element, FILLS, finished, type Page, svgFile } from "./svg.ts";

/** What was measured, what the fit says of it, and by how much they differ. */
export interface FitChart {
  readonly title: string;
  readonly kind: "times" | "loop";
  readonly points: readonly {
    readonly voltage: number;
    readonly measured: number;
    readonly fitted: number;
  }[];
  /** Of ln time, or of asinh of the scaled current. */
  readonly residuals: readonly number[];
}

const WIDTH = 760;
const HEIGHT = 360;
const RESIDUALS = 170;
const MARGINS = { marginLeft: 76, marginRight: 40, marginBottom: 44 } as const;

/** Measured points over voltage with the fit, and below them the residuals. */
export function drawFit(chart: FitChart): string {
  const page = blankPage();
  const { title, kind } = chart;
  const above = upper(page, chart);
  const below = lower(page, chart);
  below.setAttribute("y", String(HEIGHT));
  const whole = element(page, "svg", {
    width: WIDTH,
    height: HEIGHT + RESIDUALS,
    viewBox: `0 0 ${WIDTH} ${HEIGHT + RESIDUALS}`,
    fill: "currentColor",
    "font-family": "system-ui, sans-serif",
    "font-size": 12,
    "text-anchor": "middle",
  });
  whole.appendChild(above);
  whole.appendChild(below);
  const what = kind === "times" ? "Switching times" : "Currents";
  const words = `${what} over voltage: dots are measured, crosses and the line the fit; below them the residuals`;
  return svgFile(finished(page, whole, title, words));
}

function upper(page: Page, { kind, points }: FitChart): Drawn {
  const times = kind === "times";
  // A loop has both signs of current over many decades: its size is drawn.
  const size = (x: number) => (times ? x : Math.abs(x));
  const shown = points
    .map(({ voltage, measured, fitted }) => {
      return { voltage, measured: size(measured), fitted: size(fitted) };
    })
    .filter(({ measured, fitted }) => measured > 0 && fitted > 0);
  const unit = times ? "s" : "A";
  const line = times ? [...shown].sort((a, b) => a.voltage - b.voltage) : shown;
  const signs = times
    ? [line.filter((p) => p.voltage < 0), line.filter((p) => p.voltage > 0)]
    : [line];
  return Plot.plot({
    document: page as never,
    width: WIDTH,
    height: HEIGHT,
    marginTop: 36,
    ...MARGINS,
    x: { label: null, grid: true },
    y: {
      type: "log",
      grid: true,
      label: times ? "time" : "size of the current",
      ticks: 7,
      tickFormat: (value: number) => formatQuantity({ value }, unit),
    },
    marks: [
      ...signs.map((part) =>
        Plot.line(part, { x: "voltage", y: "fitted", stroke: "#b00020", strokeWidth: 1.6 }),
      ),
      Plot.dot(shown, { x: "voltage", y: "fitted", symbol: "times", stroke: "#b00020", r: 4 }),
      Plot.dot(shown, { x: "voltage", y: "measured", fill: FILLS[0], stroke: "#333", r: 4 }),
    ],
  }) as unknown as Drawn;
}

function lower(page: Page, { kind, points, residuals }: FitChart): Drawn {
  const shown = points.map(({ voltage }, i) => ({ voltage, residual: residuals[i]! }));
  return Plot.plot({
    document: page as never,
    width: WIDTH,
    height: RESIDUALS,
    marginTop: 20,
    ...MARGINS,
    x: { label: "voltage of the source, V", grid: true },
    y: { label: kind === "times" ? "ln(fitted/measured)" : "residual", grid: true, ticks: 5 },
    marks: [
      Plot.ruleY([0], { stroke: "#333" }),
      Plot.ruleX(shown, { x: "voltage", y1: 0, y2: "residual", stroke: "#b00020" }),
      Plot.dot(shown, { x: "voltage", y: "residual", fill: FILLS[0], stroke: "#333", r: 3 }),
    ],
  }) as unknown as Drawn;
}
