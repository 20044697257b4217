/** The junctions of a crossbar as the network solver takes them. */
import type { JunctionKind, Law } from "../../numerics/crossbar/index.ts";
import { sinh } from "../../numerics/special/elementary.ts";
import { scaleOf } from "../junction.ts";
import type { SelectorKind } from "./bias.ts";

type Values = Readonly<Record<string, number>>;

const ohmic = (resistance: number): Law => ({ law: "ohmic", resistance });

/** The sinh law through a current at a voltage. */
function sinhThrough(voltage: number, current: number, scaleVoltage: number): Law {
  return {
    law: "sinh",
    resistance: (scaleVoltage * sinh(voltage / scaleVoltage)) / current,
    scaleVoltage,
  };
}

function sinhOf(prefactor: number, scaleVoltage: number): Law {
  return { law: "sinh", resistance: scaleVoltage / prefactor, scaleVoltage };
}

/**
 * An unselected junction, on or off, for the network solver. The solver joins two elements: the
 * selector's own series resistance is part of the on state, and left out beside an off switch,
 * which has hundreds of times as much.
 *
 * @param values the parameters that `junction_current_…` of this kind reads, in SI
 */
export function unselectedJunction(kind: SelectorKind, values: Values, on: boolean): JunctionKind {
  const read = values["read_voltage"]!;
  const series = values["selector_on_resistance"] ?? 0;
  const offSwitch = sinhThrough(read, read / values["off_resistance"]!, values["scale_voltage"]!);
  const element = on ? ohmic(values["on_resistance"]!) : offSwitch;
  const withSeries = on ? ohmic(values["on_resistance"]! + series) : offSwitch;
  switch (kind) {
    case "none":
      return { element };
    case "diode":
      return {
        element: withSeries,
        selector: {
          law: "diode",
          saturationCurrent: values["selector_saturation_current"]!,
          emissionVoltage: values["selector_emission_voltage"]!,
        },
      };
    case "threshold": {
      const half = values["selector_threshold_voltage"]! / 2;
      const scale = scaleOf(2 * half, values["selector_off_nonlinearity"]!);
      return { element, selector: sinhThrough(half, values["selector_off_current"]!, scale) };
    }
    case "tunnel":
      return {
        element,
        selector: sinhOf(values["selector_prefactor"]!, values["selector_scale_voltage"]!),
      };
    case "mixed_conductor":
      return {
        element: withSeries,
        selector: sinhOf(values["selector_prefactor"]!, values["selector_scale_voltage"]!),
      };
    case "complementary":
      return { element: ohmic(values["on_resistance"]!), selector: offSwitch };
  }
}
