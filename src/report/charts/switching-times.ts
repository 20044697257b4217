import * as Plot from "@observablehq/plot";
import { blankPage, type Drawn, FILLS, finished, svgFile } from "./svg.ts";

/** Times of a switch over voltage, and what they are read against. */
export interface SwitchingChart {
  readonly title: string;
  readonly times: readonly {
    readonly voltage: number;
    readonly set: number;
    readonly reset: number;
  }[];
  /** At zero voltage [s]. */
  readonly retention: number;
}

const WIDTH = 760;
const HEIGHT = 480;
const NAMES = { set: "set", reset: "reset" } as const;

/** Set and reset time against voltage, on a logarithmic axis, as a file of its own. */
export function drawSwitchingTimes({ title, times, retention }: SwitchingChart): string {
  const page = blankPage();
  const points = times.flatMap(({ voltage, set, reset }) => [
    { voltage, time: set, kind: NAMES.set },
    { voltage, time: reset, kind: NAMES.reset },
  ]);
  const all = [...points.map(({ time }) => time), retention];
  const svg = Plot.plot({
    document: page as never,
    className: "chart",
    width: WIDTH,
    height: HEIGHT,
    marginLeft: 60,
    marginRight: 60,
    marginTop: 40,
    marginBottom: 48,
    x: { label: "voltage of the source, V", domain: [0, times.at(-1)!.voltage] },
    y: {
      type: "log",
      label: "time, s",
      grid: true,
      domain: [Math.min(...all), Math.max(...all)],
      ticks: 8,
      tickFormat: (x: number) => x.toExponential(0),
    },
    marks: [
      Plot.ruleY([retention], { stroke: "#b00020", strokeDasharray: "6 3" }),
      Plot.text(["retention without voltage"], {
        x: times.at(-1)!.voltage,
        y: retention,
        textAnchor: "end",
        dy: 10,
        fill: "#b00020",
      }),
      ...[NAMES.set, NAMES.reset].map((kind, i) =>
        Plot.line(
          points.filter((one) => one.kind === kind),
          { x: "voltage", y: "time", stroke: FILLS[i]!, strokeWidth: 2.2, marker: "dot" },
        ),
      ),
      ...[NAMES.set, NAMES.reset].map((kind, i) =>
        Plot.text([points.filter((one) => one.kind === kind)[0]!], {
          x: "voltage",
          y: "time",
          text: "kind",
          textAnchor: "start",
          dx: 8,
          dy: i === 0 ? -8 : 10,
          fontWeight: "bold",
          fill: FILLS[i]!,
        }),
      ),
    ],
  }) as unknown as Drawn;
  const words = "Set and reset time against the voltage, and the retention without voltage";
  return svgFile(finished(page, svg, title, words));
}
