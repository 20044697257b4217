/** The fit of a switch to what was measured of it, as a document and as data. */
import { GEOMETRY_FIELDS } from "../../catalogue/fields/geometry.ts";
import type { FittedParameter } from "../../models/switch/fit.ts";
import type { Interval } from "../../numerics/index.ts";
import { exp } from "../../numerics/special/elementary.ts";
import { formatQuantity, formatRow } from "../../quantities/format.ts";
import { type FittedSwitch, LOOP_SCALE } from "../../studies/switch/fit.ts";
import type { Block, Cell, Column, Document, Table } from "../document/document.ts";
import { heading, none, note, quantity, ratio, text } from "../document/make.ts";
import { CAUTIONS } from "./cautions.ts";

/** The document of `tenfold switch --fit`. */
export function fitDocument(fitted: FittedSwitch): Document {
  const { kind, fit, points, confidence } = fitted;
  const times = kind === "times";
  const blocks: Block[] = [
    parametersTable(fit.parameters, confidence),
    note("note", intervalsText(fitted)),
    ...fit.parameters.filter(({ held }) => held).map(heldNote),
    note("note", scatterText(fitted)),
    heading("Measured and fitted"),
    pointsTable(fitted),
    ...CAUTIONS,
  ];
  return {
    title: times ? "Fit to switching times" : "Fit to a current-voltage loop",
    subtitle: `${points.length} points · ${Math.round(100 * confidence)} % intervals`,
    blocks,
  };
}

function right(name: string, title: string): Column {
  return { name, title, align: "right" };
}

function parametersTable(parameters: readonly FittedParameter[], confidence: number): Table {
  const percent = `${Math.round(100 * confidence)} %`;
  const drawn = parameters.some(({ byResampling }) => byResampling);
  const rows = parameters.map((one): Cell[] => [
    text(one.name),
    figure(one, {}),
    ends(one, one.bySlopes),
    ends(one, one.byRefits),
    ...(drawn ? [ends(one, one.byResampling)] : []),
  ]);
  return {
    kind: "table",
    name: "fitted",
    columns: [
      { name: "parameter", title: "parameter" },
      right("value", "value"),
      right("by_slopes", `${percent} by slopes`),
      right("by_refits", `${percent} by refits`),
      ...(drawn ? [right("by_resampling", `${percent} by resampling`)] : []),
    ],
    rows,
  };
}

function figure({ name, value }: FittedParameter, interval: Partial<Interval>): Cell {
  if (name === "series_resistance") return quantity("ohm", { value, ...interval });
  const { unit, show } = GEOMETRY_FIELDS[name]!;
  const cell = quantity(unit, { value, ...interval });
  return show === undefined ? cell : { ...cell, show };
}

/** Both ends of an interval in one unit. */
function ends(one: FittedParameter, interval: Interval | undefined): Cell {
  if (interval === undefined) return none;
  const field = one.name === "series_resistance" ? undefined : GEOMETRY_FIELDS[one.name];
  const { unit = "ohm", show } = field ?? {};
  const figures = [{ value: interval.low }, { value: interval.high }];
  const options = { digits: 4, ...(show !== undefined && { show }) };
  const row = formatRow(figures, unit, options);
  return text(`${row.figures.map(({ value }) => value).join(" – ")} ${row.unit}`.trim());
}

function heldNote({ name }: FittedParameter): Block {
  return note(
    "warning",
    `${name} ran to an end of the range of the search: these points do not determine it.`,
  );
}

function intervalsText({ fit }: FittedSwitch): string {
  const { refits, parameters, correlations } = fit;
  const strongest = Math.max(0, ...correlations.flatMap((row, k) => row.slice(0, k).map(Math.abs)));
  const parts = [
    "By slopes: from the curvature at the best fit. By refits: how far a parameter can go, the " +
      "others fitted anew.",
    ...(refits.made > 0
      ? [`By resampling: ${refits.made} refits to resampled residuals, ${refits.failed} failed.`]
      : []),
    ...(parameters.length > 1
      ? [`Strongest correlation of two parameters: ${strongest.toFixed(3)}.`]
      : []),
  ];
  return parts.join(" ");
}

function scatterText({ kind, fit, predictionDeviation: prediction }: FittedSwitch): string {
  const { deviation } = fit;
  if (kind === "loop") {
    const scale = formatQuantity({ value: LOOP_SCALE }, "A");
    const size = deviation.toPrecision(2);
    return `Residuals scatter by ${size} in asinh(I/${scale}): above ${scale} about that of ln I.`;
  }
  const factor = (x: number) => exp(x).toPrecision(3);
  const predicted =
    prediction === undefined
      ? ""
      : `; a point that is left out is predicted to a factor of ${factor(prediction)}`;
  const scatter = `a factor of ${factor(deviation)} (one standard deviation)`;
  return `Times scatter around the fit by ${scatter}${predicted}.`;
}

function pointsTable({ kind, points, fit }: FittedSwitch): Table {
  const times = kind === "times";
  const unit = times ? "s" : "A";
  const warm = points.some(({ temperature }) => temperature !== undefined);
  const predicted = points.some(({ leftOut }) => leftOut !== undefined);
  return {
    kind: "table",
    name: "points",
    columns: [
      right("voltage", "voltage"),
      ...(warm ? [right("temperature", "temperature")] : []),
      right("measured", times ? "measured" : "current"),
      right("fitted", "fitted"),
      right("factor", "ratio"),
      right("residual", "residual"),
      ...(predicted ? [right("left_out", "from the others")] : []),
    ],
    rows: points.map(({ voltage, temperature, measured, fitted, leftOut }, i): Cell[] => [
      quantity("V", voltage),
      ...(warm && temperature !== undefined
        ? [{ ...quantity("K", temperature), show: "degC" } as const]
        : []),
      quantity(unit, measured),
      quantity(unit, fitted),
      measured === 0 ? none : ratio(fitted / measured),
      quantity("1", fit.residuals[i]!),
      ...(predicted ? [leftOut === undefined ? none : quantity(unit, leftOut)] : []),
    ]),
  };
}

/** `tenfold.switch-fit/1`, in SI; residuals are ln(fitted/measured) for times. */
export function fitData({ kind, fit, points, confidence, predictionDeviation }: FittedSwitch) {
  const { parameters, correlations, deviation, degrees, refits, residuals } = fit;
  return {
    format: "tenfold.switch-fit/1",
    kind,
    confidence,
    parameters,
    correlations,
    deviation,
    degrees,
    refits,
    ...(predictionDeviation !== undefined && { predictionDeviation }),
    points: points.map((one, i) => ({ ...one, residual: residuals[i]! })),
    geometry: fit.geometry,
    circuit: {
      series_resistance: fit.circuit.series_resistance,
      ...(Number.isFinite(fit.circuit.current_limit) && {
        current_limit: fit.circuit.current_limit,
      }),
    },
  };
}
