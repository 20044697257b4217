/** Levels of a switch by program and verify, as a document and as data. */
import { exp, log2 } from "../../numerics/special/elementary.ts";
import { formatQuantity } from "../../quantities/format.ts";
import type { LevelResult, LevelsStudy } from "../../studies/switch/levels.ts";
import type { Block, Cell, Column, Document, Pairs, Table } from "../document/document.ts";
import { heading, none, note, paragraph, quantity, share } from "../document/make.ts";
import { CAUTIONS } from "./cautions.ts";

/** The document of `tenfold switch --levels`. */
export function levelsDocument(study: LevelsStudy): Document {
  const { device, levels, asked } = study;
  const celsius = Number((device.geometry.temperature - 273.15).toFixed(2));
  return {
    title: device.title,
    subtitle: `${levels.length} levels · ${asked.writes} writes of each · ${celsius} °C`,
    blocks: [
      totals(study),
      paragraph(algorithmText(study)),
      heading("Levels"),
      levelsTable(study),
      heading("Pulses, time and energy of a write"),
      costsTable(levels),
      ...missedNotes(levels),
      heading("For a study"),
      paragraph(studyText(study)),
      ...CAUTIONS,
    ],
  };
}

function right(name: string, title: string): Column {
  return { name, title, align: "right" };
}

function totals({ pulses, reached, sigma, misread, asked, levels }: LevelsStudy): Pairs {
  const bits = log2(levels.length);
  const whole = Number.isInteger(bits) ? `${bits} bit of a cell` : "no whole number of bits";
  const pair = (key: string, value: Cell, remark?: string) =>
    remark === undefined ? { key, value } : { key, value, remark };
  return {
    kind: "pairs",
    pairs: [
      pair("levels", quantity("1", levels.length), whole),
      pair("pulses of a write", quantity("1", pulses), "mean over all levels, each with a read"),
      pair("written", share(reached), `within ${asked.mostPulses} pulses`),
      ...(sigma === undefined
        ? []
        : [pair("sigma of a level", quantity("1", sigma), "of ln R of a later read")]),
      ...(misread === undefined
        ? []
        : [pair("misread", share(misread), "later reads beyond the middle to a neighbour")]),
    ],
  };
}

/** What was simulated, so that somebody else could do the same. */
function algorithmText({ asked, start, train, device }: LevelsStudy): string {
  const { approach, spacing, window, readTime, readNoise } = asked;
  const volts = (value: number) => formatQuantity({ value }, "V");
  const seconds = (value: number) => formatQuantity({ value }, "s");
  const [first, last] = [train[0]!, train.at(-1)!];
  const begun = approach === "reset" ? "set" : "reset";
  const trains = {
    voltage: `rises from ${volts(first.voltage)} to ${volts(last.voltage)}, ${seconds(last.width)} each`,
    width: `lengthens from ${seconds(first.width)} to ${seconds(last.width)} at ${volts(last.voltage)}`,
    equal: `keeps ${volts(last.voltage)} and ${seconds(last.width)}`,
  };
  const { gapSpread, areaSpread, cycleSpread } = device;
  const devices =
    gapSpread === 0 && areaSpread === 0
      ? "all writes are of one nominal device"
      : `each write is of another device (gap ± ${formatQuantity({ value: gapSpread }, "m")}, ` +
        `ln area ± ${areaSpread})`;
  return (
    `Each write begins with a whole ${begun} (${volts(start.voltage)}, ${seconds(start.width)}). ` +
    `Then come up to ${train.length} pulses of a ${approach} train that ${trains[asked.train]}, ` +
    `each followed by a verify read of ${seconds(readTime)} at ${volts(device.readVoltage)}, until ` +
    `the read lies in the level's window. Beyond the window, or at the end of the train, it starts ` +
    `over. Levels are even in ${spacing === "resistance" ? "ln R" : "current"}; a window takes ` +
    `${Math.round(100 * window)} % of their distance. From cycle to cycle ln R deviates by ` +
    `${cycleSpread}, from read to read by ${readNoise}; ${devices}.`
  );
}

function levelsTable({ levels, asked, device }: LevelsStudy): Table {
  // Levels that are even in current are read by their currents.
  const byCurrent = asked.spacing === "current";
  return {
    kind: "table",
    name: "levels",
    columns: [
      right("level", "level"),
      right("target", "target"),
      right("low", "window from"),
      right("high", "to"),
      right("reached", "written"),
      right("median", "later read"),
      right("sigma", "sigma"),
      right("misread", "misread"),
    ],
    rows: levels.map(({ target, low, high, reached, later }, k) => [
      quantity("1", k + 1),
      byCurrent ? quantity("A", device.readVoltage / target) : quantity("ohm", target),
      low === 0 ? none : quantity("ohm", low),
      Number.isFinite(high) ? quantity("ohm", high) : none,
      share(reached),
      later === undefined ? none : quantity("ohm", exp(later.meanLog)),
      later === undefined ? none : quantity("1", later.sigma),
      later === undefined ? none : share(later.misread),
    ]),
  };
}

function costsTable(levels: readonly LevelResult[]): Table {
  return {
    kind: "table",
    name: "level_costs",
    columns: [
      right("level", "level"),
      right("pulses", "pulses"),
      right("pulses_median", "median"),
      right("pulses_most", "95 % need"),
      right("time", "time"),
      right("time_most", "95 % within"),
      right("energy", "energy"),
      right("energy_most", "95 % within"),
    ],
    rows: levels.map(({ pulses, time, energy }, k) => [
      quantity("1", k + 1),
      quantity("1", pulses.mean),
      quantity("1", pulses.median),
      quantity("1", pulses.most),
      quantity("s", time.mean),
      quantity("s", time.most),
      quantity("J", energy.mean),
      quantity("J", energy.most),
    ]),
  };
}

function missedNotes(levels: readonly LevelResult[]): Block[] {
  const missed = levels.flatMap(({ reached }, k) => (reached < 0.5 ? [k + 1] : []));
  if (missed.length === 0) return [];
  const which = missed.length === 1 ? `Level ${missed[0]} is` : `Levels ${missed.join(", ")} are`;
  return [
    note(
      "caution",
      `${which} hardly ever met: the pulses step over the window. Smaller steps (--steps), a wider ` +
        "--window or fewer levels help; a set runs away unless a series resistance holds it back.",
    ),
  ];
}

/** The keys that carry the result into a study. */
export function studyKeys({ pulses, sigma }: LevelsStudy): Record<string, number> {
  const round = (x: number) => Number(x.toPrecision(3));
  return {
    verify_pulses: Math.max(1, round(pulses)),
    ...(sigma !== undefined && { cycle_spread: round(sigma) }),
  };
}

function studyText(study: LevelsStudy): string {
  const keys = Object.entries(studyKeys(study)).map(([name, value]) => `${name}: ${value}`);
  return (
    `Under \`switch:\` of a cell: ${keys.map((one) => `\`${one}\``).join(", ")}; ` +
    "under `overrides:` `pulses_per_level: 0`, since these pulses are those of all levels."
  );
}

/** `tenfold.switch-levels/1`, in SI. */
export function levelsData(study: LevelsStudy): object {
  const { device, asked, ...rest } = study;
  const { current_limit, series_resistance } = asked.circuit;
  return {
    format: "tenfold.switch-levels/1",
    ...rest,
    device,
    asked: {
      ...asked,
      circuit: { series_resistance, ...(Number.isFinite(current_limit) && { current_limit }) },
    },
    levels: study.levels.map(({ high, boundary, ...level }) => ({
      ...level,
      ...(Number.isFinite(high) && { high }),
      ...(Number.isFinite(boundary) && { boundary }),
    })),
    study: studyKeys(study),
  };
}
