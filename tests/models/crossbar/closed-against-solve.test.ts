// The closed forms against the exact solve of the whole network, and against closed forms of their
// own.
import { expect, test } from "vitest";
import { sneakCurrent } from "../../../src/models/crossbar/closed/sneak.ts";
import { SCHEMES, type Scheme } from "../../../src/models/crossbar/contract.ts";
import { ohmic, sinhLaw } from "../../../src/models/junction.ts";
import { crosspointCellModel, processInstances } from "../../../src/models/registry.ts";
import { type CrossbarProblem, solveCrossbar } from "../../../src/numerics/crossbar/index.ts";
import { evaluate, technology } from "../evaluate.ts";

const rows = 12;
const columns = 9;
const switches = {
  on_resistance: 20e3,
  off_resistance: 1e6,
  read_voltage: 0.3,
  scale_voltage: 0.25,
  set_voltage: 1,
  reset_voltage: 1.2,
  set_time: 1e-8,
  reset_time: 1e-8,
  current_limit: 50e-6,
};

function closed(scheme: Scheme, wire: number): Record<string, number> {
  const { instances } = crosspointCellModel("none", scheme);
  const given = technology("cmos-65");
  const length = 2 * given["feature"]!;
  return evaluate([...processInstances, ...instances], {
    ...given,
    ...switches,
    rows,
    columns,
    row_wire_resistance_per_length: wire / length,
    column_wire_resistance_per_length: wire / length,
  });
}

/** Row 0 driven at the left, the last column held at zero at the bottom: the far corner. */
function solved(scheme: Scheme, wire: number, v: number, selectedOn: boolean, othersOn: boolean) {
  const size = rows * columns;
  const scale = switches.scale_voltage;
  const off = { law: "sinh", resistance: 0, scaleVoltage: scale } as const;
  const x = switches.read_voltage / scale;
  const resistance = (switches.off_resistance * Math.sinh(x)) / x;
  const kindOf = new Uint8Array(size).fill(othersOn ? 0 : 1);
  kindOf[columns - 1] = selectedOn ? 0 : 1;
  const side = (count: number, selected: number, value: number, rest: number | undefined) => ({
    voltage: Float64Array.from({ length: count }, (_, k) => (k === selected ? value : (rest ?? 0))),
    resistance: Float64Array.from({ length: count }, (_, k) =>
      k === selected || rest !== undefined ? 0 : Number.NaN,
    ),
  });
  const rests: Record<Scheme, readonly [number | undefined, number | undefined]> = {
    floating: [undefined, undefined],
    grounded: [0, 0],
    "one-half": [v / 2, v / 2],
    "one-third": [v / 3, (2 * v) / 3],
  };
  const [rowRest, columnRest] = rests[scheme];
  const problem: CrossbarProblem = {
    rows,
    columns,
    rowResistance: wire,
    columnResistance: wire,
    junctions: {
      kinds: [
        { element: { law: "ohmic", resistance: switches.on_resistance } },
        { element: { ...off, resistance } },
      ],
      kindOf,
    },
    terminals: {
      left: side(rows, 0, v, rowRest),
      bottom: side(columns, columns - 1, 0, columnRest),
    },
  };
  const solution = solveCrossbar(problem);
  expect(solution.converged).toBe(true);
  return {
    column: solution.columnCurrents[columns - 1]!,
    cell: solution.junctionCurrents[columns - 1]!,
    voltages: solution.junctionVoltages,
    powers: solution.junctionVoltages.map((u, k) => u * solution.junctionCurrents[k]!),
  };
}

test.each(SCHEMES)(
  "with ideal wires the %s scheme's read margin is that of the exact solve",
  (scheme) => {
    const got = closed(scheme, 0);
    const least = solved(scheme, 0, 0.3, true, false).column;
    const most = solved(scheme, 0, 0.3, false, true).column;
    expect(got["read_margin_current"]! / (least - most)).toBeCloseTo(1, 9);
    expect(got["cell_on_current"]! / solved(scheme, 0, 0.3, true, false).cell).toBeCloseTo(1, 9);
    expect(got["cell_off_current"]! / solved(scheme, 0, 0.3, false, true).cell).toBeCloseTo(1, 9);
  },
);

test.each(SCHEMES)(
  "with ideal wires the %s scheme's disturb voltage and power are exact",
  (scheme) => {
    const got = closed(scheme, 0);
    const { voltages, powers } = solved(scheme, 0, 1.2, true, true);
    const others = (list: Float64Array) => [...list].filter((_, k) => k !== columns - 1);
    const worst = Math.max(...others(voltages).map(Math.abs));
    expect(got["disturb_voltage"]! / worst).toBeCloseTo(1, 9);
    const power = others(powers).reduce((sum, p) => sum + p, 0);
    expect(got["half_selected_power"]! / power).toBeCloseTo(1, 9);
  },
);

test.each(["grounded", "one-half", "one-third"] as const)(
  "with wires the %s scheme's far-corner current errs to second order in the drop",
  (scheme) => {
    const errors = [0.5, 1, 2].map((wire) => {
      const got = closed(scheme, wire);
      const exact = solved(scheme, wire, 0.3, true, true).cell;
      return Math.abs(1 - got["cell_on_current"]! / exact);
    });
    expect(errors[1]! / errors[0]!).toBeGreaterThan(3.6);
    expect(errors[2]! / errors[1]!).toBeGreaterThan(3.4);
    expect(errors[2]!).toBeLessThan(1e-4);
  },
);

test.each(["grounded", "one-half", "one-third"] as const)(
  "with wires the %s scheme's current errs by less than the drop's share squared",
  (scheme) => {
    for (const wire of [0.1, 1, 10, 30, 60, 100]) {
      const got = closed(scheme, wire);
      const exact = solved(scheme, wire, 0.3, true, true).cell;
      const drop = got["read_line_drop"]! / 0.3;
      expect(Math.abs(got["cell_on_current"]! / exact - 1)).toBeLessThan(drop * drop);
    }
  },
);

test("the sneak current of sinh junctions satisfies the sum of its three groups", () => {
  for (const scale of [1e-9, 1, 1e9]) {
    const [m, n, s, r, v] = [40, 25, 0.3, 2e4 * scale, 1.1];
    const got = sneakCurrent(sinhLaw(s! / r!, s!), m!, n!, v!);
    const groups = [n! - 1, (m! - 1) * (n! - 1), m! - 1];
    const sum = groups.reduce((u, k) => u + s! * Math.asinh((got * r!) / (k * s!)), 0);
    expect(sum / v!).toBeCloseTo(1, 13);
  }
});

test("the sneak current of ohmic junctions is that of the sneak resistance", () => {
  const path = 1e4 / 63 + 1e4 / 63 + 1e4 / (63 * 63);
  expect((sneakCurrent(ohmic(1e4), 64, 64, 1) * path) / 1).toBeCloseTo(1, 13);
  expect(sneakCurrent(ohmic(1e4), 1, 64, 1)).toBe(0);
});
