/** The kinds of a case: named junction laws. */

import { refuse } from "../../errors/problem.ts";
import type { JunctionKind, Law } from "../../numerics/crossbar/problem.ts";
import { acosh, sinh } from "../../numerics/special/elementary.ts";
import { type Fields, fieldsOf, onlyKeys, positiveAt, wordAt } from "./fields.ts";

const SINH_POINTS = ["read_voltage", "read_current", "nonlinearity"];

function sinhLaw(from: Fields): Law {
  if (!SINH_POINTS.some((key) => key in from.values)) {
    return {
      law: "sinh",
      resistance: positiveAt(from, "resistance"),
      scaleVoltage: positiveAt(from, "scale_voltage"),
    };
  }
  const v = positiveAt(from, "read_voltage");
  const i = positiveAt(from, "read_current");
  const k = positiveAt(from, "nonlinearity");
  if (!(k > 2)) {
    refuse({
      code: "out-of-range",
      what: `${from.at}/nonlinearity must be above 2, the value of an ohmic junction`,
      path: `${from.at}/nonlinearity`,
      got: String(k),
    });
  }
  // I(V) / I(V/2) = 2 cosh(V / 2S)
  const scaleVoltage = v / (2 * acosh(k / 2));
  return { law: "sinh", resistance: (scaleVoltage * sinh(v / scaleVoltage)) / i, scaleVoltage };
}

function lawOf(from: Fields, laws: readonly Law["law"][]): Law {
  const law = wordAt(from, "law", laws);
  switch (law) {
    case "ohmic":
      onlyKeys(from, ["law", "resistance", "selector"]);
      return { law, resistance: positiveAt(from, "resistance") };
    case "sinh":
      onlyKeys(from, ["law", "resistance", "scale_voltage", ...SINH_POINTS, "selector"]);
      return sinhLaw(from);
    case "threshold": {
      const keys = ["on_resistance", "off_resistance", "threshold_voltage", "width_voltage"];
      onlyKeys(from, ["law", ...keys, "selector"]);
      const on = positiveAt(from, "on_resistance");
      const off = positiveAt(from, "off_resistance");
      if (on > off) {
        refuse({
          code: "out-of-range",
          what: `${from.at}/on_resistance must not be above off_resistance`,
          path: `${from.at}/on_resistance`,
          got: `${on} above ${off}`,
        });
      }
      return {
        law,
        onResistance: on,
        offResistance: off,
        thresholdVoltage: positiveAt(from, "threshold_voltage"),
        widthVoltage: positiveAt(from, "width_voltage"),
      };
    }
    case "diode": {
      onlyKeys(from, ["law", "saturation_current", "emission_voltage", "leak_resistance"]);
      const leak = from.values["leak_resistance"];
      return {
        law,
        saturationCurrent: positiveAt(from, "saturation_current"),
        emissionVoltage: positiveAt(from, "emission_voltage"),
        ...(leak === undefined || leak === null
          ? {}
          : { leakResistance: positiveAt(from, "leak_resistance") }),
      };
    }
  }
}

/** One kind: a law, maybe with a selector in series. */
export function kindOf(value: unknown, at: string): JunctionKind {
  const from = fieldsOf(value, at);
  const element = lawOf(from, ["ohmic", "sinh", "threshold"]);
  const selector = from.values["selector"];
  if (selector === undefined || selector === null) return { element };
  return {
    element,
    selector: lawOf(fieldsOf(selector, `${at}/selector`), ["ohmic", "sinh", "threshold", "diode"]),
  };
}
