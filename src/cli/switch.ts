import type { Resolved } from "../catalogue/index.ts";
import { nearestWord } from "../errors/nearest.ts";
import { refuse, TenfoldError } from "../errors/problem.ts";
import { resolveDesign } from "../estimate/design.ts";
import { readText } from "../io/read.ts";
import { openSwitch } from "../io/switch.ts";
import { writeFileWhole } from "../io/write.ts";
import { fittable, type Specimen } from "../models/switch/fit-parameters.ts";
import { type Circuit, DIRECT } from "../models/switch/geometry.ts";
import { readQuantity } from "../quantities/quantity.ts";
import { switchData, switchDocument, switchPart } from "../report/documents/switch.ts";
import { fitData, fitDocument } from "../report/documents/switch-fit.ts";
import { fitMeasured } from "../studies/switch/fit.ts";
import type { LoopDrive } from "../studies/switch/loop.ts";
import { readMeasured } from "../studies/switch/measured.ts";
import { geometryOf, studySwitch } from "../studies/switch/switch.ts";
import type { SwitchArguments } from "./commands/switch.ts";
import { emit } from "./output.ts";
import { fileName } from "./stdin.ts";
import { openNamed } from "./study.ts";

/** Prints what a switch does, and draws its times where that is asked for. */
export async function switchAndPrint(options: SwitchArguments): Promise<void> {
  const { resolved, temperature } = await namedSwitch(options);
  if (options.fit !== undefined) {
    const geometry = geometryOf(resolved, temperature);
    return fitAndPrint(options, { geometry, circuit: circuitOf(options) });
  }
  const temperatures = options.temperatures
    ?.split(",")
    .map((one) => optionQuantity("temperatures", one.trim(), "K"));
  const study = studySwitch(resolved, { temperature, temperatures, drive: drivenBy(options) });
  const { part } = options;
  await emit(
    {
      document: () => (part === undefined ? switchDocument(study) : switchPart(study, part)),
      data: () => switchData(study),
    },
    options,
  );
  if (options.chart === undefined) return;
  const { drawSwitchingTimes } = await import("../report/charts/switching-times.ts");
  const { title, times, retentionTime } = study;
  const chart = drawSwitchingTimes({ title, times, retention: retentionTime });
  await writeFileWhole(options.chart, chart, { force: options.force });
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

type QuantityOption = "amplitude" | "period" | "width" | "series-resistance" | "current-limit";

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
  const settings = { refits: options.refits, seed: options.seed };
  const measured = readMeasured(text, file);
  const fitted = fitMeasured(measured, start, free && fittable(free), settings);
  await emit({ document: () => fitDocument(fitted), data: () => fitData(fitted) }, options);
}

/** The switch of a file of its own, or that of a design of a study. */
export async function namedSwitch(
  options: SwitchArguments,
): Promise<{ readonly resolved: Resolved; readonly temperature: number }> {
  const own = await openSwitch(fileName(options.file));
  if (own !== undefined) {
    return { resolved: own, temperature: readQuantity(options.temperature, "K") };
  }
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
  };
}
