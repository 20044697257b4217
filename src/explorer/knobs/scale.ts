import { exp, log, log2, pow } from "../../numerics/special/elementary.ts";
import { withFigure } from "../text/edit.ts";
import type { Knob, Scale } from "./knob.ts";

/** Places of a slider that isn't one of powers, from 0. */
export const PLACES = 200;
const DIGITS = 3;

/** The last place of a slider. */
export function lastPlace(scale: Scale): number {
  return scale.kind === "powers" ? scale.to - scale.from : PLACES;
}

/** The place that comes nearest to a value. */
export function placeOf(scale: Scale, value: number): number {
  const last = lastPlace(scale);
  if (!Number.isFinite(value)) return 0;
  const share =
    scale.kind === "powers"
      ? (log2(value) - scale.from) / last
      : scale.kind === "linear"
        ? (value - scale.from) / (scale.to - scale.from)
        : (log(value) - log(scale.from)) / (log(scale.to) - log(scale.from));
  return Math.round(Math.min(1, Math.max(0, share)) * last);
}

/** The value at a place. */
export function valueAt(scale: Scale, place: number): number {
  if (scale.kind === "powers") return pow(2, scale.from + place);
  const share = place / PLACES;
  const { from, to } = scale;
  if (scale.kind === "linear") return from + share * (to - from);
  return exp(log(from) + share * (log(to) - log(from)));
}

/** A value as a study says it: three digits, as many as anybody can set by hand. */
export function writtenValue(scale: Scale, value: number): string {
  return joined(scale, value, scale.kind === "powers" ? "" : scale.unit);
}

/** A value as people read it. */
export function printedValue(scale: Scale, value: number): string {
  if (!Number.isFinite(value)) return "–";
  return joined(scale, value, scale.kind === "powers" ? "" : scale.printed);
}

const BINARY = ["", "Ki", "Mi", "Gi", "Ti"];

function joined(scale: Scale, value: number, unit: string): string {
  if (scale.kind !== "powers") {
    const number = Number(((value - scale.offset) / scale.factor).toPrecision(DIGITS));
    return unit === "" || unit === "1" ? String(number) : `${number} ${unit}`;
  }
  if (scale.form === "count") return String(value);
  if (scale.form === "bits") return `${value} bit`;
  let step = 0;
  let left = value;
  while (left % 1024 === 0 && step < BINARY.length - 1) {
    left /= 1024;
    step += 1;
  }
  return step === 0 ? `${left} bit` : `${left} ${BINARY[step]}b`;
}

/** The text with the knob at a value. */
export function turned({ scale, paths, range }: Knob, text: string, value: number): string {
  const written = writtenValue(scale, value);
  return paths.reduce((before, path) => withFigure(before, path, written, range), text);
}
