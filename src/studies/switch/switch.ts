/** What a switch from its geometry does: states, loop, times over voltage, disturb, retention. */
import type { Resolved } from "../../catalogue/index.ts";
import { refuse } from "../../errors/problem.ts";
import { DEFAULTS } from "../../estimate/parameters.ts";
import {
  type Circuit,
  DIRECT,
  requireGeometry,
  resistanceAt,
  type SwitchGeometry,
  tunnelDecay,
} from "../../models/switch/geometry.ts";
import { geometryRetention } from "../../models/switch/geometry-figures.ts";
import { GEOMETRY } from "../../models/switch/geometry-inputs.ts";
import { resistanceSpread } from "../../models/switch/geometry-spread.ts";
import { writeTime } from "../../models/switch/geometry-way.ts";
import { exp, log10 } from "../../numerics/special/elementary.ts";
import { CONSTANTS } from "../../quantities/constants.ts";
import { finite } from "./finite.ts";
import type { LevelsSwitch } from "./levels-plan.ts";
import { type Loop, type LoopDrive, sweptLoop } from "./loop.ts";

/** Everything in SI. */
export interface SwitchStudy {
  readonly title: string;
  readonly geometry: SwitchGeometry;
  readonly readVoltage: number;
  readonly setVoltage: number;
  readonly resetVoltage: number;
  readonly states: { readonly on: number; readonly off: number };
  /** Factor of the resistance for 0.3 nm more of gap, at low field. */
  readonly factorOfStep: number;
  readonly boundary: readonly { readonly gap: number; readonly resistance: number }[];
  readonly times: readonly TimesAt[];
  readonly setTime: number;
  readonly resetTime: number;
  readonly halfSetTime: number;
  readonly halfResetTime: number;
  readonly readTime: number;
  readonly temperatures: readonly TimesAtTemperature[];
  /** At the temperature of the geometry. */
  readonly retentionTime: number;
  /** Decades from the set pulse to the retention. */
  readonly decades: number;
  readonly loop: Loop;
}

export interface TimesAt {
  readonly voltage: number;
  readonly set: number;
  readonly reset: number;
}

/** Temperature [K] and what it does to the switch [s]. */
export interface TimesAtTemperature {
  readonly temperature: number;
  readonly set: number;
  readonly reset: number;
  /** Until half of the set voltage, or the read voltage, has set a switch that is off. */
  readonly halfSet: number;
  readonly readSet: number;
  readonly retention: number;
}

export interface SwitchConditions {
  /** Of the switch [K]. */
  readonly temperature: number;
  /** For the table of times against temperature [K]. */
  readonly temperatures?: readonly number[] | undefined;
  readonly drive?: LoopDrive;
}

const BOUNDARY_STEPS = 10;
const VOLTAGE_STEPS = 20;
/** Up to so many times the write voltage, since pulses faster than the stated one need more. */
const OVERDRIVE = 2;
const TEMPERATURES = [273.15, 298.15, 328.15, 358.15, 398.15, 423.15, 473.15];
const STEP_OF_GAP = 0.3e-9;

/**
 * @param resolved a switch with its geometry; times are those behind the circuit of the drive
 * @throws TenfoldError `missing-key` for a switch that is measured and not built, `out-of-range`
 *   for one whose times are beyond all numbers
 */
export function studySwitch(
  resolved: Resolved,
  { temperature, temperatures = TEMPERATURES, drive = {} }: SwitchConditions,
): SwitchStudy {
  const geometry = geometryOf(resolved, temperature);
  const at = (name: string) => resolved.parameters[name]!.value;
  const voltages: Voltages = {
    readVoltage: at("read_voltage"),
    setVoltage: at("set_voltage"),
    resetVoltage: at("reset_voltage"),
  };
  const { readVoltage, setVoltage, resetVoltage } = voltages;
  const circuit = drive.circuit ?? DIRECT;
  const most = OVERDRIVE * Math.max(setVoltage, resetVoltage);
  const times = Array.from({ length: VOLTAGE_STEPS }, (_, i) => {
    const voltage = (most * (i + 1)) / VOLTAGE_STEPS;
    const set = writeTime(geometry, voltage, circuit);
    return { voltage, set, reset: writeTime(geometry, -voltage, circuit) };
  });
  const here = timesAt(geometry, voltages, circuit);
  return finite({
    title: resolved.title,
    geometry,
    ...voltages,
    states: {
      on: resistanceAt(geometry, geometry.least_gap, readVoltage),
      off: resistanceAt(geometry, geometry.most_gap, readVoltage),
    },
    factorOfStep: exp(tunnelDecay(geometry.barrier_height, geometry.effective_mass) * STEP_OF_GAP),
    boundary: boundaryOf(geometry, readVoltage),
    times,
    setTime: here.set,
    resetTime: here.reset,
    halfSetTime: here.halfSet,
    halfResetTime: writeTime(geometry, -resetVoltage / 2, circuit),
    readTime: here.readSet,
    temperatures: temperatures.map((kelvin) =>
      timesAt({ ...geometry, temperature: kelvin }, voltages, circuit),
    ),
    retentionTime: here.retention,
    decades: log10(here.retention / here.set),
    loop: sweptLoop(geometry, setVoltage, resetVoltage, drive),
  });
}

type Voltages = Pick<SwitchStudy, "readVoltage" | "setVoltage" | "resetVoltage">;

function timesAt(
  g: SwitchGeometry,
  { readVoltage, setVoltage, resetVoltage }: Voltages,
  circuit: Circuit,
): TimesAtTemperature {
  return {
    temperature: g.temperature,
    set: writeTime(g, setVoltage, circuit),
    reset: writeTime(g, -resetVoltage, circuit),
    halfSet: writeTime(g, setVoltage / 2, circuit),
    readSet: writeTime(g, readVoltage, circuit),
    retention: retentionAt(g),
  };
}

/** The geometry with what nobody gave, as a study takes it. */
export function geometryOf({ parameters, name }: Resolved, temperature: number): SwitchGeometry {
  if (parameters["most_gap"] === undefined) {
    refuse({
      code: "missing-key",
      what: `the switch ${name} is not given by its geometry`,
      expected: "film_thickness, electrode_area, least_gap, most_gap, barrier_height and others",
      fix: "state them in place of its resistances and times; `tenfold schema` has all keys",
    });
  }
  const value = (key: string) => parameters[key]?.value ?? DEFAULTS.get(key)!.value;
  const figures = Object.keys(GEOMETRY).map((key) => [
    key,
    key === "temperature" ? temperature : value(key),
  ]);
  const geometry = Object.fromEntries(figures) as unknown as SwitchGeometry;
  requireGeometry(geometry);
  return geometry;
}

/**
 * What a simulation of levels reads of a switch: its spreads from device to device are those of the
 * geometry, and none where it states none.
 */
export function levelsSwitchOf(resolved: Resolved, temperature: number): LevelsSwitch {
  const { parameters, title } = resolved;
  const at = (name: string) => parameters[name]!.value;
  const geometry = geometryOf(resolved, temperature);
  const readVoltage = at("read_voltage");
  const moving = { gap: parameters["gap_cycle_spread"]?.value ?? 0, area: 0 };
  const cycle = (gap: number) => resistanceSpread(geometry, gap, readVoltage, moving);
  return {
    title,
    geometry,
    readVoltage,
    setVoltage: at("set_voltage"),
    resetVoltage: at("reset_voltage"),
    cycleSpread:
      parameters["cycle_spread"]?.value ??
      Math.max(cycle(geometry.least_gap), cycle(geometry.most_gap)),
    gapSpread: parameters["gap_spread"]?.value ?? 0,
    areaSpread: parameters["area_spread"]?.value ?? 0,
  };
}

function boundaryOf(g: SwitchGeometry, readVoltage: number) {
  return Array.from({ length: BOUNDARY_STEPS + 1 }, (_, i) => {
    const gap = g.least_gap + ((g.most_gap - g.least_gap) * i) / BOUNDARY_STEPS;
    return { gap, resistance: resistanceAt(g, gap, readVoltage) };
  });
}

/** The sheet's formula `retention_time`; see `geometryRetention`. */
function retentionAt(g: SwitchGeometry): number {
  const half = (g.most_gap - g.least_gap) / 2;
  const jumps = 2 * g.hop_distance * g.hop_distance * g.attempt_frequency;
  const thermal = CONSTANTS.boltzmann_constant.value * g.temperature;
  return ((half * half) / jumps) * exp(g.hop_energy / thermal);
}

/** How retention is defined, for a reader. */
export const RETENTION_MEANING = geometryRetention.about;
