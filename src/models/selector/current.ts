/**
 * The current of a switch and a selector in series, for the two states at full, half and third
 * voltage.
 */
import { type Procedure, procedure } from "../../formulas/sheet.ts";
import { inputsOf } from "../define.ts";
import {
  diodeLaw,
  held,
  type Law,
  ohmic,
  scaleOf,
  series,
  sinhLaw,
  sinhThrough,
} from "../junction.ts";
import type { SelectorKind } from "./bias.ts";
import { selectorDefaults } from "./defaults.ts";

type Values = Readonly<Record<string, number>>;

/** The laws of one junction: selected, and unselected (where a threshold selector is off). */
export interface Junction {
  readonly selected: Law;
  readonly unselected: Law;
}

const SWITCH = [
  "junction_voltage",
  "on_resistance",
  "off_resistance",
  "read_voltage",
  "scale_voltage",
];

function switchLaw(values: Values, on: boolean): Law {
  if (on) return ohmic(values["on_resistance"]!);
  const read = values["read_voltage"]!;
  return sinhThrough(read, read / values["off_resistance"]!, values["scale_voltage"]!);
}

const same = (law: Law): Junction => ({ selected: law, unselected: law });

interface Kind {
  readonly about: string;
  readonly inputs: readonly string[];
  junction(values: Values, on: boolean): Junction;
}

const KINDS: Readonly<Record<SelectorKind, Kind>> = {
  none: {
    about: "The switch alone.",
    inputs: [],
    junction: (values, on) => same(switchLaw(values, on)),
  },
  diode: {
    about: "With an exponential diode and its series resistance.",
    inputs: ["selector_saturation_current", "selector_emission_voltage", "selector_on_resistance"],
    junction: (values, on) =>
      same(
        series(
          switchLaw(values, on),
          diodeLaw(values["selector_saturation_current"]!, values["selector_emission_voltage"]!),
          ohmic(values["selector_on_resistance"]!),
        ),
      ),
  },
  threshold: {
    about:
      "With a threshold selector: the selected junction has snapped and holds, half and third " +
      "voltages stay on the off branch, a sinh law through the off current at half of the " +
      "threshold.",
    inputs: [
      "selector_threshold_voltage",
      "selector_hold_voltage",
      "selector_off_current",
      "selector_on_resistance",
      "selector_off_nonlinearity",
    ],
    junction(values, on) {
      const half = values["selector_threshold_voltage"]! / 2;
      const scale = scaleOf(2 * half, values["selector_off_nonlinearity"]!);
      const off = sinhThrough(half, values["selector_off_current"]!, scale);
      const law = switchLaw(values, on);
      return {
        selected: series(
          law,
          held(values["selector_hold_voltage"]!, values["selector_on_resistance"]!),
        ),
        unselected: series(law, off),
      };
    },
  },
  tunnel: {
    about: "With a symmetric tunnel selector, a sinh law.",
    inputs: ["selector_prefactor", "selector_scale_voltage"],
    junction: (values, on) =>
      same(
        series(
          switchLaw(values, on),
          sinhLaw(values["selector_prefactor"]!, values["selector_scale_voltage"]!),
        ),
      ),
  },
  mixed_conductor: {
    about: "With a selector that is exponential in both polarities, and its series resistance.",
    inputs: ["selector_prefactor", "selector_scale_voltage", "selector_on_resistance"],
    junction: (values, on) =>
      same(
        series(
          switchLaw(values, on),
          sinhLaw(values["selector_prefactor"]!, values["selector_scale_voltage"]!),
          ohmic(values["selector_on_resistance"]!),
        ),
      ),
  },
  complementary: {
    about:
      "Two equal switches back to back: on means that the read has set both, off and every " +
      "unselected pair has one switch off.",
    inputs: [],
    junction(values, on) {
      const rest = series(switchLaw(values, true), switchLaw(values, false));
      const both = series(switchLaw(values, true), switchLaw(values, true));
      return { selected: on ? both : rest, unselected: rest };
    },
  },
};

const OUTPUTS = {
  on_full: { unit: "A", meaning: "current of the selected junction, on" },
  off_full: { unit: "A", meaning: "current of the selected junction, off" },
  on_slope: { unit: "1/ohm", meaning: "slope of the selected junction's current, on" },
  off_slope: { unit: "1/ohm", meaning: "slope of the selected junction's current, off" },
  on_unselected: {
    unit: "A",
    meaning: "current of an unselected junction at the whole voltage, on",
  },
  off_unselected: {
    unit: "A",
    meaning: "current of an unselected junction at the whole voltage, off",
  },
  on_half: { unit: "A", meaning: "current of an unselected junction at half of the voltage, on" },
  off_half: { unit: "A", meaning: "current of an unselected junction at half of the voltage, off" },
  on_third: {
    unit: "A",
    meaning: "current of an unselected junction at a third of the voltage, on",
  },
  off_third: {
    unit: "A",
    meaning: "current of an unselected junction at a third of the voltage, off",
  },
};

/** The parameters that a junction's current depends on, its voltage first. */
export function junctionInputs(kind: SelectorKind): readonly string[] {
  return [...SWITCH, ...KINDS[kind].inputs];
}

/** The laws of a junction by kind of selector; see `junctionInputs` for the values. */
export function junctionOf(kind: SelectorKind, values: Values, on: boolean): Junction {
  return KINDS[kind].junction(values, on);
}

function junctionProcedure(name: SelectorKind, kind: Kind): Procedure {
  const names = [...SWITCH, ...kind.inputs];
  return procedure({
    name: `junction_current_${name}`,
    title: "Current of a junction",
    about:
      `${kind.about} Each element's voltage at a current is a closed form; ` +
      "Newton steps on the current, which never pass it, find it to the last digits.",
    source: "this project",
    inputs: inputsOf(names, {}, selectorDefaults),
    outputs: OUTPUTS,
    run(inputs, outputs) {
      const values: Record<string, number> = {};
      names.forEach((key, k) => {
        values[key] = inputs[k]!;
      });
      const v = values["junction_voltage"]!;
      [true, false].forEach((on, k) => {
        const { selected, unselected } = kind.junction(values, on);
        const full = selected.current(v);
        outputs[k] = full;
        outputs[2 + k] = 1 / selected.resistance(full);
        outputs[4 + k] = unselected.current(v);
        outputs[6 + k] = unselected.current(v / 2);
        outputs[8 + k] = unselected.current(v / 3);
      });
    },
  });
}

/**
 * `junction_current` by kind of selector; use it with the prefixes `read_` and `write_`, bound to
 * their voltages.
 */
export const junctionCurrents: Readonly<Record<SelectorKind, Procedure>> = {
  none: junctionProcedure("none", KINDS.none),
  diode: junctionProcedure("diode", KINDS.diode),
  threshold: junctionProcedure("threshold", KINDS.threshold),
  tunnel: junctionProcedure("tunnel", KINDS.tunnel),
  mixed_conductor: junctionProcedure("mixed_conductor", KINDS.mixed_conductor),
  complementary: junctionProcedure("complementary", KINDS.complementary),
};
