/** Forms of the voltage that drives a loop: first above zero, then below, in one period. */
import { refuse } from "../../errors/problem.ts";
import { triangle } from "../../models/switch/geometry-motion.ts";
import { sin } from "../../numerics/special/elementary.ts";

export const DRIVE_FORMS = ["triangle", "sine", "pulse"] as const;
export type DriveForm = (typeof DRIVE_FORMS)[number];

export interface WaveShape {
  /** Highest voltage, and magnitude of the lowest [V]. */
  readonly peak: number;
  readonly trough: number;
  /** [s] */
  readonly period: number;
  /** Of each pulse [s]; a quarter of the period where nobody says. */
  readonly width?: number | undefined;
}

/** Share of a pulse's width that each of its edges takes. */
const EDGE = 0.05;
/** A narrower pulse has fewer than four of a loop's steps. */
const NARROWEST = 0.01;

/**
 * Voltage [V] over time [s].
 *
 * @throws TenfoldError `out-of-range` for heights or times that are not positive, and for pulses
 * that are wider than half of the period or narrower than a hundredth of it
 */
export function waveOf(form: DriveForm, shape: WaveShape): (time: number) => number {
  const { peak, trough, period, width = period / 4 } = shape;
  requirePositive({ amplitude: Math.min(peak, trough), period, width });
  if (form === "triangle") return triangle(peak, trough, period);
  const half = form === "sine" ? sineHalf : pulseHalf(width / period);
  return (time) => {
    const phase = (time / period) % 1;
    return phase < 0.5 ? peak * half(phase) : -trough * half(phase - 0.5);
  };
}

function requirePositive(figures: Readonly<Record<string, number>>): void {
  for (const [name, value] of Object.entries(figures)) {
    if (value > 0 && Number.isFinite(value)) continue;
    refuse({
      code: "out-of-range",
      what: `the ${name} of a drive must be above zero`,
      got: String(value),
    });
  }
}

/** From 0 over 1 back to 0 while the phase goes from 0 to 0.5. */
function sineHalf(phase: number): number {
  return sin(2 * Math.PI * phase);
}

function pulseHalf(width: number): (phase: number) => number {
  if (width > 0.5 || width < NARROWEST) {
    refuse({
      code: "out-of-range",
      what: "the width of a pulse does not suit the period",
      got: `${width} of the period`,
      expected: `from ${NARROWEST} of the period to half of it`,
      fix: "state --period near four times --width",
    });
  }
  const edge = EDGE * width;
  return (phase) => Math.max(0, Math.min(1, phase / edge, (width - phase) / edge));
}
