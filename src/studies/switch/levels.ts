/** Several levels of a switch from its geometry, by simulated program and verify. */
import { withDeviations } from "../../models/switch/geometry-spread.ts";
import type { Level, TrainPulse } from "../../models/switch/levels.ts";
import {
  PulsedDevice,
  type WritePlan,
  type Written,
  writeLevel,
} from "../../models/switch/levels-write.ts";
import { meanOf, RandomStream, varianceOf } from "../../numerics/index.ts";
import { quantile, sorted } from "../../numerics/quantile.ts";
import { exp, log, sqrt } from "../../numerics/special/elementary.ts";
import { normalQuantile } from "../../numerics/special/normal.ts";
import { finite } from "./finite.ts";
import { type LevelsAsked, type LevelsPlanned, type LevelsSwitch, planOf } from "./levels-plan.ts";

/** Counts, seconds, joules over all writes of a level. */
export interface Spread {
  readonly mean: number;
  readonly median: number;
  /** 95 % of the writes need no more. */
  readonly most: number;
}

export interface LaterReads {
  /** Mean and standard deviation of ln R [ohm]. */
  readonly meanLog: number;
  readonly sigma: number;
  /** Share that lies beyond a boundary to a neighbour. */
  readonly misread: number;
  /** ln R [ohm] of each, rising. */
  readonly values: readonly number[];
}

export interface LevelResult extends Level {
  /** Share of the writes that ended inside the window. */
  readonly reached: number;
  readonly pulses: Spread;
  readonly time: Spread;
  readonly energy: Spread;
  /** Of later reads of the writes that reached; absent where hardly any did. */
  readonly later?: LaterReads;
  /** How many writes needed that many pulses: index 1 for one pulse. */
  readonly histogram: readonly number[];
}

export interface LevelsStudy {
  readonly title: string;
  readonly device: LevelsSwitch;
  readonly asked: LevelsPlanned;
  /** The whole write before a train, and the train. */
  readonly start: TrainPulse;
  readonly train: readonly TrainPulse[];
  readonly levels: readonly LevelResult[];
  /** Over all levels, as a study takes them: pulses of a write, share written, sigma of ln R. */
  readonly pulses: number;
  readonly reached: number;
  readonly sigma?: number;
  readonly misread?: number;
}

/**
 * Writes every level many times, each time another device, and reads it once more later.
 *
 * @throws TenfoldError `out-of-range` for a plan that cannot be
 */
export function studyLevels(device: LevelsSwitch, wanted: LevelsAsked): LevelsStudy {
  const { asked, write, levels: planned } = planOf(device, wanted);
  const { writes, seed } = asked;
  const devices = devicesOf(device, write, writes, seed);
  const levels = planned.map((level, k, all) => {
    const below = k === 0 ? 0 : all[k - 1]!.boundary;
    const cells = devices.map((one, trial) =>
      written(one, level, write, RandomStream.of(seed, "level", String(k), String(trial))),
    );
    return summaryOf(level, below, cells);
  });
  const known = levels.map(({ later }) => later).filter((later) => later !== undefined);
  return finite({
    title: device.title,
    device,
    asked,
    start: write.start,
    train: write.train,
    levels,
    pulses: meanOf(levels.map(({ pulses }) => pulses.mean)),
    reached: meanOf(levels.map(({ reached }) => reached)),
    ...(known.length > 0 && {
      sigma: sqrt(meanOf(known.map(({ sigma }) => sigma * sigma))),
      misread: meanOf(known.map(({ misread }) => misread)),
    }),
  });
}

interface Cell extends Written {
  /** ln of a later read [ohm]. */
  readonly later: number;
}

/** The devices that are written, the same ones to every level; one and the same without spread. */
function devicesOf(
  { geometry: g, readVoltage, gapSpread, areaSpread }: LevelsSwitch,
  { circuit }: WritePlan,
  count: number,
  seed: number,
): PulsedDevice[] {
  if (gapSpread === 0 && areaSpread === 0) {
    return Array<PulsedDevice>(count).fill(new PulsedDevice(g, circuit, readVoltage));
  }
  const random = RandomStream.of(seed, "devices");
  const normal = (i: number) => normalQuantile(random.uniform(i));
  return Array.from({ length: count }, (_, trial) => {
    const own = withDeviations(
      g,
      gapSpread * normal(2 * trial),
      areaSpread * normal(2 * trial + 1),
    );
    return new PulsedDevice(own, circuit, readVoltage);
  });
}

/** One write of one device, and a read of it later. */
function written(device: PulsedDevice, level: Level, plan: WritePlan, random: RandomStream): Cell {
  const one = writeLevel(device, level, plan, random);
  const noise = plan.readNoise * normalQuantile(random.uniform(LATER));
  return { ...one, later: log(one.resistance) + noise };
}

/** The draw of the later read: an index that no write's own draws come near. */
const LATER = 2 ** 40;

function summaryOf(level: Level, below: number, cells: readonly Cell[]): LevelResult {
  const done = cells.filter(({ reached }) => reached);
  const later = done.map((one) => one.later);
  const wrong = later.filter((x) => exp(x) < below || exp(x) > level.boundary).length;
  const histogram: number[] = [];
  for (const { pulses } of done) histogram[pulses] = (histogram[pulses] ?? 0) + 1;
  return {
    ...level,
    reached: done.length / cells.length,
    pulses: spreadOf(cells.map(({ pulses }) => pulses)),
    time: spreadOf(cells.map(({ time }) => time)),
    energy: spreadOf(cells.map(({ energy }) => energy)),
    ...(later.length > 1 && {
      later: {
        meanLog: meanOf(later),
        sigma: sqrt(varianceOf(later)),
        misread: wrong / later.length,
        values: [...sorted(later)],
      },
    }),
    histogram: Array.from(histogram, (count) => count ?? 0),
  };
}

function spreadOf(values: readonly number[]): Spread {
  const rising = sorted(values);
  return { mean: meanOf(values), median: quantile(rising, 0.5), most: quantile(rising, 0.95) };
}
