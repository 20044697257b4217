/** A switch from its geometry, as a document and as data. */
import { type Circuit, operatingPoint } from "../../models/switch/geometry.ts";
import { engineeringPrefix } from "../../quantities/display.ts";
import { formatQuantity } from "../../quantities/format.ts";
import { RETENTION_MEANING, type SwitchStudy } from "../../studies/switch/switch.ts";
import type { Block, Cell, Column, Document, Table } from "../document/document.ts";
import { heading, note, quantity } from "../document/make.ts";
import { CAUTIONS } from "./cautions.ts";

type Row = readonly Cell[];

function table(
  name: string,
  titles: Readonly<Record<string, string>>,
  rows: readonly Row[],
): Table {
  const columns = Object.entries(titles).map(
    ([key, title]): Column => ({ name: key, title, align: "right" }),
  );
  return { kind: "table", name, columns, rows };
}

/** All cells of a column in one unit. */
function column(unit: string, values: readonly number[]): Cell[] {
  const show = engineeringPrefix(values, unit).text;
  return values.map((value) => ({ ...quantity(unit, value), show }));
}

const volts = (value: number): string => `${Number(value.toPrecision(3))} V`;

/** The document of `tenfold switch`. */
export function switchDocument(study: SwitchStudy): Document {
  const { boundary, times, temperatures, loop, geometry } = study;
  const gaps = column(
    "m",
    boundary.map(({ gap }) => gap),
  );
  const blocks: Block[] = [
    { kind: "pairs", pairs: pairsOf(study) },
    note("note", `Retention: ${RETENTION_MEANING}`),
    heading("Resistance against the gap"),
    table(
      "boundary",
      { gap: "gap", resistance: "resistance" },
      boundary.map(({ resistance }, i) => [gaps[i]!, quantity("ohm", resistance)]),
    ),
    heading("Switching time against voltage"),
    table(
      "switching_times",
      { voltage: "voltage", set_time: "set", reset_time: "reset" },
      times.map(({ voltage, set, reset }) => [
        quantity("V", voltage),
        quantity("s", set),
        quantity("s", reset),
      ]),
    ),
    note("note", timesText(loop.circuit)),
    ...limitedNotes(study),
    heading("Times against temperature"),
    table(
      "temperatures",
      {
        temperature: "temperature",
        set_time: "set",
        reset_time: "reset",
        half_set_time: "set by half",
        read_set_time: "set by read",
        retention: "retention",
      },
      temperatures.map(({ temperature, set, reset, halfSet, readSet, retention }) => [
        { ...quantity("K", temperature), show: "degC" },
        ...[set, reset, halfSet, readSet, retention].map((time) => quantity("s", time)),
      ]),
    ),
    heading(`Current-voltage loop, ${loop.form} of ${loop.period} s`),
    table(
      "loop",
      { voltage: "voltage", current: "current", gap: "gap" },
      loop.points.map(({ voltage, current, gap }) => [
        quantity("V", voltage),
        quantity("A", current),
        quantity("m", gap),
      ]),
    ),
    note("note", heatText(study)),
    ...CAUTIONS,
  ];
  return { title: study.title, subtitle: `at ${celsius(geometry.temperature)}`, blocks };
}

function pairsOf(study: SwitchStudy) {
  const { states, setVoltage, resetVoltage, readVoltage, loop } = study;
  const pair = (key: string, value: Cell, remark?: string) => ({
    key,
    value,
    ...(remark === undefined ? {} : { remark }),
  });
  const at = (key: string, unit: string, value: number, remark?: string) =>
    pair(key, quantity(unit, value), remark);
  return [
    at("on resistance", "ohm", states.on, `at ${volts(readVoltage)}`),
    at("off resistance", "ohm", states.off, `at ${volts(readVoltage)}`),
    at("on/off ratio", "1", states.off / states.on),
    at("factor for 0.3 nm of gap", "1", study.factorOfStep, "at low field, by the barrier"),
    at("set time", "s", study.setTime, `at ${volts(setVoltage)}`),
    at("reset time", "s", study.resetTime, `at ${volts(-resetVoltage)}`),
    at("set at half the voltage", "s", study.halfSetTime, `at ${volts(setVoltage / 2)}`),
    at("reset at half the voltage", "s", study.halfResetTime, `at ${volts(-resetVoltage / 2)}`),
    at(
      "set pulses at half voltage",
      "1",
      study.halfSetTime / study.setTime,
      "until a half-selected off state has set",
    ),
    at("set by the read voltage", "s", study.readTime, `at ${volts(readVoltage)}`),
    at("retention", "s", study.retentionTime, "at zero voltage"),
    at(
      "voltage-time dilemma",
      "1",
      study.decades,
      `decades from the retention to the set at ${volts(setVoltage)}`,
    ),
    ...(loop.setAt === undefined ? [] : [at("the loop sets at", "V", loop.setAt)]),
    ...(loop.resetAt === undefined ? [] : [at("the loop resets at", "V", loop.resetAt)]),
    at("largest current of the loop", "A", loop.peakCurrent),
    at("energy of a loop", "J", loop.energy),
  ];
}

/** What the times of the tables count. */
function timesText({ series_resistance, current_limit }: Circuit): string {
  const limited = Number.isFinite(current_limit);
  const behind = [
    ...(series_resistance > 0
      ? [`${formatQuantity({ value: series_resistance }, "ohm")} in series`]
      : []),
    ...(limited ? [`a limit of ${formatQuantity({ value: current_limit }, "A")}`] : []),
  ];
  const done = limited ? "98 % of the way or the current limit" : "98 % of the way";
  return (
    `${behind.length === 0 ? "" : `Behind ${behind.join(" and ")}. `}` +
    `A write is done at ${done}; none is faster than one hop per attempt.`
  );
}

/** Writes that the current limit holds from their very start, and therefore hardly begin. */
function limitedNotes({ geometry: g, loop, setVoltage, resetVoltage }: SwitchStudy): Block[] {
  const limit = loop.circuit.current_limit;
  const starts = [
    { write: "set", gap: g.most_gap, voltage: setVoltage },
    { write: "reset", gap: g.least_gap, voltage: -resetVoltage },
  ];
  return starts
    .filter(({ gap, voltage }) => {
      return Math.abs(operatingPoint(g, gap, voltage, loop.circuit).current) >= limit;
    })
    .map(({ write, voltage }) =>
      note(
        "caution",
        `The current limit holds from the start of a ${write} at ${volts(voltage)}: it slows the ` +
          `${write} by what it leaves of the voltage. Resets are commonly driven without a limit.`,
      ),
    );
}

/** Self-heating as it is taken, or what leaving it out may hide. */
function heatText({ geometry, loop }: SwitchStudy): string {
  const { thermal_resistance: resistance } = geometry;
  const power = formatQuantity({ value: loop.peakPower }, "W");
  if (resistance === 0) {
    return (
      `Self-heating is left out: state \`thermal_resistance\` in K/W to have it. The loop's ` +
      `largest power is ${power}.`
    );
  }
  const rise = Number((loop.peakPower * resistance).toPrecision(3));
  return `Self-heating: up to ${rise} K at the loop's largest power of ${power}, without delay.`;
}

function celsius(kelvin: number): string {
  return `${Number((kelvin - 273.15).toFixed(2))} °C`;
}

/** `tenfold.switch-study/1`, in SI; without `current_limit` where the source has none. */
export function switchData(study: SwitchStudy): object {
  const { current_limit, ...circuit } = study.loop.circuit;
  const limit = Number.isFinite(current_limit) ? { current_limit } : {};
  const loop = { ...study.loop, circuit: { ...circuit, ...limit } };
  return { format: "tenfold.switch-study/1", ...study, loop };
}
