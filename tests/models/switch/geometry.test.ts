import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  conductiveResistance,
  gapRate,
  hopSpeed,
  operatingPoint,
  requireGeometry,
  resistanceAt,
  type SwitchGeometry,
  tunnelCurrent,
  tunnelDecay,
} from "../../../src/models/switch/geometry.ts";
import { EV, PLAUSIBLE } from "./geometry-examples.ts";

const H = 6.62607015e-34;
const HBAR = H / (2 * Math.PI);
const MASS = 9.1093837139e-31;
const K = 1.380649e-23;

/** Random switches over the ranges that textbooks call plausible. */
const SWITCHES = fc
  .record({
    film: fc.double({ min: 2, max: 15, noNaN: true }),
    side: fc.double({ min: 5, max: 100, noNaN: true }),
    barrier: fc.double({ min: 0.3, max: 5, noNaN: true }),
    mass: fc.double({ min: 0.1, max: 1, noNaN: true }),
    /** Decades of ohm m, from metals to what hardly conducts. */
    resistivity: fc.double({ min: -8, max: 0, noNaN: true }),
    energy: fc.double({ min: 0.7, max: 1.6, noNaN: true }),
    share: fc.double({ min: 0, max: 1, noNaN: true }),
    voltage: fc.double({ min: -6, max: 6, noNaN: true }),
    temperature: fc.double({ min: 230, max: 420, noNaN: true }),
  })
  .map((r) => {
    const film = r.film * 1e-9;
    const g: SwitchGeometry = {
      ...PLAUSIBLE,
      film_thickness: film,
      most_gap: 0.6 * film,
      least_gap: 0.2e-9,
      electrode_area: (r.side * 1e-9) ** 2,
      barrier_height: r.barrier * EV,
      effective_mass: r.mass,
      conductive_resistivity: 10 ** r.resistivity,
      hop_energy: r.energy * EV,
      temperature: r.temperature,
    };
    return { g, gap: 0.2e-9 + r.share * (0.6 * film - 0.2e-9), voltage: r.voltage };
  });

/** The general formula of 1963 (its equation 20, symmetric barrier), current density. */
function generalFormula(g: SwitchGeometry, gap: number, voltage: number): number {
  const energy = EV * voltage;
  const beyond = energy > g.barrier_height;
  const mean = beyond ? g.barrier_height / 2 : g.barrier_height - energy / 2;
  const thickness = beyond ? (gap * g.barrier_height) / energy : gap;
  const a = (4 * Math.PI * thickness * Math.sqrt(2 * g.effective_mass * MASS)) / H;
  const front = EV / (2 * Math.PI * H * thickness ** 2);
  const forward = mean * Math.exp(-a * Math.sqrt(mean));
  return front * (forward - (mean + energy) * Math.exp(-a * Math.sqrt(mean + energy)));
}

describe("tunnelling", () => {
  test("0.3 nm of a 3 nm film is a factor 1000 at 5.05 eV, and a factor 22 at 1 eV", () => {
    // Common practice, no source: "0.3 nm of 3 nm is about a factor 1000".
    const g = { ...PLAUSIBLE, barrier_height: 5.05 * EV, conductive_resistivity: 1e-12 };
    const ratio = (h: SwitchGeometry) =>
      tunnelCurrent(h, 0.9e-9, 1e-3) / tunnelCurrent(h, 1.2e-9, 1e-3);
    // The prefactor 1/gap adds its own 4/3.
    expect((ratio(g) * 0.9) / 1.2 / 1000).toBeCloseTo(1, 2);
    expect((ratio(PLAUSIBLE) * 0.9) / 1.2).toBeCloseTo(21.6, 0);
    expect(tunnelDecay(1 * EV, 1)).toBeCloseTo((2 * Math.sqrt(2 * MASS * EV)) / HBAR, -2);
  });

  test("at low field it is the textbook law: (q/h)^2 sqrt(2 m phi)/s exp(-kappa s) V", () => {
    const gap = 1e-9;
    const momentum = Math.sqrt(2 * MASS * EV);
    const expected =
      ((PLAUSIBLE.electrode_area * (EV / H) ** 2 * momentum) / gap) *
      Math.exp((-2 * momentum * gap) / HBAR);
    for (const v of [1e-12, 1e-6, 1e-3]) {
      expect(Math.abs(tunnelCurrent(PLAUSIBLE, gap, v) / v / expected - 1)).toBeLessThan(1e-5);
    }
  });

  test("up to a voltage of the barrier its ratio to the general formula is the closed form", () => {
    // With y = qV/(2 phi) and D = exp(-k s (sqrt(1 + y) - sqrt(1 - y))) the fronts leave
    // (1 - D)/((1 - y) - (1 + y) D): from 1/(1 - 2/(k s)) at no voltage to 2 (1 - D)/(1 - 3 D).
    const decay = tunnelDecay(1 * EV, 1);
    const closed = (thickness: number, y: number) => {
      const d = Math.exp(-thickness * (Math.sqrt(1 + y) - Math.sqrt(1 - y)));
      return (1 - d) / (1 - y - (1 + y) * d);
    };
    let [least, most] = [Number.POSITIVE_INFINITY, 0];
    for (const gap of [0.8e-9, 1e-9, 2e-9]) {
      for (let step = 1; step <= 100; step++) {
        const v = step / 100;
        const ratio =
          tunnelCurrent(PLAUSIBLE, gap, v) /
          (PLAUSIBLE.electrode_area * generalFormula(PLAUSIBLE, gap, v));
        expect(Math.abs(ratio / closed(decay * gap, v / 2) - 1)).toBeLessThan(1e-9);
        [least, most] = [Math.min(least, ratio), Math.max(most, ratio)];
      }
    }
    // The ends, by hand: k = 10.246/nm; at 0.8 nm and 1 V, D = 0.01437.
    expect(most).toBeCloseTo((2 * (1 - 0.01437)) / (1 - 3 * 0.01437), 3);
    expect(least).toBeGreaterThan(1);
  });

  test("current rises with voltage and falls with the gap, also beyond the barrier", () => {
    fc.assert(
      fc.property(SWITCHES, ({ g, gap, voltage }) => {
        const v = Math.abs(voltage) + 1e-3;
        const here = tunnelCurrent(g, gap, v);
        expect(tunnelCurrent(g, gap, v * 1.01)).toBeGreaterThan(here);
        expect(tunnelCurrent(g, gap * 1.01, v)).toBeLessThan(here);
      }),
      { seed: 20261125, numRuns: 500 },
    );
  });
});

describe("the switch in a circuit", () => {
  test("no current at no voltage, none against the voltage: the loop is pinched and passive", () => {
    fc.assert(
      fc.property(SWITCHES, ({ g, gap, voltage }) => {
        expect(operatingPoint(g, gap, 0).current).toBe(0);
        const point = operatingPoint(g, gap, voltage);
        expect(point.current * voltage).toBeGreaterThanOrEqual(0);
        expect(operatingPoint(g, gap, -voltage).current + 0).toBe(-point.current + 0);
      }),
      { seed: 20261125, numRuns: 500 },
    );
  });

  test("voltages add up to the source, and a current limit holds exactly", () => {
    const circuit = { series_resistance: 2e3, current_limit: 5e-5 };
    fc.assert(
      fc.property(SWITCHES, ({ g, gap, voltage }) => {
        const v = Math.abs(voltage) + 0.01;
        const free = operatingPoint(g, gap, v, { ...circuit, current_limit: Infinity });
        const sum = free.switchVoltage + circuit.series_resistance * free.current;
        expect(Math.abs(sum / v - 1)).toBeLessThan(1e-12);
        const limited = operatingPoint(g, gap, v, circuit);
        expect(limited.current).toBeLessThanOrEqual(circuit.current_limit);
        if (free.current > 5e-5) expect(limited.current).toBe(5e-5);
        const inner = conductiveResistance(g, gap) * limited.current;
        const parts = limited.gapVoltage + inner;
        expect(Math.abs(parts / limited.switchVoltage - 1)).toBeLessThan(1e-12);
      }),
      { seed: 20261125, numRuns: 300 },
    );
  });

  test("positive voltage on the vacancy-rich side lowers the resistance, negative raises it", () => {
    fc.assert(
      fc.property(SWITCHES, ({ g, gap, voltage }) => {
        const middle = Math.min(Math.max(gap, g.least_gap * 1.01), g.most_gap * 0.99);
        const v = Math.abs(voltage) + 0.1;
        const up = gapRate(g, middle, operatingPoint(g, middle, v));
        const down = gapRate(g, middle, operatingPoint(g, middle, -v));
        expect(up).toBeLessThan(0);
        expect(down).toBe(-up);
        const tunnel = (s: number) => 0.1 / tunnelCurrent(g, s, 0.1);
        expect(tunnel(middle * 0.99)).toBeLessThan(tunnel(middle));
        const whole = (s: number) => resistanceAt(g, s, 0.1);
        // Where the ohmic part rules it grows by what the gap loses: by less than that share of it,
        // since at the same current a thinner gap takes less voltage.
        const lost = (0.01 * middle) / (g.film_thickness - middle);
        expect(whole(middle * 0.99)).toBeLessThan(whole(middle) * (1 + lost));
      }),
      { seed: 20261125, numRuns: 300 },
    );
  });
});

describe("hopping", () => {
  test("at low field it is linear drift with Einstein's mobility z q a^2 f exp(-Ea/kT)/kT", () => {
    const g = PLAUSIBLE;
    const boltzmann = Math.exp(-g.hop_energy / (K * g.temperature));
    const mobility =
      (g.vacancy_charge * EV * g.hop_distance ** 2 * g.attempt_frequency * boltzmann) /
      (K * g.temperature);
    for (const field of [1, 1e3, 1e5]) {
      expect(Math.abs(hopSpeed(g, field) / (mobility * field) - 1)).toBeLessThan(1e-6);
    }
  });

  test("it never exceeds one hop per attempt and passes smoothly into that limit", () => {
    const most = PLAUSIBLE.hop_distance * PLAUSIBLE.attempt_frequency;
    const barrierless = (2 * PLAUSIBLE.hop_energy) / (2 * EV * PLAUSIBLE.hop_distance);
    const before = hopSpeed(PLAUSIBLE, barrierless * (1 - 1e-12));
    const after = hopSpeed(PLAUSIBLE, barrierless * (1 + 1e-12));
    expect(Math.abs(before / after - 1)).toBeLessThan(1e-9);
    expect(hopSpeed(PLAUSIBLE, 1e12)).toBeLessThanOrEqual(most);
    expect(hopSpeed(PLAUSIBLE, -1e9)).toBe(-hopSpeed(PLAUSIBLE, 1e9));
  });
});

test("a geometry that describes no switch is refused with what is wrong", () => {
  expect(() => requireGeometry({ ...PLAUSIBLE, least_gap: 2e-9 })).toThrow(/out-of-range/);
  expect(() => requireGeometry({ ...PLAUSIBLE, barrier_height: 0 })).toThrow(/out-of-range/);
  expect(() => requireGeometry({ ...PLAUSIBLE, most_gap: 4e-9 })).toThrow(/out-of-range/);
  expect(() => requireGeometry(PLAUSIBLE)).not.toThrow();
});
