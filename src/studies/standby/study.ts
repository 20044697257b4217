import type { Catalogue } from "../../catalogue/index.ts";
import { refuse } from "../../errors/problem.ts";
import { type Condition, conditionsOf } from "../../estimate/conditions.ts";
import { Draws } from "../../estimate/draws.ts";
import { keepsData } from "../../estimate/macro.ts";
import type { MacroModel } from "../../estimate/model.ts";
import { assemble } from "../../formulas/assemble.ts";
import { compile } from "../../formulas/compile.ts";
import type { Parser } from "../../formulas/expand.ts";
import type { ExtraFormula, GivenQuantity, Program } from "../../formulas/program.ts";
import { battery, standby } from "../../models/reliability/standby.ts";
import type { Parameter } from "../../quantities/parameter.ts";
import type { StandbySection } from "../../schema/standby.ts";
import type { Study } from "../../schema/study.ts";
import { modelsOf } from "../estimate.ts";
import { type EstimatedFigure, figureOf } from "../figures.ts";
import { designOf } from "../uncertainty/targets.ts";

/** What a design needs while it rests, and how long a battery lasts. */
export interface StandbyDesign {
  readonly name: string;
  readonly title: string;
  /** How it rests: switched off with its data, kept alive, or saved elsewhere and switched off. */
  readonly rest: "keeps its data" | "kept alive" | "saved and switched off";
  /** By quantity; empty where the design does not work. */
  readonly figures: ReadonlyMap<string, EstimatedFigure>;
  readonly broken?: string;
}

export interface StandbyQuantity {
  readonly name: string;
  readonly label: string;
  readonly unit: string;
}

export interface StudyStandby {
  readonly study: Study;
  readonly quantities: readonly StandbyQuantity[];
  readonly designs: readonly StandbyDesign[];
}

const of = (name: string, label: string, unit: string): StandbyQuantity => ({ name, label, unit });
const QUANTITIES = [
  of("keep_power", "power kept alive", "W"),
  of("off_power", "power switched off", "W"),
  of("round_trip_energy", "save and restore", "J"),
  of("break_even_time", "break-even standby", "s"),
  of("keep_mean_power", "mean power, kept alive", "W"),
  of("off_mean_power", "mean power, switched off", "W"),
];
const BATTERY = [
  of("mean_power", "mean power of all", "W"),
  of("battery_life_days", "days of battery", "1"),
];

const READ = [
  "standby_power",
  "sleep_power",
  "read_energy",
  "write_energy",
  "active_read_energy",
  "active_write_energy",
  "capacity",
  "word",
];

const line = (name: string, unit: string, formula: string, meaning: string): ExtraFormula => ({
  name,
  unit,
  formula,
  meaning,
  source: "this project",
});

/** Power of rest and activity of a design, from its macro and from the one that saves its data. */
function duty(
  rest: StandbyDesign["rest"],
  hasBattery: boolean,
  discharges: boolean,
): ExtraFormula[] {
  const keeps = rest === "keeps its data";
  const saves = rest === "saved and switched off";
  const words = "ceil(saved / word)";
  const moved = (there: string, here: string): string => `${words} * (${there} + ${here})`;
  const least = rest === "kept alive" ? "keep_mean_power" : "min(keep_mean_power, off_mean_power)";
  return [
    line(
      "active_power",
      "W",
      // What leaks during an access is in the power at rest.
      "standby_power + (reads * active_read_energy + writes * active_write_energy) / active_time",
      "power of the memory in a burst",
    ),
    line(
      "keep_power",
      "W",
      keeps ? "standby_power" : "sleep_power",
      "power of rest, data kept alive",
    ),
    line(
      "off_power",
      "W",
      keeps ? "sleep_power" : saves ? "store_sleep_power" : "keep_power",
      "power of rest, switched off",
    ),
    line(
      "save_energy",
      "J",
      saves ? moved("read_energy", "store_write_energy") : "0 * read_energy",
      "energy to save",
    ),
    line(
      "restore_energy",
      "J",
      saves ? moved("store_read_energy", "write_energy") : "0 * read_energy",
      "energy to restore",
    ),
    ...(hasBattery
      ? [
          line("mean_power", "W", `${least} + other_power`, "mean power drawn from the battery"),
          line(
            "battery_life_days",
            "1",
            `${discharges ? "battery_life_with_self_discharge" : "battery_life"} / day`,
            "days that the battery lasts",
          ),
        ]
      : []),
  ];
}

/**
 * What each design needs at rest, from when switching off pays, and how long a battery lasts.
 *
 * @throws TenfoldError `missing-key` without a section `standby`, `unknown-design`
 */
export function standbyOfStudy(study: Study, catalogue: Catalogue, parse: Parser): StudyStandby {
  if (study.standby === undefined) {
    refuse({
      code: "missing-key",
      what: "the study has no section `standby`",
      place: study.place(""),
      fix: "add `standby:` with `period` and `active_time`",
    });
  }
  const section = study.standby as unknown as StandbySection;
  const models = modelsOf(study, catalogue, parse);
  const store =
    section.save_to === undefined
      ? undefined
      : designOf(study, models, section.save_to, "/standby/save_to");
  if (store !== undefined && !keepsData(store.design.model)) {
    refuse({
      code: "conflicting-keys",
      what: `\`${store.design.name}\` loses its data without a supply`,
      path: "/standby/save_to",
      place: study.place("/standby/save_to"),
      expected: "a design with resistance switches or floating gates",
    });
  }
  const draws = new Draws(study.seed, study.samples);
  return {
    study,
    quantities: section.battery === undefined ? QUANTITIES : [...QUANTITIES, ...BATTERY],
    designs: models.map((model) => restOf(study, section, model, store, draws, parse)),
  };
}

function restOf(
  study: Study,
  section: StandbySection,
  model: MacroModel,
  store: MacroModel | undefined,
  draws: Draws,
  parse: Parser,
): StandbyDesign {
  const { name, title } = model.design;
  const keeps = keepsData(model.design.model);
  const rest = keeps ? "keeps its data" : store ? "saved and switched off" : "kept alive";
  const sources = [
    { model, prefix: "" },
    ...(store && !keeps ? [{ model: store, prefix: "store_" }] : []),
  ];
  const broken = sources.map((one) => brokenBy(one.model)).find((one) => one !== undefined);
  if (broken !== undefined) return { name, title, rest, figures: new Map(), broken: broken.fails };
  const stated = statedOf(section, model);
  const given: GivenQuantity[] = [
    ...stated.map((one) => ({ name: one.name, unit: one.unit })),
    ...sources.flatMap((one) =>
      READ.map((quantity) => ({
        name: `${one.prefix}${quantity}`,
        unit: one.model.program.quantities.get(quantity)!.unit,
      })),
    ),
  ];
  const program = programOf(rest, section, given, parse);
  const wanted = [...QUANTITIES, ...(section.battery === undefined ? [] : BATTERY)]
    .map((one) => one.name)
    .filter(
      (one) => rest !== "kept alive" || (one !== "break_even_time" && one !== "off_mean_power"),
    );
  const values = new Map<string, Float64Array>(stated.map((one) => [one.name, draws.of(one)]));
  const nominal = new Map(stated.map((one) => [one.name, one.value]));
  for (const one of sources) {
    const samples = one.model.sample(draws, READ);
    const at = one.model.nominal();
    for (const quantity of READ) {
      values.set(`${one.prefix}${quantity}`, samples.get(quantity)!);
      nominal.set(`${one.prefix}${quantity}`, at.get(quantity)!);
    }
  }
  const compiled = compile(program, wanted);
  const columns = wanted.map(() => new Float64Array(draws.count));
  compiled.evaluateMany(
    compiled.inputs.map((one) => values.get(one)!),
    draws.count,
    columns,
    "marked",
  );
  const one = wanted.map(() => new Float64Array(1));
  compiled.evaluateMany(
    compiled.inputs.map((input) => Float64Array.of(nominal.get(input)!)),
    1,
    one,
    "marked",
  );
  return {
    name,
    title,
    rest,
    figures: new Map(
      wanted.flatMap((quantity, k) => {
        const value = one[k]![0]!;
        return Number.isFinite(value)
          ? [[quantity, figureOf(value, columns[k]!, study.coverage)] as const]
          : [];
      }),
    ),
  };
}

function brokenBy(model: MacroModel): Condition | undefined {
  const nominal = model.nominal();
  return conditionsOf(model.program).find(({ quantity }) => !(nominal.get(quantity)! > 0));
}

/** What the section says, under the names that the sheets read. */
function statedOf(section: StandbySection, model: MacroModel): Parameter[] {
  const { period, active_time, reads, writes, saved, battery: cell } = section;
  const fixed = (name: string, unit: string, value: number): Parameter => ({
    name,
    unit,
    value,
    low: value,
    high: value,
    distribution: "exact",
    source: "this study",
    basis: "user",
    key: `standby/${name}`,
  });
  const named = (
    name: string,
    parameter: Parameter | undefined,
    otherwise: Parameter,
  ): Parameter =>
    parameter === undefined ? otherwise : { ...parameter, name, unit: otherwise.unit };
  const capacity = model.design.parameters.get("capacity")!.value;
  return [
    { ...period, name: "period" },
    { ...active_time, name: "active_time" },
    named("reads", reads, fixed("reads", "1", 0)),
    named("writes", writes, fixed("writes", "1", 0)),
    named("saved", saved, fixed("saved", "1", capacity)),
    ...(cell === undefined
      ? []
      : [
          { ...cell.charge, name: "battery_charge" },
          { ...cell.voltage, name: "battery_voltage" },
          named("self_discharge", cell.self_discharge, fixed("self_discharge", "1/s", 0)),
          named("other_power", cell.other_power, fixed("other_power", "W", 0)),
          fixed("day", "s", 86_400),
        ]),
  ];
}

function programOf(
  rest: StandbyDesign["rest"],
  section: StandbySection,
  given: readonly GivenQuantity[],
  parse: Parser,
): Program {
  const hasBattery = section.battery !== undefined;
  const discharges = (section.battery?.self_discharge?.value ?? 0) > 0;
  const instances = [{ of: standby }, ...(hasBattery ? [{ of: battery }] : [])];
  return assemble(instances, given, parse, duty(rest, hasBattery, discharges));
}
