import { describe, expect, test } from "vitest";
import {
  assemble,
  checkSheet,
  parseFormula,
  type Sheet,
  valuesOf,
} from "../../../src/formulas/index.ts";
import {
  DIRECT,
  gapRate,
  hopSpeed,
  operatingPoint,
  type SwitchGeometry,
} from "../../../src/models/switch/geometry.ts";
import { drive, switchingTime, triangle } from "../../../src/models/switch/geometry-motion.ts";
import {
  linearDrift,
  tunnelBarrier,
  vacancyMotion,
} from "../../../src/models/switch/geometry-sheets.ts";
import { travelTime } from "../../../src/models/switch/geometry-travel.ts";
import { wayOf, writeTime } from "../../../src/models/switch/geometry-way.ts";
import { gaussLegendre, integrate } from "../../../src/numerics/index.ts";
import { EV, PLAUSIBLE } from "./geometry-examples.ts";

function run(model: Sheet, given: Record<string, number>): Record<string, number> {
  const units = Object.entries(model.inputs).map(([name, { unit }]) => ({ name, unit }));
  const program = assemble([{ of: model }], units, parseFormula);
  return Object.fromEntries(valuesOf(program, new Map(Object.entries(given))));
}

/** The same time as a plain integral of dgap/rate over the gap, by quadrature. */
function timeByQuadrature(g: SwitchGeometry, voltage: number, from: number, to: number): number {
  const panels = 400;
  const rule = gaussLegendre(8);
  let sum = 0;
  for (let k = 0; k < panels; k++) {
    rule.nodes.forEach((x, i) => {
      const gap = from + ((to - from) * (k + x)) / panels;
      const rate = gapRate(g, gap, operatingPoint(g, gap, voltage));
      sum += (rule.weights[i]! * (to - from)) / panels / rate;
    });
  }
  return sum;
}

describe("switching time", () => {
  test("the ODE agrees with quadrature to 1e-8 from 0.1 to 3.5 V, over eighteen decades", () => {
    const voltages = [0.1, 0.3, 0.7, 1, 1.5, 2, 2.5, 3, 3.5];
    const times = voltages.map((v) => switchingTime(PLAUSIBLE, v, 1.2e-9, 0.35e-9));
    voltages.forEach((v, i) => {
      const exact = timeByQuadrature(PLAUSIBLE, v, 1.2e-9, 0.35e-9);
      expect(Math.abs(times[i]! / exact - 1)).toBeLessThan(1e-8);
    });
    expect(Math.log10(times[0]! / times.at(-1)!)).toBeGreaterThan(12);
    expect([...times].sort((a, b) => b - a)).toEqual(times);
  });

  test("the published span of a tantalum oxide, 250 ps to 1e5 s, is within 0.1 to 4 V", () => {
    // shared/checks/measured-devices.yaml, taox-kinetics. Parameters: geometry-examples.ts.
    expect(switchingTime(PLAUSIBLE, 0.15, 1.2e-9, 0.35e-9)).toBeGreaterThan(1e5 * 0.5);
    expect(switchingTime(PLAUSIBLE, 3.5, 1.2e-9, 0.35e-9)).toBeLessThan(2.5e-10);
  });

  test("the wrong polarity never gets there", () => {
    expect(switchingTime(PLAUSIBLE, -1, 1.2e-9, 0.35e-9)).toBe(Number.POSITIVE_INFINITY);
    expect(switchingTime(PLAUSIBLE, 0, 1.2e-9, 0.35e-9)).toBe(Number.POSITIVE_INFINITY);
    // Nor does anything move beyond the ends of the gap.
    expect(switchingTime(PLAUSIBLE, 1, 0.3e-9, 0.2e-9)).toBe(Number.POSITIVE_INFINITY);
    expect(gapRate(PLAUSIBLE, 1.2e-9, operatingPoint(PLAUSIBLE, 1.2e-9, -1))).toBe(0);
    expect(gapRate(PLAUSIBLE, 1.2e-9, operatingPoint(PLAUSIBLE, 1.2e-9, 1))).toBeLessThan(0);
  });

  test("a hotter switch is faster, by Arrhenius at low voltage", () => {
    const hot = { ...PLAUSIBLE, temperature: 330 };
    const ratio =
      switchingTime(PLAUSIBLE, 0.02, 1.2e-9, 1.1e-9) / switchingTime(hot, 0.02, 1.2e-9, 1.1e-9);
    const k = 1.380649e-23;
    const arrhenius = Math.exp((PLAUSIBLE.hop_energy / k) * (1 / 300 - 1 / 330));
    // The mobility also carries 1/T.
    expect(Math.abs((ratio / arrhenius) * (330 / 300) - 1)).toBeLessThan(5e-3);
  });
});

describe("transients", () => {
  const circuit = { series_resistance: 2e3, current_limit: 1e-4 };
  const loop = drive(PLAUSIBLE, 1.2e-9, triangle(2.5, 2.5, 1e-3), 1e-3, { circuit });

  test("a triangle closes a pinched loop: set on the way up, reset on the way down", () => {
    const gapAt = (time: number) => loop.moments.find((m) => m.time >= time)!.gap;
    // The current limit ends the set before the gap is at its least.
    expect(gapAt(0.5e-3)).toBeLessThan(0.45e-9);
    expect(gapAt(0.5e-3)).toBeGreaterThan(PLAUSIBLE.least_gap);
    expect(loop.last.gap).toBe(PLAUSIBLE.most_gap);
    for (const m of loop.moments) {
      expect(m.current * m.voltage).toBeGreaterThanOrEqual(0);
      expect(Math.abs(m.current)).toBeLessThanOrEqual(circuit.current_limit);
      if (m.voltage === 0) expect(m.current).toBe(0);
    }
  });

  test("the source's energy is what switch and series part took", () => {
    const { sourceEnergy, switchEnergy, seriesEnergy } = loop.last;
    expect(Math.abs((switchEnergy + seriesEnergy) / sourceEnergy - 1)).toBeLessThan(1e-12);
    expect(switchEnergy).toBeGreaterThan(0);
    expect(seriesEnergy).toBeGreaterThan(0);
  });

  test("energy and charge are the integrals of the recorded power and current", () => {
    const pulse = drive(PLAUSIBLE, 1.2e-9, () => 0.5, 1e-3, { longestStep: 1e-6 });
    let [energy, charge] = [0, 0];
    pulse.moments.slice(1).forEach((m, i) => {
      const before = pulse.moments[i]!;
      const step = m.time - before.time;
      energy += (step * (m.current * m.voltage + before.current * before.voltage)) / 2;
      charge += (step * (m.current + before.current)) / 2;
    });
    expect(Math.abs(energy / pulse.last.switchEnergy - 1)).toBeLessThan(1e-6);
    expect(Math.abs(charge / pulse.last.charge - 1)).toBeLessThan(1e-6);
  });

  test("self-heating speeds a reset up: at its start by the hops' ratio at both temperatures", () => {
    const hot = { ...PLAUSIBLE, thermal_resistance: 1e6 };
    const start = operatingPoint(PLAUSIBLE, 0.3e-9, -1);
    const raised = 300 + 1e6 * start.current * start.switchVoltage;
    expect(raised).toBeGreaterThan(320);
    const field = Math.abs(start.gapVoltage) / 0.3e-9;
    const closed = hopSpeed(PLAUSIBLE, field, raised) / hopSpeed(PLAUSIBLE, field);
    // Over a millionth of the gap both speeds are constant to some 1e-5.
    const time = (g: SwitchGeometry, to = 0.3e-9 * (1 + 1e-6)) => switchingTime(g, -1, 0.3e-9, to);
    expect(Math.abs(time(PLAUSIBLE) / time(hot) / closed - 1)).toBeLessThan(1e-4);
    // Farther on it cools as the gap takes the power away: slower than at the first temperature.
    const far = 0.31e-9;
    expect(time(hot, far)).toBeGreaterThan(time({ ...PLAUSIBLE, temperature: raised }, far));
    expect(time(hot, far)).toBeLessThan(time(PLAUSIBLE, far));
  });
});

describe("closed forms", () => {
  test("linear drift under a sine drive: ODE and closed form agree to 1e-9", () => {
    const [on, off, mobility, film] = [100, 16e3, 1e-14, 10e-9];
    const factor = (mobility * on) / film ** 2;
    const resistance = (x: number): number => on * x + off * (1 - x);
    const amplitude = 1;
    const omega = 2 * Math.PI;
    for (const end of [0.1, 0.3, 0.5, 0.9]) {
      const y = integrate(
        (t, x, slope) => {
          slope[0] = (factor * amplitude * Math.sin(omega * t)) / resistance(x[0]!);
        },
        [0.1],
        0,
        end,
        { relative: 1e-12 },
      );
      const flux = (amplitude * (1 - Math.cos(omega * end))) / omega;
      const closed = run(linearDrift, {
        on_resistance: on,
        off_resistance: off,
        mobility,
        film_thickness: film,
        start_position: 0.1,
        flux,
      });
      expect(Math.abs(y.y[0]! / closed["position"]! - 1)).toBeLessThan(1e-9);
    }
  });

  test("the sheets are dimensionally sound and hold the check values", () => {
    expect([tunnelBarrier, vacancyMotion, linearDrift].flatMap(checkSheet)).toEqual([]);
    const barrier = run(tunnelBarrier, {
      barrier_height: 1 * EV,
      effective_mass: 1,
      gap_change: 0.3e-9,
      resistance_factor: 1000,
    });
    // Common practice, no source: a factor 1000 for 0.3 nm; it implies 5.05 eV.
    expect(barrier["implied_barrier"]! / EV).toBeCloseTo(5.05, 2);
    expect(barrier["predicted_factor"]!).toBeCloseTo(21.63, 1);
  });

  test("retention falls with temperature and the dilemma is a number of decades", () => {
    const at = (temperature: number) =>
      run(vacancyMotion, {
        hop_distance: 0.3e-9,
        attempt_frequency: 1e13,
        hop_energy: 1.6 * EV,
        vacancy_charge: 2,
        temperature,
        field: 1e6,
        lost_distance: 0.3e-9,
        set_time: 1e-8,
      });
    const k = 1.380649e-23;
    const ratio = at(300)["gap_retention"]! / at(358.15)["gap_retention"]!;
    const arrhenius = Math.exp(((1.6 * EV) / k) * (1 / 300 - 1 / 358.15));
    expect(Math.abs(ratio / arrhenius - 1)).toBeLessThan(1e-11);
    // Ten years at 85 degC: three times 10^8 s.
    expect(at(358.15)["gap_retention"]! / 3.156e7).toBeGreaterThan(1);
    expect(at(300)["voltage_time_decades"]!).toBeGreaterThan(15);
    const low = at(300);
    expect(low["boundary_speed"]! / low["linear_speed"]!).toBeCloseTo(1, 3);
  });
});

test("half of a voltage needs decades more, a read decades more than that", () => {
  for (const sign of [1, -1]) {
    const at = (v: number) => writeTime(PLAUSIBLE, sign * v);
    expect(at(1.25)).toBeGreaterThan(at(2.5) * 1000);
    expect(at(0.2)).toBeGreaterThan(at(1.25));
  }
});

test("a reset behind a current limit hesitates for seconds and runs away in picoseconds", () => {
  const circuit = { series_resistance: 2e3, current_limit: 1e-4 };
  const time = writeTime(PLAUSIBLE, -3.5, circuit);
  // As long as the limit holds the source's voltage does not matter.
  expect(time / writeTime(PLAUSIBLE, -2.5, circuit)).toBeCloseTo(1, 5);
  expect(time).toBeGreaterThan(1e6 * writeTime(PLAUSIBLE, -2.5));
  // Nearly all of it passes before the gap has moved by a tenth of its way.
  const early = PLAUSIBLE.least_gap + 0.1 * (PLAUSIBLE.most_gap - PLAUSIBLE.least_gap);
  const rest = wayOf(PLAUSIBLE, -3.5).to;
  expect(switchingTime(PLAUSIBLE, -3.5, early, rest, circuit) / time).toBeLessThan(1e-4);
});

test("a set behind a current limit is done when the limit takes hold", () => {
  const circuit = { series_resistance: 2e3, current_limit: 2e-5 };
  const { from, to } = wayOf(PLAUSIBLE, 2.5, circuit);
  expect(from).toBe(PLAUSIBLE.most_gap);
  const free = { ...circuit, current_limit: Number.POSITIVE_INFINITY };
  expect(operatingPoint(PLAUSIBLE, to, 2.5, free).current / 2e-5).toBeCloseTo(1, 9);
  expect(writeTime(PLAUSIBLE, 2.5, circuit)).toBeLessThan(writeTime(PLAUSIBLE, 2.5, free));
  // Without a limit, or with one that is never met, it is 98 % of the way.
  const whole = PLAUSIBLE.most_gap - 0.98 * (PLAUSIBLE.most_gap - PLAUSIBLE.least_gap);
  expect(wayOf(PLAUSIBLE, 2.5).to).toBeCloseTo(whole, 20);
  const ample = { ...circuit, current_limit: 1 };
  expect(wayOf(PLAUSIBLE, 2.5, ample).to).toBeCloseTo(whole, 20);
  expect(wayOf(PLAUSIBLE, -2.5, circuit).from).toBe(PLAUSIBLE.least_gap);
});

test("the integral by 32 points is the error-controlled time, but where hops saturate", () => {
  const circuits = [DIRECT, { series_resistance: 2e3, current_limit: Number.POSITIVE_INFINITY }];
  for (const circuit of circuits) {
    for (const heat of [0, 1e6]) {
      const g = { ...PLAUSIBLE, thermal_resistance: heat };
      for (const v of [0.1, 0.5, 1.5, 2.5, 3.5, -0.5, -2.5, -3.5]) {
        const ratio = travelTime(g, v, wayOf(g, v, circuit), circuit) / writeTime(g, v, circuit);
        expect(Math.abs(ratio - 1)).toBeLessThan(Math.abs(v) > 3 ? 1e-4 : 1e-6);
      }
    }
  }
  expect(travelTime(PLAUSIBLE, -1, wayOf(PLAUSIBLE, 1))).toBe(Number.POSITIVE_INFINITY);
});
