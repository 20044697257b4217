import { describe, expect, it } from "vitest";
import { DIRECT } from "../../../src/models/switch/geometry.ts";
import { writeTime } from "../../../src/models/switch/geometry-way.ts";
import { normalQuantile, RandomStream } from "../../../src/numerics/index.ts";
import { fitMeasured } from "../../../src/studies/switch/fit.ts";
import { readMeasured } from "../../../src/studies/switch/measured.ts";
import { EV, PLAUSIBLE } from "../../models/switch/geometry-examples.ts";

const VOLTAGES = [0.6, 1.4, 2.2, 3, -1, -2];
const START = {
  geometry: { ...PLAUSIBLE, hop_energy: 1.05 * EV, hop_distance: 0.28e-9 },
  circuit: DIRECT,
};
const SCATTER = 0.3;

function noisy(trial: number) {
  const noise = new RandomStream(20261125, `switch fit ${trial}`);
  const points = VOLTAGES.map((voltage, i) => ({
    voltage,
    time: writeTime(PLAUSIBLE, voltage) * Math.exp(SCATTER * normalQuantile(noise.uniform(i))),
  }));
  return { kind: "times", points } as const;
}

describe("a fit to measured switching times", () => {
  it("predicts sets and resets that are left out about as well as they scatter", () => {
    const fitted = fitMeasured(noisy(0), START);
    expect(fitted.predictionDeviation).toBeGreaterThan(fitted.fit.deviation);
    expect(fitted.predictionDeviation).toBeLessThan(3 * SCATTER);
    for (const { fitted: time, measured } of fitted.points)
      expect(Math.abs(Math.log(time / measured))).toBeLessThan(4 * SCATTER);
  });
});

describe("a table of measured points", () => {
  it("is read with the units of its headings", () => {
    const table = "# by hand\nvoltage (mV),time [ns]\n1500,20\n-800,3e3\n";
    const points = [
      { voltage: 1.5, time: 20e-9 },
      { voltage: -0.8, time: 3e-6 },
    ];
    const read = readMeasured(table, "t.csv");
    expect(read.kind).toBe("times");
    for (const [i, { voltage, time }] of points.entries()) {
      const point = read.points[i]! as { voltage: number; time: number };
      expect(point.voltage).toBeCloseTo(voltage, 12);
      expect(point.time / time).toBeCloseTo(1, 12);
    }
  });

  it("says line and column of what is no number", () => {
    try {
      readMeasured("voltage,time\n1,2e-9\n1.5,soon\n", "t.csv");
      expect.unreachable();
    } catch (error) {
      const { problems } = error as { problems: { place: object }[] };
      expect(problems[0]!.place).toMatchObject({ file: "t.csv", line: 3, column: 5 });
    }
    try {
      readMeasured("voltage,tine (ns)\n", "t.csv");
      expect.unreachable();
    } catch (error) {
      const { problems } = error as { problems: { place: object; nearest: string }[] };
      expect(problems[0]).toMatchObject({ place: { line: 1, column: 9 }, nearest: "time" });
    }
    expect(() => readMeasured("voltage,resistance\n", "t.csv")).toThrow("no column");
    expect(() => readMeasured("time,current\n", "t.csv")).toThrow("columns of a measurement");
  });
});
