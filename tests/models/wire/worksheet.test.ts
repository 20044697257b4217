// Wires on paper: sections between barriers, scattering at grains and surfaces, exact responses of lines.
import { describe, expect, test } from "vitest";
import {
  ladderDelay,
  lineDelay,
  lineSettling,
  lumpedDelay,
} from "../../../src/models/wire/line-delay.ts";
import { crossbarSection, sizeEffect } from "../../../src/models/wire/size-effect.ts";
import { wire } from "../../../src/models/wire/wire.ts";
import { oddValues } from "../odd.ts";
import { expectPaper } from "../periphery/worksheet/paper.ts";

const line = {
  driver_resistance: 2.3e3,
  line_resistance: 3.1e3,
  line_capacitance: 41e-15,
  load_capacitance: 17e-15,
};

describe("delays", () => {
  // The coefficients of "Approximation of wiring delay in MOSFET LSI", 1983: 0.377 and 0.693 to a half; to nine tenths
  // 1.02 for the line, 2.3 for all else. The sheet writes 1.02 as 0.1 + 0.4 ln 10.
  test("a driven line: the published fit to a half and to nine tenths", () => {
    const v = oddValues(lineDelay, line);
    const [r, c, R, C] = [3.1e3, 41e-15, 2.3e3, 17e-15];
    const ends = R * c + R * C + r * C;
    expectPaper(v, { delay: 0.377 * r * c + 693e-3 * ends });
    const tenths = 1.02 * r * c + 2.3 * ends;
    expect(Math.abs(v["delay_90"]! / tenths - 1)).toBeLessThan(0.002);
    // The first moment: each capacitance through the resistance before it, the line's by halves.
    let moment = 0;
    for (let k = 0; k < 1000; k++) moment += (R + (r * (k + 0.5)) / 1000) * (c / 1000);
    moment += (R + r) * C;
    expectPaper(v, { mean_delay: moment });
  });

  test("settling to a tenth is the delay to nine tenths, to a hundredth as much longer as an exponential", () => {
    const tenth = oddValues(lineSettling, { ...line, settling_error: 0.1 });
    expectPaper(tenth, { settling_delay: oddValues(lineDelay, line)["delay_90"]! });
    const hundredth = oddValues(lineSettling, { ...line, settling_error: 0.01 });
    const [r, c, R, C] = [3.1e3, 41e-15, 2.3e3, 17e-15];
    const constant = R * c + R * C + r * C + 0.4 * r * c;
    const longer = hundredth["settling_delay"]! - tenth["settling_delay"]!;
    expect(longer / (Math.log(10) * constant)).toBeCloseTo(1, 12);
  });

  test("one resistor and one capacitor: 0.693 RC to a half, 2.197 RC from a tenth to nine", () => {
    const v = oddValues(lumpedDelay, { lumped_resistance: 5e3, lumped_capacitance: 3e-14 });
    expect(v["half_time"]! / 1.5e-10).toBeCloseTo(Math.LN2, 9);
    expect(v["rise_time"]! / 1.5e-10).toBeCloseTo(2.1972245773, 9);
  });

  test("a ladder's mean delay is the sum of its sections, and a line's half time its series' root", () => {
    const v = oddValues(ladderDelay, { ...line, sections: 7 });
    let mean = 0;
    for (let k = 1; k <= 7; k++) mean += ((3.1e3 * k) / 7) * (41e-15 / 7);
    expectPaper(v, { ladder_mean_delay: mean });
    // 1 - 4/pi (e^(-pi^2 t/4) - e^(-9 pi^2 t/4) / 3 + ...) = 1/2 at the far end of an open line.
    const end = (t: number) => {
      let sum = 0;
      for (let k = 0; k < 30; k++) {
        const n = 2 * k + 1;
        sum += ((k % 2 === 0 ? 1 : -1) * Math.exp((-n * n * Math.PI ** 2 * t) / 4)) / n;
      }
      return 1 - (4 / Math.PI) * sum;
    };
    let [low, high] = [0.1, 1];
    for (let i = 0; i < 60; i++) {
      const t = (low + high) / 2;
      if (end(t) < 0.5) low = t;
      else high = t;
    }
    expect(v["line_half_time"]! / (3.1e3 * 41e-15 * low)).toBeCloseTo(1, 7);
  });
});

test("a fine wire: barriers on three sides, reflection at grains by quadrature, scattering at surfaces", () => {
  const given = {
    width: 31e-9,
    thickness: 57e-9,
    barrier_thickness: 2.2e-9,
    grain_size_ratio: 0.9,
    grain_reflection: 0.27,
    mean_free_path: 39e-9,
    surface_specularity: 0.25,
    geometry_factor: 1.2,
    bulk_resistivity: 1.9e-8,
  };
  const v = oddValues(sizeEffect, given);
  const [w, t] = [31e-9 - 4.4e-9, 57e-9 - 2.2e-9];
  const a = ((39e-9 / (0.9 * w)) * 0.27) / 0.73;
  // The conductivity of a grained film is 3 times the integral of u^3 / (u + a) over 0 to 1: Simpson's rule.
  const n = 2000;
  let integral = 0;
  for (let k = 0; k <= n; k++) {
    const u = k / n;
    integral += (u ** 3 / (u + a)) * (k === 0 || k === n ? 1 : k % 2 === 1 ? 4 : 2);
  }
  const grains = 1 / ((3 * integral) / (3 * n));
  expect(v["grain_factor"]! / grains).toBeCloseTo(1, 9);
  const surfaces = (3 / 8) * 1.2 * 0.75 * (39e-9 / w + 39e-9 / t);
  const inside = 1.9e-8 * (grains + surfaces);
  expect(v["conductor_resistivity"]! / inside).toBeCloseTo(1, 9);
  // The barrier carries nothing: the whole section has the resistance of what is inside.
  const perLength = inside / (w * t);
  expect(v["resistivity"]! / (31e-9 * 57e-9) / perLength).toBeCloseTo(1, 9);
});

test("a crossbar's wire is a half pitch wide with a half pitch beside it, in the local dielectric", () => {
  const v = oddValues(crossbarSection, { feature: 23e-9, crossbar_aspect: 1.8 });
  expectPaper(v, {
    width: 23e-9,
    spacing: 23e-9,
    thickness: 1.8 * 23e-9,
    permittivity: v["local_wire_permittivity"]!,
  });
});

// "Simple formulas for two- and three-dimensional capacitances", 1983: C / eps of a line over a plane is
// 1.15 w/h + 2.80 (t/h)^0.222; to each neighbour 0.03 w/h + 0.83 t/h - 0.07 (t/h)^0.222, times (s/h)^-1.34.
test("a wire's capacitance is the published formula, with half of the fringe for a second plane", () => {
  for (const planes of [1, 1.5, 2]) {
    const v = oddValues(wire, {
      width: 60e-9,
      spacing: 75e-9,
      thickness: 110e-9,
      permittivity: 2.9,
      resistivity: 3e-8,
      plane_distance_ratio: 0.8,
      planes,
      capacitance_formula_factor: 0.97,
      temperature: 355,
      reference_temperature: 300,
      metal_temperature_slope: 6.7e-11,
    });
    const h = 88e-9;
    const fringe = 2.8 * (110 / 88) ** 0.222;
    const plane = (1.15 * 60e-9 * planes) / h + (fringe + planes * fringe) / 2;
    const next =
      ((0.03 * 60) / 88 + (0.83 * 110) / 88 - 0.07 * (110 / 88) ** 0.222) / (75 / 88) ** 1.34;
    const r = (3e-8 + 55 * 6.7e-11) / (60e-9 * 110e-9);
    const c = v["capacitance_per_length"]!;
    expect(c / (8.8541878128e-12 * 2.9 * (plane + 2 * next) * 0.97)).toBeCloseTo(1, 8);
    expectPaper(v, { resistance_per_length: r, time_constant_per_square_length: r * c });
  }
});
