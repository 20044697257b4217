import * as Plot from "@observablehq/plot";
import { exp } from "../../numerics/special/elementary.ts";
import { formatQuantity } from "../../quantities/format.ts";
import { blankPage, type Drawn, FILLS, finished, svgFile } from "./svg.ts";

/** Later reads of each level, against the windows that they were written to. */
export interface LevelsChart {
  readonly title: string;
  readonly levels: readonly {
    readonly target: number;
    readonly low: number;
    readonly high: number;
    readonly boundary: number;
    readonly pulses: { readonly mean: number };
    readonly later?: { readonly values: readonly number[] };
  }[];
}

const WIDTH = 760;
const ROW = 44;
const AROUND = 110;
const NAMES = 110;

/** Levels as rows over resistance: the window as a bar, each later read as a tick. */
export function drawLevels({ title, levels }: LevelsChart): string {
  const page = blankPage();
  const reads = levels.flatMap(({ later }, k) =>
    (later?.values ?? []).map((x) => ({ level: String(k + 1), resistance: exp(x) })),
  );
  const edges = levels.flatMap(({ low, high, target }) => [low, high, target]);
  const all = [...edges, ...reads.map(({ resistance }) => resistance)];
  const finite = all.filter((r) => r > 0 && Number.isFinite(r));
  const [least, most] = [Math.min(...finite) / 1.6, Math.max(...finite) * 1.6];
  const windows = levels.map(({ low, high, pulses }, k) => ({
    level: String(k + 1),
    low: Math.max(low, least),
    high: Math.min(high, most),
    pulses: `${Number(pulses.mean.toPrecision(3))} ${pulses.mean === 1 ? "pulse" : "pulses"}`,
  }));
  const boundaries = levels.map(({ boundary }) => boundary).filter(Number.isFinite);
  const svg = Plot.plot({
    document: page as never,
    className: "chart",
    width: WIDTH,
    height: AROUND + ROW * levels.length,
    marginLeft: 60,
    marginRight: NAMES,
    marginTop: 40,
    marginBottom: 48,
    x: {
      type: "log",
      label: "resistance at the read voltage",
      domain: [least, most],
      ticks: 6,
      tickFormat: (value: number) => formatQuantity({ value }, "ohm"),
    },
    y: { type: "band", label: "level", domain: windows.map(({ level }) => level), padding: 0.25 },
    marks: [
      Plot.ruleX(boundaries, { stroke: "#b00020", strokeDasharray: "6 3" }),
      Plot.barX(windows, { y: "level", x1: "low", x2: "high", fill: FILLS[0], fillOpacity: 0.45 }),
      Plot.tickX(reads, { y: "level", x: "resistance", stroke: "#333", strokeOpacity: 0.5 }),
      Plot.text(windows, {
        y: "level",
        x: most,
        text: "pulses",
        textAnchor: "start",
        dx: 8,
      }),
    ],
  }) as unknown as Drawn;
  const words =
    "Levels over resistance: bars are the windows of the writes, ticks the later reads, dashed " +
    "lines where a read decides between neighbours";
  return svgFile(finished(page, svg, title, words));
}
