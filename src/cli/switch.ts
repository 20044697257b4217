import { nearestWord } from "../errors/nearest.ts";
import { refuse, TenfoldError } from "../errors/problem.ts";
import { located } from "../estimate/cell.ts";
import { resolveDesign } from "../estimate/design.ts";
import { readText } from "../io/read.ts";
import { openSwitch, type SwitchFile } from "../io/switch.ts";
import { writeFileWhole } from "../io/write.ts";
import { fittable, type Specimen } from "../models/switch/fit-parameters.ts";
import { type Circuit, DIRECT } from "../models/switch/geometry.ts";
import { readQuantity } from "../quantities/quantity.ts";
import type { Document } from "../report/document/document.ts";
import { switchData, switchDocument } from "../report/documents/switch.ts";
import { fitData, fitDocument } from "../report/documents/switch-fit.ts";
import { levelsData, levelsDocument } from "../report/documents/switch-levels.ts";
import { fitMeasured } from "../studies/switch/fit.ts";
import { type LevelsStudy, studyLevels } from "../studies/switch/levels.ts";
import type { LevelsSwitch } from "../studies/switch/levels-plan.ts";
import type { LoopDrive } from "../studies/switch/loop.ts";
import { readMeasured } from "../studies/switch/measured.ts";
import {
  geometryOf,
  levelsSwitchOf,
  type SwitchStudy,
  studySwitch,
} from "../studies/switch/switch.ts";
import type { SwitchArguments } from "./commands/switch.ts";
import { emit } from "./output.ts";
import { fileName } from "./stdin.ts";
import { checkSeed, openNamed } from "./study.ts";

/** Prints what a switch does, and draws its times where that is asked for. */
export async function switchAndPrint(options: SwitchArguments): Promise<void> {
  const { resolved, temperature, placed } = await namedSwitch(options);
  if (options.fit !== undefined && options.levels !== undefined) {
    refuse({ code: "conflicting-keys", what: "--fit and --levels ask for different things" });
  }
  if (options.fit !== undefined) {
    const geometry = placed(() => geometryOf(resolved, temperature));
    return fitAndPrint(options, { geometry, circuit: circuitOf(options) });
  }
  if (options.levels !== undefined) {
    const study = placed(() => levelsOf(options, levelsSwitchOf(resolved, temperature)));
    return levelsAndPrint(options, study);
  }
  const temperatures = options.temperatures
    ?.split(",")
    .map((one) => optionQuantity("temperatures", one.trim(), "K"));
  const drive = drivenBy(options);
  const study = placed(() => studySwitch(resolved, { temperature, temperatures, drive }));
  await emit(
    {
      document: () => partOf(switchDocument(study), options.part),
      data: () => switchData(study),
    },
    options,
  );
  if (options.chart === undefined) return;
  const chart = await chartOf(study, options.part);
  await writeFileWhole(options.chart, chart, { force: options.force });
}

/** The loop where its table is asked for, else the times. */
async function chartOf(study: SwitchStudy, part: string | undefined): Promise<string> {
  const { title, times, retentionTime, loop } = study;
  if (part === "loop") {
    const { drawLoop } = await import("../report/charts/switch-loop.ts");
    return drawLoop({ title: `Current-voltage loop: ${title}`, points: loop.points });
  }
  const { drawSwitchingTimes } = await import("../report/charts/switching-times.ts");
  return drawSwitchingTimes({ title, times, retention: retentionTime });
}

/** The drive of the loop as the options state it. */
function drivenBy(options: SwitchArguments): LoopDrive {
  return {
    form: options.drive,
    amplitude: stated(options, "amplitude", "V"),
    period: stated(options, "period", "s"),
    width: stated(options, "width", "s"),
    circuit: circuitOf(options),
  };
}

/** What stands between the source and the switch. */
function circuitOf(options: SwitchArguments): Circuit {
  const series = stated(options, "series-resistance", "ohm") ?? DIRECT.series_resistance;
  const limit = stated(options, "current-limit", "A") ?? DIRECT.current_limit;
  if (!(series >= 0 && limit > 0)) {
    refuse({
      code: "out-of-range",
      what: "no source drives a switch through such a circuit",
      got: `${series} ohm, ${limit} A`,
      expected: "--series-resistance of 0 or more, --current-limit above 0",
    });
  }
  return { series_resistance: series, current_limit: limit };
}

type QuantityOption =
  | "amplitude"
  | "period"
  | "width"
  | "series-resistance"
  | "current-limit"
  | "read-time";

function stated(options: SwitchArguments, name: QuantityOption, unit: string): number | undefined {
  const text = options[name];
  return text === undefined ? undefined : optionQuantity(name, text, unit);
}

/** A quantity of an option, whose errors name the option. */
function optionQuantity(name: string, text: string, unit: string): number {
  try {
    return readQuantity(text, unit);
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    const [problem] = error.problems;
    return refuse({ ...problem!, what: `--${name}: ${problem!.what}` });
  }
}

/** Prints the fit of a switch to measured points, and draws it where that is asked for. */
async function fitAndPrint(options: SwitchArguments, start: Specimen): Promise<void> {
  const { text, file } = await readText(fileName(options.fit!));
  const free = options.free?.split(",").map((name) => name.trim());
  checkSeed(options.seed);
  const settings = { refits: options.refits, seed: options.seed };
  const measured = readMeasured(text, file);
  const fitted = fitMeasured(measured, start, free && fittable(free), settings);
  await emit(
    { document: () => partOf(fitDocument(fitted), options.part), data: () => fitData(fitted) },
    options,
  );
  if (options.chart === undefined) return;
  const { drawFit } = await import("../report/charts/switch-fit.ts");
  const { kind, points, fit } = fitted;
  const title = `Fit to ${file}`;
  const chart = drawFit({ title, kind, points, residuals: fit.residuals });
  await writeFileWhole(options.chart, chart, { force: options.force });
}

/** The levels that the options ask for. */
function levelsOf(options: SwitchArguments, device: LevelsSwitch): LevelsStudy {
  checkSeed(options.seed);
  const { levels, spacing, window, approach, train, steps, writes, seed } = options;
  return studyLevels(device, {
    levels: levels!,
    spacing,
    window,
    approach,
    train,
    steps,
    writes,
    seed,
    mostPulses: options["most-pulses"],
    readNoise: options["read-noise"],
    amplitude: stated(options, "amplitude", "V"),
    width: stated(options, "width", "s"),
    readTime: stated(options, "read-time", "s"),
    circuit: circuitOf(options),
  });
}

/** Prints the levels of a switch, and draws them where that is asked for. */
async function levelsAndPrint(options: SwitchArguments, study: LevelsStudy): Promise<void> {
  await emit(
    {
      document: () => partOf(levelsDocument(study), options.part),
      data: () => levelsData(study),
    },
    options,
  );
  if (options.chart === undefined) return;
  const { drawLevels } = await import("../report/charts/switch-levels.ts");
  const title = `Levels of ${study.title}`;
  const chart = drawLevels({ title, levels: study.levels });
  await writeFileWhole(options.chart, chart, { force: options.force });
}

/** One table of a document alone, for a text of comma-separated values. */
function partOf(document: Document, part: string | undefined): Document {
  if (part === undefined) return document;
  const tables = document.blocks.filter((one) => one.kind === "table");
  const blocks = tables.filter(({ name }) => name === part);
  if (blocks.length > 0) return { ...document, blocks };
  return refuse({
    code: "unknown-word",
    what: `there is no table \`${part}\` here`,
    expected: tables.map(({ name }) => name).join(", "),
  });
}

/** The switch of a file of its own, or that of a design of a study. */
export async function namedSwitch(
  options: SwitchArguments,
): Promise<SwitchFile & { readonly temperature: number }> {
  const own = await openSwitch(fileName(options.file));
  if (own !== undefined) return { ...own, temperature: readQuantity(options.temperature, "K") };
  const { study, catalogue } = await openNamed(options);
  const names = Object.keys(study.designs).filter(
    (name) => study.designs[name]!.cell?.switch !== undefined,
  );
  const name = options.design ?? names[0];
  if (name === undefined || !names.includes(name)) {
    const nearest = name === undefined ? undefined : nearestWord(name, names);
    return refuse({
      code: "unknown-design",
      what: name === undefined ? "no design has a switch" : `no design \`${name}\` has a switch`,
      expected: names.join(", "),
      ...(nearest === undefined ? {} : { nearest }),
    });
  }
  const design = resolveDesign(study, name, catalogue);
  return {
    resolved: { ...design.cell.switch!, title: `The switch of ${design.title}` },
    temperature: design.parameters.get("temperature")!.value,
    placed: (run) => located(study, `/designs/${name}/cell/switch`, run),
  };
}
