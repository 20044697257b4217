/** A switch from geometry as one procedure: from film and barrier to what every study reads. */
import { type InputDefinition, procedure } from "../../formulas/sheet.ts";
import {
  type Circuit,
  operatingPoint,
  requireGeometry,
  resistanceAt,
  type SwitchGeometry,
} from "./geometry.ts";
import { switchingTime } from "./geometry-motion.ts";

export const GEOMETRY: Readonly<Record<keyof SwitchGeometry, InputDefinition>> = {
  film_thickness: { unit: "m", meaning: "thickness of the film", symbol: "L" },
  electrode_area: { unit: "m^2", meaning: "area that conducts", symbol: "A" },
  least_gap: { unit: "m", meaning: "insulating gap of the on state" },
  most_gap: { unit: "m", meaning: "insulating gap of the off state" },
  barrier_height: { unit: "J", meaning: "height of the tunnel barrier", symbol: "\\phi" },
  effective_mass: { unit: "1", meaning: "effective mass of the electron over the free one" },
  conductive_resistivity: { unit: "ohm m", meaning: "resistivity of the vacancy-rich part" },
  hop_distance: { unit: "m", meaning: "distance of a vacancy's hop", symbol: "a" },
  attempt_frequency: { unit: "1/s", meaning: "attempts to hop per second", symbol: "f" },
  hop_energy: { unit: "J", meaning: "activation energy of a hop", symbol: "E_a" },
  vacancy_charge: { unit: "1", meaning: "charge number of a vacancy", symbol: "z" },
  temperature: { unit: "K", meaning: "temperature", symbol: "T" },
  thermal_resistance: { unit: "K/W", meaning: "rise of the switch's temperature per power" },
};

const INPUTS = {
  ...GEOMETRY,
  read_voltage: { unit: "V", meaning: "voltage of a read" },
  set_voltage: { unit: "V", meaning: "voltage of a set pulse" },
  reset_voltage: { unit: "V", meaning: "magnitude of the voltage of a reset pulse" },
  series_resistance: { unit: "ohm", meaning: "resistance between source and switch" },
  current_limit: { unit: "A", meaning: "largest current of the source" },
} as const satisfies Readonly<Record<string, InputDefinition>>;

/** A set is done when the gap has come this near to its end, as a share of its travel. */
export const NEARLY = 0.02;
const NAMES = Object.keys(INPUTS);

export const geometrySwitch = procedure({
  name: "geometry_switch",
  title: "Switch from its geometry",
  about:
    "Operating points by a safeguarded root search to the last digits; times by an " +
    "error-controlled integration of order 5, right to 1e-8. Times count until the gap has " +
    "travelled 98 % of its way. Tunnelling is within a factor of about 2 of the general formula up to " +
    "a voltage of the barrier.",
  source: "ionic",
  inputs: INPUTS,
  outputs: {
    on_resistance: { unit: "ohm", meaning: "resistance of the on state at the read voltage" },
    off_resistance: { unit: "ohm", meaning: "resistance of the off state at the read voltage" },
    nonlinearity: {
      unit: "1",
      meaning: "off current at the read voltage over that at half of it",
    },
    set_time: { unit: "s", meaning: "time of a set at the set voltage" },
    reset_time: { unit: "s", meaning: "time of a reset at the reset voltage" },
    half_set_time: { unit: "s", meaning: "time in which half of the set voltage sets" },
    half_reset_time: { unit: "s", meaning: "time in which half of the reset voltage resets" },
    read_disturb_time: { unit: "s", meaning: "time in which the read voltage sets" },
  },
  run(inputs, outputs) {
    const value = Object.fromEntries(NAMES.map((name, i) => [name, inputs[i]!]));
    const given = value as Readonly<Record<keyof typeof INPUTS, number>>;
    const geometry: SwitchGeometry = given;
    requireGeometry(geometry);
    outputs.set(figures(geometry, given));
  },
});

function figures(
  g: SwitchGeometry,
  given: Readonly<Record<keyof typeof INPUTS, number>>,
): readonly number[] {
  const { read_voltage: read, set_voltage: set, reset_voltage: reset } = given;
  const { series_resistance, current_limit } = given;
  const circuit: Circuit = { series_resistance, current_limit };
  const travel = NEARLY * (g.most_gap - g.least_gap);
  const setIn = (v: number): number =>
    switchingTime(g, v, g.most_gap, g.least_gap + travel, circuit);
  const resetIn = (v: number): number =>
    switchingTime(g, -v, g.least_gap, g.most_gap - travel, circuit);
  const off = (v: number): number => operatingPoint(g, g.most_gap, v).current;
  return [
    resistanceAt(g, g.least_gap, read),
    resistanceAt(g, g.most_gap, read),
    off(read) / off(read / 2),
    setIn(set),
    resetIn(reset),
    setIn(set / 2),
    resetIn(reset / 2),
    setIn(read),
  ];
}
