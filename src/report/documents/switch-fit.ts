/** The fit of a switch to what was measured of it, as a document and as data. */
import { GEOMETRY_FIELDS } from "../../catalogue/fields/geometry.ts";
import { exp } from "../../numerics/special/elementary.ts";
import type { FittedSwitch } from "../../studies/switch/fit.ts";
import type { Cell, Document } from "../document/document.ts";
import { heading, none, note, quantity, ratio, text } from "../document/make.ts";
import { CAUTIONS } from "./cautions.ts";

/** The document of `tenfold switch --fit`. */
export function fitDocument({
  kind,
  fit,
  points,
  confidence,
  predictionDeviation,
}: FittedSwitch): Document {
  const times = kind === "times";
  const unit = times ? "s" : "A";
  const what = times ? "time" : "current";
  return {
    title: times ? "Fit to switching times" : "Fit to a current-voltage loop",
    subtitle: `${points.length} points · ${Math.round(100 * confidence)} % intervals`,
    blocks: [
      {
        kind: "table",
        name: "fitted",
        columns: [
          { name: "parameter", title: "parameter" },
          { name: "value", title: "value", align: "right" },
        ],
        rows: fit.parameters.map(({ name, value, low, high }) => {
          const { unit: si, show } = GEOMETRY_FIELDS[name]!;
          const cell = quantity(si, { value, low, high });
          return [text(name), show === undefined ? cell : { ...cell, show }];
        }),
      },
      note("note", scatterText(times, fit.deviation, predictionDeviation)),
      heading("Measured and fitted"),
      {
        kind: "table",
        name: "points",
        columns: [
          { name: "voltage", title: "voltage", align: "right" },
          { name: "measured", title: `measured ${what}`, align: "right" },
          { name: "fitted", title: "fitted", align: "right" },
          { name: "residual", title: "fitted/measured", align: "right" },
          { name: "left_out", title: "predicted from the others", align: "right" },
        ],
        rows: points.map(({ voltage, measured, fitted, leftOut }): Cell[] => [
          quantity("V", voltage),
          quantity(unit, measured),
          quantity(unit, fitted),
          measured === 0 ? none : ratio(fitted / measured),
          leftOut === undefined ? none : quantity(unit, leftOut),
        ]),
      },
      ...CAUTIONS,
    ],
  };
}

function scatterText(times: boolean, deviation: number, prediction: number | undefined): string {
  if (!times) {
    const size = deviation.toPrecision(2);
    return `Residuals scatter by ${size} in asinh(I/10 nA): above 10 nA about that of ln I.`;
  }
  const factor = (x: number) => exp(x).toPrecision(3);
  const predicted =
    prediction === undefined
      ? ""
      : `; a point that is left out is predicted to a factor of ${factor(prediction)}`;
  const scatter = `a factor of ${factor(deviation)} (one standard deviation)`;
  return `Times scatter around the fit by ${scatter}${predicted}.`;
}

/** `tenfold.switch-fit/1`, in SI; residuals are ln(fitted/measured) for times. */
export function fitData({ kind, fit, points, confidence, predictionDeviation }: FittedSwitch) {
  return {
    format: "tenfold.switch-fit/1",
    kind,
    confidence,
    parameters: fit.parameters,
    deviation: fit.deviation,
    ...(predictionDeviation !== undefined && { predictionDeviation }),
    points: points.map((one, i) => ({ ...one, residual: fit.residuals[i]! })),
    geometry: fit.geometry,
  };
}
