import * as Plot from "@observablehq/plot";
import { formatQuantity } from "../../quantities/format.ts";
import { blankPage, type Drawn, FILLS, finished, svgFile } from "./svg.ts";

/** A current-voltage loop in the order of time. */
export interface LoopChart {
  readonly title: string;
  readonly points: readonly { readonly voltage: number; readonly current: number }[];
}

const WIDTH = 760;
const HEIGHT = 480;

/** Size of the current over voltage, the way out and the way back apart. */
export function drawLoop({ title, points }: LoopChart): string {
  const page = blankPage();
  const shown = points.map(({ voltage, current }, i) => {
    const before = points[i - 1]?.voltage ?? 0;
    const way = Math.abs(voltage) >= Math.abs(before) ? "rising" : "falling";
    return { voltage, size: Math.abs(current), way };
  });
  // A logarithmic axis has no zero: the loop is cut open there.
  const drawn = shown.filter(({ size }) => size > 0);
  const half = (sign: number) => drawn.filter(({ voltage }) => sign * voltage > 0);
  const svg = Plot.plot({
    document: page as never,
    className: "chart",
    width: WIDTH,
    height: HEIGHT,
    marginLeft: 70,
    marginRight: 40,
    marginTop: 40,
    marginBottom: 48,
    x: { label: "voltage of the source, V", grid: true },
    y: {
      type: "log",
      label: "size of the current",
      grid: true,
      ticks: 7,
      tickFormat: (value: number) => formatQuantity({ value }, "A"),
    },
    marks: [
      Plot.ruleX([0], { stroke: "#888" }),
      ...[1, -1].map((sign) =>
        Plot.line(half(sign), { x: "voltage", y: "size", stroke: "#555", strokeWidth: 1.4 }),
      ),
      ...(["rising", "falling"] as const).map((way, i) =>
        Plot.dot(
          drawn.filter((one) => one.way === way),
          { x: "voltage", y: "size", fill: FILLS[i]!, stroke: "#333", r: 3.5 },
        ),
      ),
      Plot.text([{ text: "voltage rising", dy: 0 }], {
        text: "text",
        frameAnchor: "top-left",
        dx: 8,
        dy: 8,
        fill: FILLS[0],
        fontWeight: "bold",
      }),
      Plot.text([{ text: "falling" }], {
        text: "text",
        frameAnchor: "top-left",
        dx: 128,
        dy: 8,
        fill: FILLS[1],
        fontWeight: "bold",
      }),
    ],
  }) as unknown as Drawn;
  const words =
    "Size of the current over the voltage of the source, while it rises and while it falls";
  return svgFile(finished(page, svg, title, words));
}
