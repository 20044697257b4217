// A switch that is known by its class: currents, pulses, levels, the film of its junction.
import { expect, test } from "vitest";
import { checkSheet, type Procedure, type Sheet } from "../../../src/formulas/index.ts";
import * as figures from "../../../src/models/switch/geometry-figures.ts";
import { geometryRetention } from "../../../src/models/switch/geometry-figures.ts";
import * as geometry from "../../../src/models/switch/geometry-sheets.ts";
import * as spread from "../../../src/models/switch/geometry-spread.ts";
import {
  junctionFilm,
  measuredSwitch,
  scaleFromNonlinearity,
} from "../../../src/models/switch/measured.ts";
import { oddValues, type Values } from "../odd.ts";
import { expectPaper } from "../periphery/worksheet/paper.ts";

test("pulses are limited in current, as long as the slower one, verified, and once more for each level", () => {
  const CASES: readonly Values[] = [
    { current_limit: 60e-6, reset_current_ratio: 1.3 },
    { current_limit: 60e-6, reset_current_ratio: 0.4, set_voltage: 0.2 },
    { current_limit: 5e-3, set_voltage: 1.9, set_time: 90e-9 },
  ];
  for (const given of CASES) {
    const v = oddValues(measuredSwitch, {
      on_resistance: 7e3,
      off_resistance: 150e3,
      set_voltage: 1.1,
      reset_voltage: 1.4,
      set_time: 20e-9,
      reset_time: 35e-9,
      reset_current_ratio: 1.2,
      verify_pulses: 3,
      pulses_per_level: 2.5,
      bits_per_cell: 2,
      ...given,
    });
    const set = Math.min(v["set_voltage"]! / 7e3, v["current_limit"]!);
    const reset = Math.min(
      v["reset_voltage"]! / 7e3,
      v["reset_current_ratio"]! * v["current_limit"]!,
    );
    // Four levels: both ends as with one bit, and two between them.
    const pulses = 3 * (1 + 2 * 2.5);
    expectPaper(v, {
      resistance_window: 150 / 7,
      set_current: set,
      reset_current: reset,
      switch_write_current: Math.max(set, reset),
      switch_write_voltage: Math.max(v["set_voltage"]!, v["reset_voltage"]!),
      write_pulses: pulses,
      switch_write_time: Math.max(v["set_time"]!, v["reset_time"]!) * pulses,
    });
  }
});

test("a junction is a plate capacitor of half pitches, its element round", () => {
  const given = { feature: 30e-9, film_permittivity: 22, film_thickness: 6e-9 };
  const v = oddValues(junctionFilm, given);
  // 8.854 pF/m times 22, 900 nm2 over 6 nm: 29.2 aF.
  expect(v["junction_capacitance"]! / 29.2188e-18).toBeCloseTo(1, 4);
  expect(v["largest_element_area"]! / (Math.PI * 15e-9 ** 2)).toBeCloseTo(1, 12);
});

test("a sinh law with a nonlinearity carries so many times more at twice the voltage", () => {
  const v = oddValues(scaleFromNonlinearity, { read_voltage: 0.35, nonlinearity: 40 });
  const s = v["scale_voltage"]!;
  // The nonlinearity is the current at the voltage over that at half of it.
  expect(Math.sinh(0.35 / s) / Math.sinh(0.175 / s) / 40).toBeCloseTo(1, 12);
});

test("a gap is kept until ions have diffused half of its way", () => {
  const ev = 1.602176634e-19;
  const v = oddValues(geometryRetention, {
    most_gap: 2.1e-9,
    least_gap: 0.3e-9,
    hop_distance: 0.25e-9,
    attempt_frequency: 1e13,
    hop_energy: 1.2 * ev,
    temperature: 330,
  });
  // A random walk in one dimension: the mean square of the way is twice the diffusivity times the time.
  const hops = 1e13 * Math.exp((-1.2 * ev) / (1.380649e-23 * 330));
  const diffusivity = 0.25e-9 ** 2 * hops;
  const way = Math.sqrt(2 * diffusivity * v["retention_time"]!);
  expect(way / 0.9e-9).toBeCloseTo(1, 12);
  expectPaper(v, { retention_temperature: 330, activation_energy: 1.2 * ev });
});

const models = [figures, geometry, spread]
  .flatMap((module) => Object.values<unknown>(module))
  .filter(
    (one): one is Sheet | Procedure => typeof one === "object" && one !== null && "kind" in one,
  );

test.each(models.map((one) => [one.name, one] as const))(
  "%s parses, has the right dimensions and leaves no field blank",
  (_, one) => {
    expect(checkSheet(one)).toEqual([]);
  },
);

test("all models of a geometry are checked", () => {
  expect(models.map(({ name }) => name).sort()).toEqual([
    "geometry_figures",
    "geometry_retention",
    "geometry_spread",
    "linear_drift",
    "tunnel_barrier",
    "vacancy_motion",
  ]);
});
