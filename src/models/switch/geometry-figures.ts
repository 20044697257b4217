/** What a memory reads of a switch from its geometry: resistances, times and retention. */
import { procedure, type Sheet, sheet } from "../../formulas/sheet.ts";
import { acosh } from "../../numerics/special/elementary.ts";
import { operatingPoint, requireGeometry, resistanceAt, type SwitchGeometry } from "./geometry.ts";
import { GEOMETRY } from "./geometry-inputs.ts";
import { writeTime } from "./geometry-way.ts";

const INPUTS = {
  ...GEOMETRY,
  read_voltage: { unit: "V", meaning: "voltage across the switch in a read" },
  set_voltage: { unit: "V", meaning: "voltage across the switch in a set" },
  reset_voltage: { unit: "V", meaning: "magnitude of the voltage across the switch in a reset" },
};
const NAMES = Object.keys(INPUTS);
/** An ohmic switch has a nonlinearity of 2; its law is kept this much above. */
const BARELY = 1e-6;

export const geometryFigures = procedure({
  name: "geometry_figures",
  title: "Switch from its geometry",
  about:
    "Voltages across the switch itself. Operating points by a safeguarded root search; times by " +
    "an error-controlled integration of order 5, right to 1e-8, until the gap has travelled 98 % " +
    "of its way. Tunnelling is within a factor of about 2 of the general formula up to a voltage " +
    "of the barrier.",
  source: "ionic",
  inputs: INPUTS,
  outputs: {
    on_resistance: { unit: "ohm", meaning: "resistance of the on state at the read voltage" },
    off_resistance: { unit: "ohm", meaning: "resistance of the off state at the read voltage" },
    scale_voltage: { unit: "V", meaning: "scale voltage of the sinh law of the off current" },
    set_time: { unit: "s", meaning: "time of a set at the set voltage" },
    reset_time: { unit: "s", meaning: "time of a reset at the reset voltage" },
  },
  run(inputs, outputs) {
    const given = Object.fromEntries(NAMES.map((name, i) => [name, inputs[i]!])) as Record<
      keyof typeof INPUTS,
      number
    >;
    const g: SwitchGeometry = given;
    requireGeometry(g);
    const { read_voltage: read, set_voltage: set, reset_voltage: reset } = given;
    const off = (v: number) => operatingPoint(g, g.most_gap, v).current;
    const half = Math.max(off(read) / off(read / 2) / 2, 1 + BARELY);
    outputs.set([
      resistanceAt(g, g.least_gap, read),
      resistanceAt(g, g.most_gap, read),
      read / (2 * acosh(half)),
      writeTime(g, set),
      writeTime(g, -reset),
    ]);
  },
});

export const geometryRetention: Sheet = sheet({
  name: "geometry_retention",
  title: "Retention of a switch from its geometry",
  about:
    "A state is lost when diffusion has moved the boundary by half of its travel, at the " +
    "temperature of the study, without any voltage. The energy of a hop carries it to other " +
    "temperatures.",
  inputs: {
    least_gap: GEOMETRY.least_gap,
    most_gap: GEOMETRY.most_gap,
    hop_distance: GEOMETRY.hop_distance,
    attempt_frequency: GEOMETRY.attempt_frequency,
    hop_energy: GEOMETRY.hop_energy,
    temperature: GEOMETRY.temperature,
  },
  formulas: {
    retention_time: {
      unit: "s",
      formula:
        "((most_gap - least_gap) / 2)^2 / (2 * hop_distance^2 * attempt_frequency) * " +
        "exp(hop_energy / (boltzmann_constant * temperature))",
      meaning: "time in which diffusion moves the boundary by half of its travel",
      source: "this project",
    },
    retention_temperature: {
      unit: "K",
      formula: "temperature",
      meaning: "temperature of that retention",
      source: "this project",
    },
    activation_energy: {
      unit: "J",
      formula: "hop_energy",
      meaning: "activation energy of the loss of a state",
      source: "ionic",
    },
  },
});
