/**
 * How often two elements in series are evaluated until they carry one current. The counts are exact, and those of today
 * are the most that are allowed.
 */
import { expect, test } from "vitest";
import { evaluateJunction } from "../../../src/numerics/crossbar/laws.ts";
import type { Law } from "../../../src/numerics/crossbar/problem.ts";
import { ohmic, solved } from "./build.ts";

let asked = 0;

/** A resistor that counts: its current and its slope ask for the resistance once each. */
function resistor(ohms: number): Law {
  return {
    law: "ohmic",
    get resistance() {
      asked++;
      return ohms;
    },
  };
}

const OTHERS: Record<string, Law> = {
  sinh: { law: "sinh", resistance: 1e9, scaleVoltage: 0.05 },
  "leaking diode": {
    ...{ law: "diode", saturationCurrent: 1e-10, emissionVoltage: 0.03 },
    leakResistance: 1e9,
  },
  threshold: {
    ...{ law: "threshold", onResistance: 1e3, offResistance: 1e8 },
    ...{ thresholdVoltage: 0.6, widthVoltage: 0.05 },
  },
};
const VOLTAGES = [-30, -3, -1, -0.1, 1e-3, 0.3, 0.5, 0.7, 1, 4, 30];
/** One after the other: small and large steps, back, and turned round. */
const WAY = [
  0.2, 0.22, 0.24, 0.3, 0.5, 0.6, 0.7, 0.8, 1, 3, 3.1, 30, 28, 1, 1e-3, -1e-3, -0.3, -0.31, -2,
  -2.1,
];
/** Evaluations afresh, from where a junction was left at a voltage that is a thousandth off, and along the way. */
const MOST: Record<string, readonly [fresh: number, near: number, way: number]> = {
  sinh: [496, 230, 892],
  "leaking diode": [446, 202, 846],
  threshold: [488, 194, 690],
};

test.each(Object.keys(OTHERS))("a resistor and a %s", (name) => {
  const point = { current: 0, slope: 0 };
  const counts: [number, number, number] = [0, 0, 0];
  for (const ohms of [1e2, 1e5, 1e8]) {
    const [one, other] = [resistor(ohms), OTHERS[name]!];
    for (const [element, selector] of [
      [one, other],
      [other, one],
    ] as const) {
      for (const v of VOLTAGES) {
        const memory = new Float64Array(1);
        const at = (voltage: number) => {
          asked = 0;
          evaluateJunction({ element, selector }, voltage, point, memory);
          return asked / 2;
        };
        counts[0] += at(v);
        counts[1] += at(v * 1.001);
      }
      asked = 0;
      const memory = new Float64Array(1);
      for (const v of WAY) evaluateJunction({ element, selector }, v, point, memory);
      counts[2] += asked / 2;
    }
  }
  const most = MOST[name]!;
  counts.forEach((count, k) => {
    expect(count, `count ${k}`).toBeLessThanOrEqual(most[k]!);
  });
  expect(counts[1]).toBeLessThan(counts[0]);
});

test("without a memory an evaluation knows nothing of those before it", () => {
  const [alone, after] = [
    { current: 0, slope: 0 },
    { current: 0, slope: 0 },
  ];
  const kind = { element: resistor(1e5), selector: OTHERS["sinh"]! };
  const others = [
    { element: resistor(1e2), selector: OTHERS["threshold"]! },
    { element: OTHERS["sinh"]!, selector: resistor(1e8) },
  ];
  for (const v of VOLTAGES) {
    evaluateJunction(kind, v, alone);
    for (const one of others) {
      evaluateJunction(one, v, after);
      evaluateJunction(kind, v, after);
      expect(after).toEqual(alone);
    }
  }
});

test("the junctions of an array are remembered from one step of its solve to the next", () => {
  const { terminals, ...array } = ohmic({ rows: 6, columns: 7, r: 20, scheme: "one-half" });
  const kinds = [{ element: resistor(1e4), selector: OTHERS["sinh"]! }];
  asked = 0;
  solved({ ...array, terminals, junctions: { kinds, kindOf: new Uint8Array(42) } });
  expect(asked).toBeLessThanOrEqual(989);
});
