/** What a simulation of levels takes: the switch, what is asked for, and what follows from both. */
import { refuse } from "../../errors/problem.ts";
import {
  type Circuit,
  DIRECT,
  resistanceAt,
  type SwitchGeometry,
} from "../../models/switch/geometry.ts";
import { pulse } from "../../models/switch/geometry-pulse.ts";
import { wayOf, writeTime } from "../../models/switch/geometry-way.ts";
import {
  type Approach,
  type Level,
  type LevelSpacing,
  levelsBetween,
  type PulseTrain,
  type TrainPulse,
  trainOf,
} from "../../models/switch/levels.ts";
import type { WritePlan } from "../../models/switch/levels-write.ts";
import { log } from "../../numerics/special/elementary.ts";

/** What is asked for; everything in SI. */
export interface LevelsAsked {
  readonly levels: number;
  readonly spacing?: LevelSpacing | undefined;
  /** Share of the distance of neighbouring levels that a window takes. */
  readonly window?: number | undefined;
  readonly approach?: Approach | undefined;
  readonly train?: PulseTrain | undefined;
  /** Pulses of one train. */
  readonly steps?: number | undefined;
  readonly mostPulses?: number | undefined;
  /** Voltage and width of the strongest pulse; those of the whole write where absent. */
  readonly amplitude?: number | undefined;
  readonly width?: number | undefined;
  readonly readTime?: number | undefined;
  readonly readNoise?: number | undefined;
  readonly writes?: number | undefined;
  readonly seed?: number | undefined;
  readonly circuit?: Circuit | undefined;
}

/** The switch: its geometry, its voltages and its spreads. */
export interface LevelsSwitch {
  readonly title: string;
  readonly geometry: SwitchGeometry;
  readonly readVoltage: number;
  readonly setVoltage: number;
  readonly resetVoltage: number;
  /** Standard deviation of ln R from cycle to cycle. */
  readonly cycleSpread: number;
  /** Standard deviations from device to device: of the gaps [m], of the logarithm of the area. */
  readonly gapSpread: number;
  readonly areaSpread: number;
}

/** A whole write lasts so much longer than its time, so that it ends beyond doubt. */
const AMPLE = 1.5;
const DEFAULTS = {
  spacing: "resistance",
  window: 0.5,
  approach: "reset",
  train: "voltage",
  steps: 60,
  mostPulses: 200,
  readTime: 10e-9,
  readNoise: 0.01,
  writes: 200,
  seed: 1,
} as const;

/** All that is asked for, with what nobody said. */
export type LevelsPlanned = {
  readonly [K in keyof LevelsAsked]-?: Exclude<LevelsAsked[K], undefined>;
};

export interface LevelsPlan {
  readonly asked: LevelsPlanned;
  readonly write: WritePlan;
  readonly levels: readonly Level[];
}

/** @throws TenfoldError `out-of-range` for a plan that cannot be */
export function planOf(device: LevelsSwitch, wanted: LevelsAsked): LevelsPlan {
  const asked = completed(device, wanted);
  requireCounts({ writes: asked.writes, "most pulses": asked.mostPulses });
  requireNotNegative({ "read noise": asked.readNoise, "read time": asked.readTime });
  const { geometry: g, readVoltage, cycleSpread } = device;
  const { approach, circuit } = asked;
  const strongest = { voltage: asked.amplitude, width: asked.width };
  const train = trainOf(asked.train, strongest, asked.steps);
  const start = wholeWrite(device, approach === "reset" ? "set" : "reset", circuit);
  const [on, off] = endsOf(device, start, asked);
  const resistance = (gap: number) => resistanceAt(g, gap, readVoltage);
  const wholeWay = log(resistance(g.most_gap) / resistance(g.least_gap));
  return {
    asked,
    write: { ...asked, train, start, readVoltage, cycleSpread, wholeWay },
    levels: levelsBetween(on, off, asked),
  };
}

function completed(device: LevelsSwitch, wanted: LevelsAsked): LevelsPlanned {
  const stated = Object.fromEntries(Object.entries(wanted).filter(([, v]) => v !== undefined));
  const { approach = DEFAULTS.approach, circuit = DIRECT } = wanted;
  const { voltage, width } = wholeWrite(device, approach, circuit);
  const strongest = { amplitude: voltage, width: width / AMPLE };
  return { ...DEFAULTS, circuit, ...strongest, ...stated } as LevelsPlanned;
}

/** A whole set or reset, from end to end. */
function wholeWrite(device: LevelsSwitch, kind: Approach, circuit: Circuit): TrainPulse {
  const voltage = kind === "set" ? device.setVoltage : device.resetVoltage;
  const signed = kind === "set" ? voltage : -voltage;
  return { voltage, width: AMPLE * writeTime(device.geometry, signed, circuit) };
}

/** Resistances of the first and the last level: where the start and the train end. */
function endsOf(
  { geometry: g, readVoltage }: LevelsSwitch,
  start: TrainPulse,
  { approach, amplitude, circuit }: LevelsPlanned,
): readonly [on: number, off: number] {
  const sign = approach === "reset" ? 1 : -1;
  const begun = pulse(
    g,
    sign > 0 ? g.most_gap : g.least_gap,
    sign * start.voltage,
    start.width,
    circuit,
  );
  const end = wayOf(g, -sign * amplitude, circuit).to;
  const [least, most] = sign > 0 ? [begun.gap, end] : [end, begun.gap];
  return [resistanceAt(g, least, readVoltage), resistanceAt(g, most, readVoltage)];
}

function requireCounts(counts: Readonly<Record<string, number>>): void {
  for (const [name, count] of Object.entries(counts)) {
    if (Number.isInteger(count) && count >= 1) continue;
    refuse({
      code: "out-of-range",
      what: `the number of ${name} must be a whole number above 0, not ${count}`,
    });
  }
}

function requireNotNegative(figures: Readonly<Record<string, number>>): void {
  for (const [name, value] of Object.entries(figures)) {
    if (value >= 0) continue;
    refuse({
      code: "out-of-range",
      what: `the ${name} must not be ${value}`,
      expected: "0 or more",
    });
  }
}
