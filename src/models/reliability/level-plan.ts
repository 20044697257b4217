/** What the levels of a cell are: resistances, currents, spreads and drift. */
import {
  type FormulaDefinition,
  type InputDefinition,
  type Sheet,
  sheet,
} from "../../formulas/sheet.ts";
import { levelName } from "./level-procedures.ts";

/** What of the levels the study states itself; the rest lies between the on and the off state. */
export interface LevelPlan {
  readonly levels: number;
  readonly stated: {
    readonly resistance: boolean;
    readonly spread: boolean;
    readonly drift: boolean;
  };
  /** Whether on and off state drift at all. */
  readonly drifts: boolean;
  /** Read noise of the switch comes on top of the spread. */
  readonly noise: boolean;
  /** The current follows from a resistance in series with the switch; else from both ends' currents. */
  readonly series: boolean;
}

const INPUTS: Readonly<Record<string, InputDefinition>> = {
  on_resistance: { unit: "ohm", meaning: "resistance of the on state" },
  off_resistance: { unit: "ohm", meaning: "resistance of the off state" },
  on_spread: { unit: "1", meaning: "standard deviation of ln R, on" },
  off_spread: { unit: "1", meaning: "standard deviation of ln R, off" },
  read_voltage: { unit: "V", meaning: "voltage of a read" },
  cell_on_current: { unit: "A", meaning: "current of a median cell that is on" },
  cell_off_current: { unit: "A", meaning: "current of a median cell that is off" },
  signal_current: { unit: "A", meaning: "difference between the two states, worst pattern" },
  drift_exponent_on: { unit: "1", meaning: "exponent by which the on resistance rises with time" },
  drift_exponent_off: { unit: "1", meaning: "exponent by which the off resistance rises" },
  drift_deviation_on: { unit: "1", meaning: "standard deviation of the exponent, on" },
  drift_deviation_off: { unit: "1", meaning: "standard deviation of the exponent, off" },
  read_noise: { unit: "1", meaning: "standard deviation of ln R from read to read" },
};

const DRIFTS = {
  drift: ["drift_exponent_on", "drift_exponent_off", "exponent of the drift of level"],
  drift_deviation: [
    "drift_deviation_on",
    "drift_deviation_off",
    "deviation of that exponent, level",
  ],
} as const;

const known = new Map<string, Sheet>();

/** The sheet of a plan: the figures of every level that `levelReads` needs. */
export function levelPlan(plan: LevelPlan): Sheet {
  const key = JSON.stringify(plan);
  const made = known.get(key) ?? makePlan(plan);
  known.set(key, made);
  return made;
}

function makePlan(plan: LevelPlan): Sheet {
  const formulas = Object.assign(
    {},
    ...Array.from({ length: plan.levels }, (_, i) => levelFormulas(plan, i + 1)),
    { read_leak: leak },
  ) as Record<string, FormulaDefinition>;
  const read = new Set(
    Object.values(formulas).flatMap(({ formula }) => formula.match(/[a-z]\w*/g) ?? []),
  );
  const inputs = Object.entries(INPUTS).filter(([name]) => read.has(name));
  const given = [...read].filter((name) => name.startsWith("level_") && !formulas[name]);
  return sheet({
    name: planName(plan),
    title: `${plan.levels} levels of a cell`,
    about:
      "Levels count from the one of the least resistance. Where the study does not state them, " +
      "they lie evenly in ln R from on to off, and their spread and drift lie evenly between " +
      "those of the two states. A level drifts with the whole of its current, series resistance " +
      "and leak included: more than it does.",
    inputs: {
      ...Object.fromEntries(inputs),
      ...Object.fromEntries(
        given.map((name) => [name, { unit: unitOf(name), meaning: "as stated" }]),
      ),
    },
    formulas,
  });
}

function planName({ levels, stated, drifts, noise, series }: LevelPlan): string {
  const flags = { ...stated, drifts, noise, series };
  const said = Object.entries(flags).flatMap(([flag, on]) => (on ? [`_${flag}`] : []));
  return `levels_${levels}${said.join("")}`;
}

const unitOf = (name: string): string => (name.startsWith("level_resistance") ? "ohm" : "1");

const leak: FormulaDefinition = {
  unit: "A",
  formula: "max(0, cell_on_current - cell_off_current - signal_current)",
  meaning: "what the other cells of a column may add to a current, worst pattern",
  source: "this project",
};

function levelFormulas(plan: LevelPlan, level: number): Record<string, FormulaDefinition> {
  const { levels, stated, drifts, noise } = plan;
  const define = (unit: string, formula: string, meaning: string, source = "this project") => ({
    unit,
    formula,
    meaning: `${meaning} ${level}`,
    source,
  });
  const between = (on: string, off: string): string => {
    if (level === 1) return on;
    if (level === levels) return off;
    return `${on} + (${off} - ${on}) * ${level - 1} / ${levels - 1}`;
  };
  const made: Record<string, FormulaDefinition> = {};
  if (!stated.resistance) {
    const power = `(off_resistance / on_resistance)^(${level - 1} / ${levels - 1})`;
    const formula = level === 1 ? "on_resistance" : `on_resistance * ${power}`;
    made[levelName("resistance", level)] = define("ohm", formula, "median resistance of level");
  }
  made[levelName("current", level)] = define(
    "A",
    currentOf(plan, level),
    "median current of level",
  );
  const written = stated.spread
    ? `level_written_spread_${level}`
    : between("on_spread", "off_spread");
  made[levelName("spread", level)] = define(
    "1",
    noise ? `sqrt((${written})^2 + read_noise^2)` : written,
    "standard deviation of ln R, as read, of level",
    "detection",
  );
  for (const [figure, [on, off, meaning]] of Object.entries(DRIFTS)) {
    const name = levelName(figure as keyof typeof DRIFTS, level);
    const formula = drifts ? between(on, off) : "0";
    if (!stated.drift) made[name] = define("1", formula, meaning, "drift");
  }
  return made;
}

/** The ends have the currents that the cell's own model gives them, whatever is in series. */
function currentOf({ levels, stated, series }: LevelPlan, level: number): string {
  if (!stated.resistance && level === 1) return "cell_on_current";
  if (!stated.resistance && level === levels) return "cell_off_current";
  const resistance = levelName("resistance", level);
  if (series)
    return `read_voltage / (${resistance} + read_voltage / cell_on_current - on_resistance)`;
  const place = `log(${resistance} / on_resistance) / log(off_resistance / on_resistance)`;
  return `cell_on_current * (cell_off_current / cell_on_current)^(${place})`;
}
