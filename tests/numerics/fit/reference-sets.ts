/**
 * Certified sets of the "Statistical Reference Datasets: nonlinear regression" (2003), with both
 * of their starts: the far one and the near one. Certified to eleven digits.
 */
export interface ReferenceSet {
  readonly name: string;
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly law: (x: number, b: readonly number[]) => number;
  readonly starts: readonly (readonly number[])[];
  readonly certified: readonly number[];
  /** Standard deviations of the parameters, and of the residuals, where they stand here. */
  readonly errors?: readonly number[];
  readonly deviation?: number;
}

export const REFERENCE_SETS: readonly ReferenceSet[] = [
  {
    name: "adsorption",
    x: [
      77.6, 114.9, 141.1, 190.8, 239.9, 289, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760,
    ],
    y: [
      10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.4, 75.47,
      81.78,
    ],
    law: (x, [a, b]) => a! * -Math.expm1(-b! * x),
    starts: [
      [500, 0.0001],
      [250, 0.0005],
    ],
    certified: [2.3894212918e2, 5.5015643181e-4],
    errors: [2.7070075241, 7.2668688436e-6],
    deviation: 1.018787633e-1,
  },
  {
    name: "oxygen demand, whose far start is flat in one parameter",
    x: [1, 2, 3, 5, 7, 10],
    y: [109, 149, 149, 191, 213, 224],
    law: (x, [a, b]) => a! * -Math.expm1(-b! * x),
    starts: [[100, 0.75]],
    certified: [2.1380940889e2, 5.4723748542e-1],
    errors: [1.2354515176e1, 1.0455993237e-1],
    deviation: 1.7088072423e1,
  },
  {
    name: "enzyme kinetics",
    x: [4, 2, 1, 0.5, 0.25, 0.167, 0.125, 0.1, 0.0833, 0.0714, 0.0625],
    y: [0.1957, 0.1947, 0.1735, 0.16, 0.0844, 0.0627, 0.0456, 0.0342, 0.0323, 0.0235, 0.0246],
    law: (x, [a, b, c, d]) => (a! * (x * x + x * b!)) / (x * x + x * c! + d!),
    starts: [
      [25, 39, 41.5, 39],
      [0.25, 0.39, 0.415, 0.39],
    ],
    certified: [1.9280693458e-1, 1.9128232873e-1, 1.2305650693e-1, 1.3606233068e-1],
  },
  {
    name: "thermistor",
    x: Array.from({ length: 16 }, (_, i) => 50 + 5 * i),
    y: [
      34780, 28610, 23650, 19630, 16370, 13720, 11540, 9744, 8261, 7030, 6005, 5147, 4427, 3820,
      3307, 2872,
    ],
    law: (x, [a, b, c]) => a! * Math.exp(b! / (x + c!)),
    starts: [[0.02, 4000, 250]],
    certified: [5.609636471e-3, 6.1813463463e3, 3.4522363462e2],
  },
  {
    name: "growth",
    x: [9, 14, 21, 28, 42, 57, 63, 70, 79],
    y: [8.93, 10.8, 18.59, 22.33, 39.35, 56.11, 61.73, 64.62, 67.08],
    law: (x, [a, b, c]) => a! / (1 + Math.exp(b! - c! * x)),
    starts: [
      [100, 1, 0.1],
      [75, 2.5, 0.07],
    ],
    certified: [7.2462237576e1, 2.6180768402, 6.7359200066e-2],
  },
  {
    name: "radiated energy",
    x: [1.309, 1.471, 1.49, 1.565, 1.611, 1.68],
    y: [2.138, 3.421, 3.597, 4.34, 4.882, 5.66],
    law: (x, [a, b]) => a! * x ** b!,
    starts: [
      [1, 5],
      [0.7, 4],
    ],
    certified: [7.6886226176e-1, 3.8604055871],
  },
];

/** Law minus measurement, for a fit. */
export function residualsOf({ x, y, law }: ReferenceSet) {
  return (b: readonly number[]): number[] => x.map((one, i) => law(one, b) - y[i]!);
}
