import type { Catalogue } from "../../catalogue/index.ts";
import type { Place } from "../../errors/problem.ts";
import { refuse } from "../../errors/problem.ts";
import { choice, group, list, name, named, text } from "../../schema/define.ts";
import { readPlainFile } from "../../schema/plain-file.ts";

/** How a constant follows from the figures of chips. */
const FITS = {
  mean: "the mean of the samples",
  first: "the first sample; the others bound its range",
  bounded: "a value from elsewhere, which the samples only bound",
} as const;
type Fit = keyof typeof FITS;

interface StatedFigure {
  readonly chip: string;
  readonly figure: string;
}
interface StatedSample extends StatedFigure {
  /** What it is divided by. */
  readonly over?: StatedFigure;
}
interface StatedFit {
  readonly fit: Fit;
  readonly samples: readonly StatedSample[];
}

/** A constant of the models with the chips that it was taken from. */
export interface Calibrated extends StatedFit {
  /** Folder and name of the entry, then the constant. */
  readonly constant: string;
}

/** A fitted constant, with each of its chips left out. */
export interface FitSpread {
  readonly constant: string;
  readonly fit: Fit;
  readonly unit: string;
  readonly shipped: number;
  readonly samples: readonly { readonly chip: string; readonly value: number }[];
  /** The constant without that chip; nothing where no other is left. */
  readonly without: readonly { readonly chip: string; readonly value?: number }[];
}

const FORMAT = "tenfold.calibration/1";
const needed = { required: true } as const;
const figureFields = {
  chip: name("the chip", needed),
  figure: name("its figure", needed),
};

interface StatedCalibration {
  readonly format: typeof FORMAT;
  readonly name: string;
  readonly title: string;
  readonly about: string;
  readonly constants: Readonly<Record<string, StatedEntry>>;
}
type StatedEntry = Readonly<Record<string, StatedFit>>;

const calibrationField = group<StatedCalibration>("constants that were taken from chips", {
  format: choice("format", { [FORMAT]: "constants with their chips" }, needed),
  name: name("the name of the file", needed),
  title: text("a line for tables", needed),
  about: text("what it is for", needed),
  constants: named(
    "the constants",
    "the name of an entry of the catalogue",
    named(
      "its constants",
      "the name of a constant",
      group<StatedFit>("how it was taken", {
        fit: choice("fit", FITS, needed),
        samples: list(
          "the chips' figures",
          group<StatedSample>("a figure of a chip", {
            ...figureFields,
            over: group<StatedFigure>("the figure that it is divided by", figureFields),
          }),
          needed,
        ),
      }),
    ),
    needed,
  ),
});

/** @throws TenfoldError with every mistake of the file at its place */
export function readCalibration(
  content: string,
  file: string,
): { readonly constants: readonly Calibrated[]; place(path: string): Place } {
  const { value, place } = readPlainFile(content, file, calibrationField);
  const constants = Object.entries(value.constants).flatMap(([entry, all]) =>
    Object.entries(all).map(([constant, fit]) => ({ constant: `${entry} ${constant}`, ...fit })),
  );
  return { constants, place };
}

/** The chips behind a constant, those that only scale it too. */
export function figuresBehind({ samples }: Calibrated): readonly StatedFigure[] {
  return samples.flatMap(({ chip, figure, over }) => [
    { chip, figure },
    ...(over === undefined ? [] : [over]),
  ]);
}

/** Each constant that several chips gave, with each of them left out. */
export function fitSpreads(constants: readonly Calibrated[], catalogue: Catalogue): FitSpread[] {
  return constants.flatMap(({ constant, fit, samples }) => {
    if (fit === "bounded" || samples.length < 2) return [];
    const [entry, field] = constant.split(" ") as [string, string];
    const shipped = catalogue.find("baseline", entry).values[field]!;
    const values = samples.map((sample) => ({
      chip: sample.chip,
      value: sampleValue(sample, catalogue),
    }));
    return [
      {
        constant,
        fit,
        unit: shipped.unit,
        shipped: shipped.value,
        samples: values,
        without: values.map(({ chip }) => ({
          chip,
          value: fitted(
            fit,
            values.filter((one) => one.chip !== chip).map(({ value }) => value),
          ),
        })),
      },
    ];
  });
}

/** The constant that the samples give. */
export function fitted(fit: Fit, values: readonly number[]): number {
  return fit === "mean" ? values.reduce((sum, x) => sum + x, 0) / values.length : values[0]!;
}

function sampleValue({ chip, figure, over }: StatedSample, catalogue: Catalogue): number {
  const value = figureOf(chip, figure, catalogue);
  return over === undefined ? value : value / figureOf(over.chip, over.figure, catalogue);
}

function figureOf(chip: string, figure: string, catalogue: Catalogue): number {
  const found = catalogue.find("chip", chip).values[figure];
  if (found !== undefined) return found.value;
  return refuse({ code: "missing-key", what: `the chip ${chip} has no \`${figure}\`` });
}
