import fc, { type Arbitrary } from "fast-check";
import { damaged } from "./damage.ts";
import { type Case, gentle, written } from "./material.ts";

/** Files of switches from their films, about one that works: gaps of tenths of a nanometre, barriers of an electronvolt. */

/** Invented round figures, as in the test of one such switch. */
const FILM: Readonly<Record<string, string>> = {
  film_thickness: "3 nm",
  electrode_area: "100 nm^2",
  least_gap: "0.3 nm",
  most_gap: "0.9 nm",
  barrier_height: "1 eV",
  conductive_resistivity: "5e-5 ohm m",
  hop_distance: "0.3 nm",
  hop_energy: "1.4 eV",
  set_voltage: "2.6 V",
  reset_voltage: "2.6 V",
  read_voltage: "0.2 V",
};
const FURTHER: Readonly<Record<string, string>> = {
  gap_spread: "0.02 nm",
  area_spread: "0.05",
  gap_cycle_spread: "0.01 nm",
  effective_mass: "0.4",
  attempt_frequency: "1e13 1/s",
  vacancy_charge: "2",
  thermal_resistance: "1e6 K/W",
};

/** Most values stay as they are, some move by a few per cent, a few by far. */
const moved = fc.oneof(
  { weight: 5, arbitrary: fc.constant(0) },
  { weight: 4, arbitrary: fc.double({ min: -0.05, max: 0.05, noNaN: true }) },
  { weight: 1, arbitrary: fc.double({ min: -1, max: 1, noNaN: true }) },
);
const far = fc.oneof(
  { weight: 10, arbitrary: moved },
  {
    weight: 1,
    arbitrary: fc.double({ min: -12, max: 12, noNaN: true }),
  },
);

const valuesOf = (fields: Readonly<Record<string, string>>): Arbitrary<Record<string, string>> =>
  fc.record(
    Object.fromEntries(
      Object.entries(fields).map(([name, text]) => [name, far.map((by) => gentle(text, by))]),
    ),
  );

const film: Arbitrary<object> = fc
  .record({
    whole: valuesOf(FILM),
    further: valuesOf(FURTHER).chain((all) =>
      fc.subarray(Object.entries(all)).map((some) => Object.fromEntries(some)),
    ),
  })
  .map(({ whole, further }) => ({
    format: "tenfold.switch/1",
    name: "film",
    title: "A film",
    about: "Generated.",
    values: { ...whole, ...further },
  }));

export const switches: Arbitrary<Case> = fc
  .oneof({ weight: 5, arbitrary: film }, { weight: 1, arbitrary: damaged(film) })
  .map((one) => ({ kind: "switch", how: "switch", text: written(one) }));
