import type { Resolved } from "../catalogue/index.ts";
import { nearestWord } from "../errors/nearest.ts";
import { refuse, TenfoldError } from "../errors/problem.ts";
import { resolveDesign } from "../estimate/design.ts";
import { readText } from "../io/read.ts";
import { openSwitch } from "../io/switch.ts";
import { writeFileWhole } from "../io/write.ts";
import { DIRECT, type SwitchGeometry } from "../models/switch/geometry.ts";
import { readQuantity } from "../quantities/quantity.ts";
import { switchData, switchDocument, switchPart } from "../report/documents/switch.ts";
import { fitData, fitDocument } from "../report/documents/switch-fit.ts";
import { fitMeasured, fittable } from "../studies/switch/fit.ts";
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
  if (options.fit !== undefined) return fitAndPrint(options, geometryOf(resolved, temperature));
  const study = studySwitch(resolved, temperature, drivenBy(options));
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
  const read = (name: keyof SwitchArguments & string, unit: string) => {
    const text = options[name] as string | undefined;
    return text === undefined ? undefined : optionQuantity(name, text, unit);
  };
  const series = read("series-resistance", "ohm") ?? DIRECT.series_resistance;
  const limit = read("current-limit", "A") ?? DIRECT.current_limit;
  if (!(series >= 0 && limit > 0)) {
    refuse({
      code: "out-of-range",
      what: "no source drives a loop with such a circuit",
      got: `${series} ohm, ${limit} A`,
      expected: "--series-resistance of 0 or more, --current-limit above 0",
    });
  }
  return {
    form: options.drive,
    amplitude: read("amplitude", "V"),
    period: read("period", "s"),
    width: read("width", "s"),
    circuit: { series_resistance: series, current_limit: limit },
  };
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

/** Prints the fit of a switch to measured points. */
async function fitAndPrint(options: SwitchArguments, start: SwitchGeometry): Promise<void> {
  const { text, file } = await readText(fileName(options.fit!));
  const free = options.free?.split(",").map((name) => name.trim());
  const fitted = fitMeasured(readMeasured(text, file), start, free && fittable(free));
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
