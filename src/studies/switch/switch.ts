/** What a switch from its geometry does: states, loop, times over voltage, disturb, retention. */
import type { Resolved } from "../../catalogue/index.ts";
import { refuse } from "../../errors/problem.ts";
import { DEFAULTS } from "../../estimate/parameters.ts";
import { resistanceAt, type SwitchGeometry, tunnelDecay } from "../../models/switch/geometry.ts";
import { geometryRetention } from "../../models/switch/geometry-figures.ts";
import { switchingTime } from "../../models/switch/geometry-motion.ts";
import { GEOMETRY, NEARLY } from "../../models/switch/geometry-procedure.ts";
import { exp, log10 } from "../../numerics/special/elementary.ts";
import { CONSTANTS } from "../../quantities/constants.ts";
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
  readonly retention: readonly { readonly temperature: number; readonly time: number }[];
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

const BOUNDARY_STEPS = 10;
const VOLTAGE_STEPS = 20;
/** Up to so many times the write voltage, since pulses faster than the stated one need more. */
const OVERDRIVE = 2;
const TEMPERATURES = [273.15, 298.15, 328.15, 358.15, 398.15, 423.15, 473.15];
const STEP_OF_GAP = 0.3e-9;

/**
 * @param resolved a switch with its geometry
 * @param temperature of the switch [K]
 * @param driven how the loop is driven
 * @throws TenfoldError `missing-key` for a switch that is measured and not built
 */
export function studySwitch(
  resolved: Resolved,
  temperature: number,
  driven: LoopDrive = {},
): SwitchStudy {
  const geometry = geometryOf(resolved, temperature);
  const at = (name: string) => resolved.parameters[name]!.value;
  const [readVoltage, setVoltage, resetVoltage] = [
    at("read_voltage"),
    at("set_voltage"),
    at("reset_voltage"),
  ];
  const setIn = (v: number) => setTimeAt(geometry, v);
  const resetIn = (v: number) => resetTimeAt(geometry, v);
  const most = OVERDRIVE * Math.max(setVoltage, resetVoltage);
  const times = Array.from({ length: VOLTAGE_STEPS }, (_, i) => {
    const voltage = (most * (i + 1)) / VOLTAGE_STEPS;
    return { voltage, set: setIn(voltage), reset: resetIn(voltage) };
  });
  const setTime = setIn(setVoltage);
  const retentionTime = retentionAt(geometry, temperature);
  return {
    title: resolved.title,
    geometry,
    readVoltage,
    setVoltage,
    resetVoltage,
    states: {
      on: resistanceAt(geometry, geometry.least_gap, readVoltage),
      off: resistanceAt(geometry, geometry.most_gap, readVoltage),
    },
    factorOfStep: exp(tunnelDecay(geometry.barrier_height, geometry.effective_mass) * STEP_OF_GAP),
    boundary: boundaryOf(geometry, readVoltage),
    times,
    setTime,
    resetTime: resetIn(resetVoltage),
    halfSetTime: setIn(setVoltage / 2),
    halfResetTime: resetIn(resetVoltage / 2),
    readTime: setIn(readVoltage),
    retention: TEMPERATURES.map((kelvin) => ({
      temperature: kelvin,
      time: retentionAt(geometry, kelvin),
    })),
    retentionTime,
    decades: log10(retentionTime / setTime),
    loop: sweptLoop(geometry, setVoltage, resetVoltage, driven),
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
  return Object.fromEntries(figures) as unknown as SwitchGeometry;
}

/** Time [s] of a set: 98 % of the way from the widest gap to the thinnest. */
export function setTimeAt(g: SwitchGeometry, voltage: number): number {
  const rest = NEARLY * (g.most_gap - g.least_gap);
  return switchingTime(g, voltage, g.most_gap, g.least_gap + rest);
}

/** Time [s] of a reset by a voltage whose magnitude is given. */
export function resetTimeAt(g: SwitchGeometry, voltage: number): number {
  const rest = NEARLY * (g.most_gap - g.least_gap);
  return switchingTime(g, -voltage, g.least_gap, g.most_gap - rest);
}

function boundaryOf(g: SwitchGeometry, readVoltage: number) {
  return Array.from({ length: BOUNDARY_STEPS + 1 }, (_, i) => {
    const gap = g.least_gap + ((g.most_gap - g.least_gap) * i) / BOUNDARY_STEPS;
    return { gap, resistance: resistanceAt(g, gap, readVoltage) };
  });
}

/** The sheet's formula `retention_time` at another temperature; see `geometryRetention`. */
function retentionAt(g: SwitchGeometry, temperature: number): number {
  const half = (g.most_gap - g.least_gap) / 2;
  const jumps = 2 * g.hop_distance * g.hop_distance * g.attempt_frequency;
  const thermal = CONSTANTS.boltzmann_constant.value * temperature;
  return ((half * half) / jumps) * exp(g.hop_energy / thermal);
}

/** How retention is defined, for a reader. */
export const RETENTION_MEANING = geometryRetention.about;
