/** The times since a write at which a design's errors are told. */
import type { Parameter } from "../quantities/parameter.ts";
import type { Reliability } from "../schema/reliability.ts";

const DAY = 86_400;
const YEAR = 31_557_600;
/** A day, a month, a year: as far as they are before the end. */
const USUAL = [DAY, 30 * DAY, YEAR];

/** Name of a time; they count from 1. */
export function timeName(time: number): string {
  return `read_time_${time}`;
}

/** The time [s] after which a word is written anew or no longer needed. */
function endOf({
  mission_time: mission,
  scrub_interval: scrub,
}: Reliability): Parameter | undefined {
  if (mission === undefined || scrub === undefined) return scrub ?? mission;
  return scrub.value < mission.value ? scrub : mission;
}

/** All times, rising, under the names that the sheets read; none where nothing says the end. */
export function timesOf(stated: Reliability): readonly Parameter[] {
  const end = endOf(stated);
  const before = (value: number) => end === undefined || value < end.value;
  const own = stated.times?.filter(({ value }) => before(value));
  const usual = end === undefined ? [] : USUAL.filter(before).map(usualTime);
  const times = [...(own ?? usual)].sort((a, b) => a.value - b.value);
  if (end !== undefined) times.push(end);
  return times.map((one, i) => ({ ...one, name: timeName(i + 1) }));
}

function usualTime(value: number): Parameter {
  return {
    name: "",
    unit: "s",
    value,
    low: value,
    high: value,
    distribution: "exact",
    source: "this project",
    basis: "default",
    note: "a time since the write at which errors are told",
    key: `default/read_time/${value}`,
  };
}
