/** Program and verify: one write of one level of a switch from its geometry. */

import type { RandomStream } from "../../numerics/sampling/random.ts";
import { exp, log, sqrt } from "../../numerics/special/elementary.ts";
import { normalQuantile } from "../../numerics/special/normal.ts";
import { type Circuit, resistanceAt, type SwitchGeometry } from "./geometry.ts";
import { type Pulsed, pulse } from "./geometry-pulse.ts";
import type { Approach, Level, TrainPulse } from "./levels.ts";

/** What all writes of a simulation share. */
export interface WritePlan {
  readonly approach: Approach;
  readonly train: readonly TrainPulse[];
  /** The whole write of the other kind that comes before a train. */
  readonly start: TrainPulse;
  readonly circuit: Circuit;
  readonly readVoltage: number;
  /** Of one verify read [s]. */
  readonly readTime: number;
  /** Standard deviations of ln R: from cycle to cycle, and from read to read. */
  readonly cycleSpread: number;
  readonly readNoise: number;
  /** The write gives up after so many pulses. */
  readonly mostPulses: number;
  /** ln of the off resistance over the on resistance: a whole cycle's way. */
  readonly wholeWay: number;
}

/**
 * A device that remembers what each pulse did to each of its gaps: without noise in the motion the
 * same pulses come again in every write.
 */
export class PulsedDevice {
  readonly geometry: SwitchGeometry;
  private readonly circuit: Circuit;
  private readonly readVoltage: number;
  private readonly pulses = new Map<string, Pulsed>();
  private readonly resistances = new Map<number, number>();

  constructor(geometry: SwitchGeometry, circuit: Circuit, readVoltage: number) {
    this.geometry = geometry;
    this.circuit = circuit;
    this.readVoltage = readVoltage;
  }

  pulse(gap: number, voltage: number, width: number): Pulsed {
    const key = `${gap}|${voltage}|${width}`;
    const known = this.pulses.get(key);
    if (known !== undefined) return known;
    const made = pulse(this.geometry, gap, voltage, width, this.circuit);
    this.pulses.set(key, made);
    return made;
  }

  /** Of the nominal cycle, at the read voltage [ohm]. */
  resistance(gap: number): number {
    const known = this.resistances.get(gap);
    if (known !== undefined) return known;
    const made = resistanceAt(this.geometry, gap, this.readVoltage);
    this.resistances.set(gap, made);
    return made;
  }
}

/** How a write went. Time [s], energy [J], resistance [ohm] without the noise of a read. */
export interface Written {
  readonly reached: boolean;
  /** All of them, the whole writes of the other kind included. */
  readonly pulses: number;
  /** Times that it started over from a whole write of the other kind, the first included. */
  readonly trains: number;
  readonly time: number;
  readonly energy: number;
  readonly resistance: number;
}

/**
 * Writes a level of one device, from the state that is farthest from the start of the train.
 *
 * A whole write of the other kind, then the pulses of the train with a verify read after each,
 * until the read is inside the level's window. Beyond the window, or at the end of the train, it
 * starts over; where the start itself lies beyond, the strongest pulse of the train comes before the
 * next start. From cycle to cycle the resistance deviates by a factor that forgets itself along
 * the way: a pulse that moves ln R by a share s of the way from on to off keeps sqrt(1 - s) of the
 * deviation, so that its spread is the cycle spread in every state.
 */
export function writeLevel(
  device: PulsedDevice,
  level: Level,
  plan: WritePlan,
  random: RandomStream,
): Written {
  const write = new Write(device, plan, random);
  const { approach, mostPulses, train } = plan;
  const beyond = (r: number) => (approach === "reset" ? r > level.high : r < level.low);
  const short = (r: number) => (approach === "reset" ? r < level.low : r > level.high);
  while (write.pulses < mostPulses) {
    write.startOver();
    let read = write.read();
    const begun = write.pulses;
    for (const one of train) {
      if (!short(read) || write.pulses >= mostPulses) break;
      write.apply(one);
      read = write.read();
    }
    if (!short(read) && !beyond(read)) return write.result(true);
    // A start that is beyond the window itself stays so until the switch has been elsewhere.
    if (write.pulses === begun && write.pulses < mostPulses) write.apply(train.at(-1)!);
  }
  return write.result(false);
}

class Write {
  pulses = 0;
  trains = 0;
  private gap: number;
  private deviation: number;
  private time = 0;
  private energy = 0;
  private drawn = 0;
  private readonly device: PulsedDevice;
  private readonly plan: WritePlan;
  private readonly random: RandomStream;

  constructor(device: PulsedDevice, plan: WritePlan, random: RandomStream) {
    const g = device.geometry;
    this.device = device;
    this.plan = plan;
    this.random = random;
    this.gap = plan.approach === "reset" ? g.most_gap : g.least_gap;
    this.deviation = plan.cycleSpread * this.normal();
  }

  startOver(): void {
    const { approach, start } = this.plan;
    this.move(start, approach === "reset" ? 1 : -1);
    this.trains++;
  }

  apply(one: TrainPulse): void {
    this.move(one, this.plan.approach === "reset" ? -1 : 1);
  }

  /** A verify read [ohm]: it takes its time and energy, and has its noise. */
  read(): number {
    const { readVoltage, readTime, readNoise } = this.plan;
    const resistance = this.resistance();
    this.time += readTime;
    this.energy += ((readVoltage * readVoltage) / resistance) * readTime;
    return resistance * exp(readNoise * this.normal());
  }

  result(reached: boolean): Written {
    const { pulses, trains, time, energy } = this;
    return { reached, pulses, trains, time, energy, resistance: this.resistance() };
  }

  private resistance(): number {
    return this.device.resistance(this.gap) * exp(this.deviation);
  }

  private move({ voltage, width }: TrainPulse, sign: 1 | -1): void {
    const { wholeWay, cycleSpread } = this.plan;
    const before = this.device.resistance(this.gap);
    const { gap, sourceEnergy } = this.device.pulse(this.gap, sign * voltage, width);
    this.gap = gap;
    this.pulses++;
    this.time += width;
    this.energy += sourceEnergy;
    const way = Math.abs(log(this.device.resistance(gap) / before));
    const share = Math.min(1, way / wholeWay);
    this.deviation = sqrt(1 - share) * this.deviation + sqrt(share) * cycleSpread * this.normal();
  }

  private normal(): number {
    return normalQuantile(this.random.uniform(this.drawn++));
  }
}
