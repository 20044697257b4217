/**
 * The write current of a magnetic junction from the retention that it is made for: one barrier
 * keeps the state and stands against the write.
 */
import type { InputDefinition } from "../../formulas/sheet.ts";
import { formula, model } from "../define.ts";
import { neededBarrier } from "../thermal.ts";

const THERMAL = "thermal";
const BUTLER = "spin-switching";
const BLOCH = "bloch-callen";

/** What describes the free layer and what is asked of it. */
export const SPIN_TORQUE_INPUTS: Readonly<Record<string, InputDefinition>> = {
  stability: {
    unit: "1",
    meaning: "energy barrier over kT at the temperature of the stated retention",
    symbol: "\\Delta",
  },
  retention_time: { unit: "s", meaning: "time for which a state is kept", symbol: "t_{ret}" },
  retention_temperature: {
    unit: "K",
    meaning: "temperature at which it is kept for that time",
    symbol: "T_{ret}",
  },
  retention_failure_share: {
    unit: "1",
    meaning: "share of cells that may lose their state within the retention time",
  },
  attempt_time: { unit: "s", meaning: "attempt time of thermal activation", symbol: "t_0" },
  bloch_temperature: {
    unit: "K",
    meaning: "temperature at which Bloch's law has the magnetisation vanish",
    symbol: "T^*",
  },
  barrier_exponent: { unit: "1", meaning: "power of the magnetisation that the barrier follows" },
  damping: { unit: "1", meaning: "Gilbert damping of the free layer", symbol: "\\alpha" },
  layer_moment: {
    unit: "A",
    meaning: "magnetic moment of the free layer per area",
    symbol: "M_s t",
  },
  write_error_rate: { unit: "1", meaning: "share of pulses that fail to write" },
  element_area: { unit: "m^2", meaning: "area of the element", symbol: "A_{e}" },
  largest_element_area: { unit: "m^2", meaning: "area of the largest element that a cell holds" },
  threshold_current: { unit: "A", meaning: "current at which the torque overcomes the damping" },
  write_overdrive: { unit: "1", meaning: "write current over the threshold current" },
  current_limit: { unit: "A", meaning: "largest current of a write", symbol: "I_{lim}" },
};

const about =
  "Thermally activated loss over one barrier with an attempt time: time, share of lost cells and " +
  "barrier at one temperature determine each other.";

/** Δ from a retention. */
export const barrierOfRetention = model({
  name: "barrier_of_retention",
  title: "Energy barrier that a retention asks for",
  about,
  inputs: SPIN_TORQUE_INPUTS,
  formulas: {
    stability: formula(
      "1",
      neededBarrier("retention_time", "1", "retention_failure_share"),
      "energy barrier over kT at the temperature of the retention",
      THERMAL,
      { symbol: "\\Delta" },
    ),
  },
});

/** The retention from Δ. */
export const retentionOfBarrier = model({
  name: "retention_of_barrier",
  title: "Retention that an energy barrier gives",
  about,
  inputs: SPIN_TORQUE_INPUTS,
  formulas: {
    retention_time: formula(
      "s",
      "-log1p(-retention_failure_share) * attempt_time * exp(stability)",
      "time in which no more than the stated share of cells is lost",
      THERMAL,
      { symbol: "t_{ret}" },
    ),
  },
});

/** What Arrhenius' law has to be given so that it carries the retention to other temperatures. */
export const barrierSlope = model({
  name: "barrier_slope",
  title: "Activation energy of a magnetic barrier",
  about:
    "The barrier falls with the magnetisation, which falls with temperature by Bloch's law. Tests " +
    "at two temperatures see the slope of barrier over kT against 1/kT, which is above the " +
    "barrier itself: E - T dE/dT, here at the temperature of the stated retention.",
  inputs: SPIN_TORQUE_INPUTS,
  formulas: {
    lost_magnetisation: formula(
      "1",
      "(retention_temperature / bloch_temperature)^1.5",
      "share of the magnetisation that is lost at the temperature of the retention",
      BLOCH,
    ),
    activation_energy: formula(
      "J",
      "stability * boltzmann_constant * retention_temperature * (1 + 1.5 * barrier_exponent * " +
        "lost_magnetisation / (1 - lost_magnetisation))",
      "apparent activation energy of the loss of a state",
      BLOCH,
      { symbol: "E_a" },
    ),
  },
});

/** Threshold current of the torque and what a pulse's error rate depends on. */
export const spinTorque = model({
  name: "spin_torque",
  title: "Threshold current of spin transfer",
  about:
    "One macrospin with its easy axis across the film: the torque of the polarised current stands " +
    "against the damping of a barrier E, I = 4 e α E / (ħ η). The efficiency is that from the " +
    "parallel state, the smaller one, with the polarisation that the magnetoresistance tells. " +
    "Elements beyond some 40 nm reverse by domains and have a smaller barrier for their current; " +
    "published efficiencies are on both sides of this one. The moment is taken as constant.",
  inputs: SPIN_TORQUE_INPUTS,
  formulas: {
    state_ratio: formula(
      "1",
      "off_resistance / on_resistance",
      "antiparallel resistance over parallel one: one plus the magnetoresistance",
      "common practice",
    ),
    spin_efficiency: formula(
      "1",
      "sqrt(1 - 1 / state_ratio^2) / 2",
      "spin polarisation factor of the torque on a parallel junction",
      "spin-efficiency",
      { symbol: "\\eta", note: "sqrt(TMR (TMR + 2)) / (2 (TMR + 1))" },
    ),
    barrier_ratio: formula(
      "1",
      "((1 - (temperature / bloch_temperature)^1.5) / (1 - (retention_temperature / " +
        "bloch_temperature)^1.5))^barrier_exponent",
      "barrier at the temperature over that at the temperature of the retention",
      BLOCH,
    ),
    energy_barrier: formula(
      "J",
      "stability * boltzmann_constant * retention_temperature * barrier_ratio",
      "energy barrier at the temperature",
      THERMAL,
      { symbol: "E_b" },
    ),
    threshold_current: formula(
      "A",
      "4 * elementary_charge * damping * energy_barrier / (reduced_planck_constant * " +
        "spin_efficiency)",
      "current at which the torque overcomes the damping",
      "spin-efficiency",
      { symbol: "I_{c0}" },
    ),
    anisotropy_field: formula(
      "V s/m^2",
      "2 * energy_barrier / (layer_moment * min(element_area, largest_element_area))",
      "field of the anisotropy",
      "common practice",
      { symbol: "B_k", note: "the barrier of a moment m is m B / 2" },
    ),
    reduced_pulse: formula(
      "1",
      "damping * elementary_charge / electron_mass * anisotropy_field * min(set_time, reset_time)",
      "width of the pulse in times of the damping",
      BUTLER,
      { symbol: "\\tau", note: "gyromagnetic ratio of the free electron, with a g-factor of 2" },
    ),
    write_stability: formula(
      "1",
      "energy_barrier / (boltzmann_constant * temperature)",
      "energy barrier over kT at the temperature",
      THERMAL,
    ),
  },
});

/** The write current of such a junction. */
export const spinTorqueCurrent = model({
  name: "spin_torque_current",
  title: "Write current of spin transfer",
  about: "The overdrive that the pulse needs times the threshold.",
  inputs: SPIN_TORQUE_INPUTS,
  formulas: {
    current_limit: formula(
      "A",
      "write_overdrive * threshold_current",
      "current of a write",
      BUTLER,
      { symbol: "I_{lim}" },
    ),
  },
});

const junctionVoltage = (field: "set_voltage" | "reset_voltage", pulse: string) =>
  model({
    name: `spin_torque_${field}`,
    title: `Voltage of a ${pulse} by spin transfer`,
    about: "The torque follows the voltage, so that both polarities take about the same.",
    inputs: SPIN_TORQUE_INPUTS,
    formulas: {
      [field]: formula(
        "V",
        "current_limit * on_resistance",
        "voltage that has the write current flow in the parallel state",
        "spin-torque-bias",
      ),
    },
  });

export const spinTorqueSetVoltage = junctionVoltage("set_voltage", "set");
export const spinTorqueResetVoltage = junctionVoltage("reset_voltage", "reset");
