/**
 * What voltage a junction needs, by kind of selector, and the margins that a study refuses when
 * negative.
 */
import type { Sheet } from "../../formulas/sheet.ts";
import { formula, model } from "../define.ts";
import { selectorDefaults } from "./defaults.ts";

const read = "junction voltage of the selected cell in a read";
const write = "junction voltage of the selected cell in a write";
const aboutMargins = "Margins are voltages; a negative one means that the array does not work.";

/** What an unselected junction gets, with drivers that make up for the drop of the lines. */
const disturb = formula(
  "V",
  "min(set_voltage, reset_voltage) - disturb_voltage",
  "write threshold minus the voltage of a half-selected junction",
);

/**
 * What a half-selected switch gets behind its selector: an off one may be set, an on one reset.
 * What drivers add for the lines is counted as the switch's alone.
 *
 * @param drop the selector's voltage at the current `I`
 */
const disturbBehind = (drop: string) =>
  formula(
    "V",
    `min(set_voltage + ${drop.replaceAll("I_", "disturb_off_current")}, ` +
      `reset_voltage + ${drop.replaceAll("I_", "disturb_on_current")}) - disturb_voltage`,
    "write threshold minus the voltage of a half-selected switch behind its selector",
    "this project",
    { note: "the off switch may be set, the on switch reset" },
  );

export const bareBias = model({
  parameters: selectorDefaults,
  name: "bias_bare",
  title: "Voltages of a bare junction",
  about: `The switch gets the whole junction voltage. ${aboutMargins}`,
  formulas: {
    selector_delay: formula("s", "0", "time until the selector conducts"),
    array_read_voltage: formula("V", "read_voltage", read),
    array_write_voltage: formula("V", "switch_write_voltage", write),
    selector_margin_disturb: disturb,
  },
});

export const diodeBias = model({
  parameters: selectorDefaults,
  name: "bias_diode",
  title: "Voltages of a junction with a diode",
  about:
    "The diode's forward voltage comes on top. One polarity only: set and reset must share it. " +
    aboutMargins,
  formulas: {
    selector_delay: formula("s", "0", "time until the selector conducts"),
    diode_read_voltage: formula(
      "V",
      "selector_emission_voltage * log(1 + read_voltage / (on_resistance * " +
        "selector_saturation_current)) + read_voltage / on_resistance * selector_on_resistance",
      "voltage of the diode at the on current of a read",
      "dic",
    ),
    diode_write_voltage: formula(
      "V",
      "selector_emission_voltage * log(1 + switch_write_current / " +
        "selector_saturation_current) + switch_write_current * selector_on_resistance",
      "voltage of the diode at the write current",
      "dic",
    ),
    array_read_voltage: formula("V", "read_voltage + diode_read_voltage", read),
    array_write_voltage: formula("V", "switch_write_voltage + diode_write_voltage", write),
    selector_margin_disturb: disturbBehind(
      "(selector_emission_voltage * log(1 + I_ / selector_saturation_current) + I_ * " +
        "selector_on_resistance)",
    ),
  },
});

export const thresholdBias = model({
  parameters: selectorDefaults,
  name: "bias_threshold",
  title: "Voltages of a junction with a threshold selector",
  about:
    "The junction voltage first has to make the selector snap, then has to hold it and give " +
    "the switch its voltage. " +
    `Half-selected junctions must stay below the threshold. ${aboutMargins}`,
  formulas: {
    selector_delay: formula("s", "selector_turn_on_time", "time until the selector conducts"),
    snap_voltage: formula(
      "V",
      "selector_threshold_voltage * (1 + selector_overdrive)",
      "voltage that makes every selector snap",
      "common practice",
    ),
    array_read_voltage: formula(
      "V",
      "max(snap_voltage, selector_hold_voltage + read_voltage * (1 + selector_on_resistance / " +
        "on_resistance))",
      read,
    ),
    array_write_voltage: formula(
      "V",
      "max(snap_voltage, selector_hold_voltage + switch_write_voltage + switch_write_current " +
        "* selector_on_resistance)",
      write,
    ),
    selector_margin_half: formula(
      "V",
      "selector_threshold_voltage * (1 - selector_overdrive) - disturb_voltage",
      "threshold minus the voltage of a half-selected junction in a write",
    ),
    selector_margin_read: formula(
      "V",
      "min(set_voltage, reset_voltage) - (array_read_voltage - selector_hold_voltage)",
      "write threshold minus what the switch gets in a read after the snap",
      "this project",
      { note: "negative: a read needs a current limit or writes the cell" },
    ),
    selector_margin_hold: formula(
      "V",
      "array_read_voltage - selector_hold_voltage",
      "read voltage minus the hold voltage",
    ),
  },
});

export const tunnelBias = model({
  parameters: selectorDefaults,
  name: "bias_nonlinear",
  title: "Voltages of a junction with a tunnel selector",
  about: `A sinh law through the selector's on resistance at its stated voltage. ${aboutMargins}`,
  formulas: {
    selector_delay: formula("s", "0", "time until the selector conducts"),
    selector_scale_voltage: formula(
      "V",
      "selector_nonlinearity_voltage / (2 * acosh(selector_nonlinearity / 2))",
      "voltage scale of the selector",
      "this project",
      { note: "for a nonlinearity above 2" },
    ),
    selector_prefactor: formula(
      "A",
      "selector_nonlinearity_voltage / selector_on_resistance / " +
        "sinh(selector_nonlinearity_voltage / selector_scale_voltage)",
      "current scale of the selector",
    ),
    array_read_voltage: formula(
      "V",
      "read_voltage + selector_scale_voltage * asinh(read_voltage / on_resistance / " +
        "selector_prefactor)",
      read,
    ),
    array_write_voltage: formula(
      "V",
      "switch_write_voltage + selector_scale_voltage * asinh(switch_write_current / " +
        "selector_prefactor)",
      write,
    ),
    selector_margin_disturb: disturbBehind(
      "selector_scale_voltage * asinh(I_ / selector_prefactor)",
    ),
  },
});

export const mixedConductorBias = model({
  parameters: selectorDefaults,
  name: "bias_mixed_conductor",
  title: "Voltages of a junction with an exponential selector",
  about:
    "Exponential in both polarities, through the off current at half of the stated voltage. " +
    aboutMargins,
  formulas: {
    selector_delay: formula("s", "0", "time until the selector conducts"),
    selector_scale_voltage: formula(
      "V",
      "selector_emission_voltage",
      "voltage scale of the selector",
    ),
    selector_prefactor: formula(
      "A",
      "selector_off_current / sinh(selector_nonlinearity_voltage / (2 * " +
        "selector_emission_voltage))",
      "current scale of the selector",
    ),
    array_read_voltage: formula(
      "V",
      "read_voltage * (1 + selector_on_resistance / on_resistance) + selector_scale_voltage * " +
        "asinh(read_voltage / on_resistance / selector_prefactor)",
      read,
    ),
    array_write_voltage: formula(
      "V",
      "switch_write_voltage + switch_write_current * selector_on_resistance + " +
        "selector_scale_voltage * asinh(switch_write_current / selector_prefactor)",
      write,
    ),
    selector_margin_disturb: disturbBehind(
      "(selector_scale_voltage * asinh(I_ / selector_prefactor) + I_ * selector_on_resistance)",
    ),
  },
});

export const complementaryBias = model({
  parameters: selectorDefaults,
  name: "bias_complementary",
  title: "Voltages of a pair of switches back to back",
  about:
    "A read sets the off switch of one state, so that both are on; the other state stays as " +
    "it is. A write has to reset " +
    `one switch while both are on and share the voltage. ${aboutMargins}`,
  formulas: {
    selector_delay: formula("s", "0", "time until the selector conducts"),
    array_read_voltage: formula(
      "V",
      "set_voltage * (1 + on_resistance / off_resistance) * (1 + selector_overdrive)",
      read,
    ),
    array_write_voltage: formula("V", "max(2 * reset_voltage, array_read_voltage)", write),
    selector_margin_read: formula(
      "V",
      "2 * reset_voltage - array_read_voltage",
      "write threshold minus the read voltage",
    ),
    selector_margin_half: formula(
      "V",
      "set_voltage - disturb_voltage",
      "set voltage minus the voltage of a half-selected junction in a write",
    ),
  },
});

/** A kind of two-terminal selector: its sheet and the name of its junction procedure. */
export type SelectorKind =
  | "none"
  | "diode"
  | "threshold"
  | "tunnel"
  | "mixed_conductor"
  | "complementary";

export const biasSheets: Readonly<Record<SelectorKind, Sheet>> = {
  none: bareBias,
  diode: diodeBias,
  threshold: thresholdBias,
  tunnel: tunnelBias,
  mixed_conductor: mixedConductorBias,
  complementary: complementaryBias,
};
