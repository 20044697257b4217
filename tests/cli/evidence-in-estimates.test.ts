import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { load } from "js-yaml";
import { expect, test } from "vitest";
import { ROOT, scratch, tenfold } from "./run.ts";

const STUDY = `title: Model error
technology: cmos-65
samples: 64
baseline: static
defaults: {capacity: 64 Kib, word: 32 bit}
designs:
  static: {cell: sram-6t}
  resistive:
    cell: {switch: oxide-filament, selector: {kind: transistor}}
`;

interface Sample {
  readonly chips: number;
  readonly median: number;
  readonly effective: number;
  readonly spread?: number;
}
/** The samples that the evidence left, and Student's two-sided 95 % points for whole degrees of freedom. */
const ERRORS = (
  load(readFileSync(join(ROOT, "shared/evidence/model-error.yaml"), "utf8")) as {
    quantities: Record<string, { all: Sample; kinds: Record<string, Sample> }>;
  }
).quantities;

function study(text = STUDY): string {
  const file = join(scratch(), "study.yaml");
  writeFileSync(file, text);
  return file;
}

interface Figure {
  readonly value: number;
  readonly low: number;
  readonly model_low?: number;
  readonly model_high?: number;
}
interface Estimate {
  readonly designs: readonly {
    readonly name: string;
    readonly quantities: Readonly<Record<string, Figure>>;
  }[];
  readonly model_error: {
    readonly sources: readonly { quantity: string; median: number; factor: number }[];
    readonly without: readonly string[];
    readonly given: readonly string[];
  };
}

test("estimate gives each figure that evidence has a second interval: value over median, by a factor", () => {
  const made = JSON.parse(tenfold(["estimate", study(), "--format", "json"]).out) as Estimate;
  const { sources, without, given } = made.model_error;
  for (const { name, quantities } of made.designs) {
    for (const [quantity, { value, model_low, model_high }] of Object.entries(quantities)) {
      const source = sources.find((one) => one.quantity === quantity);
      if (source === undefined || (quantity === "cell_area" && given.includes(name))) {
        expect(model_low, `${name} ${quantity}`).toBeUndefined();
        continue;
      }
      const { median, factor } = source;
      const most = quantity === "array_efficiency" ? 1 : Infinity;
      expect(model_low! / Math.min(most, value / (median * factor))).toBeCloseTo(1, 12);
      expect(model_high! / Math.min(most, (value * factor) / median)).toBeCloseTo(1, 12);
    }
  }
  expect(given).toEqual(["static"]);
  // Nothing is said of what too few chips give.
  const few = Object.keys(ERRORS).filter((name) => ERRORS[name]!.all.spread === undefined);
  expect(without).toEqual(expect.arrayContaining(few.filter((name) => name !== "sensing_time")));
  expect(without).toContain("sleep_power");
  expect(sources.map(({ quantity }) => quantity)).toContain("macro_area");
});

test("the figures themselves are not corrected", () => {
  const file = study();
  const made = JSON.parse(tenfold(["estimate", file, "--format", "json"]).out) as Estimate;
  const explained = tenfold(["explain", file, "macro_area", "--design", "static"]).out;
  const { value } = made.designs[0]!.quantities["macro_area"]!;
  const said = Number(/= ([\d.]+) (mm²|µm²)\n/.exec(explained)![1]);
  const unit = explained.includes("mm²") ? 1e-6 : 1e-12;
  expect(value / (said * unit)).toBeCloseTo(1, 2);
});

test("compare names both intervals, says what they rest on and for what there is none, in eighty columns", () => {
  const { out } = tenfold(["compare", study()], { env: { COLUMNS: "80" } });
  expect(out).toMatch(/^macro area +mm²/m);
  expect(out).toMatch(/^ {2}parameters +[\d.]+ – [\d.]+/m);
  expect(out).toMatch(/^ {2}model error +[\d.]+ – [\d.]+/m);
  expect(out).toMatch(/^Model error against published silicon, 95 %/m);
  expect(out.replaceAll("\n", " ")).toMatch(/No model error is stated .*sleep power/);
  expect(out.replaceAll("\n", " ")).toContain("The cell area of static is given");
  for (const line of out.split("\n")) expect([...line].length, line).toBeLessThanOrEqual(80);
});

test("a ratio to the baseline has a model interval of its own", () => {
  const csv = tenfold(["compare", study(), "--format", "csv"]).out.trimEnd().split("\r\n");
  const head = csv[0]!.split(",");
  const row = csv.find((line) => line.startsWith("macro_area,resistive"))!.split(",");
  const of = (name: string) => Number(row[head.indexOf(name)]);
  expect(of("model_low")).toBeLessThan(of("value"));
  expect(of("model_high")).toBeGreaterThan(of("value"));
  expect(of("ratio_model_low")).toBeLessThan(of("ratio_model_high"));
  const base = csv.find((line) => line.startsWith("macro_area,static"))!.split(",");
  expect(base[head.indexOf("ratio_model_low")]).toBe("");
});

test.each(["markdown", "html", "latex"])("compare says the model error in %s", (format) => {
  const { out } = tenfold(["compare", study(), "--format", format]);
  expect(out).toContain("model error");
  expect(out).toContain("Model error against published silicon");
});

test("uncertainty gives the model error beside the interval of the parameters", () => {
  const file = study();
  const asked = ["uncertainty", file, "--quantity", "macro_area", "--design", "static"];
  const text = tenfold(asked, { env: { COLUMNS: "80" } }).out;
  expect(text).toContain("model error");
  const { designs, model_error } = JSON.parse(tenfold([...asked, "--format", "json"]).out) as {
    designs: {
      quantities: Record<string, { nominal: number; model_low: number; model_high: number }>;
    }[];
    model_error: Estimate["model_error"];
  };
  const { nominal, model_low, model_high } = designs[0]!.quantities["macro_area"]!;
  const { median, factor } = model_error.sources[0]!;
  expect(model_low).toBeCloseTo(nominal / (median * factor), 18);
  expect(model_high).toBeCloseTo((nominal * factor) / median, 18);
});

test("a report has the model error in each of its files", () => {
  const folder = join(scratch(), "report");
  expect(tenfold(["report", study(), "--out", folder, "--quiet"]).code).toBe(0);
  for (const file of ["report.md", "report.html", "report.tex"]) {
    expect(readFileSync(join(folder, file), "utf8"), file).toContain("Model error against");
  }
  expect(readFileSync(join(folder, "estimate.json"), "utf8")).toContain("model_high");
  expect(readFileSync(join(folder, "comparison.json"), "utf8")).toContain("model_high");
  expect(readFileSync(join(folder, "tables/comparison.csv"), "utf8")).toContain("model_high");
  expect(readFileSync(join(folder, "tables/model_error.csv"), "utf8")).toContain(
    "macro_area".split("_")[0]!,
  );
});

test("a wider coverage gives a wider model interval", () => {
  const of = (coverage: string) => {
    const file = study(STUDY.replace("samples:", `coverage: ${coverage}\nsamples:`));
    const made = JSON.parse(tenfold(["estimate", file, "--format", "json"]).out) as Estimate;
    return made.designs[0]!.quantities["macro_area"]!;
  };
  const [narrow, wide] = [of("80 %"), of("99 %")];
  expect(narrow.value).toBe(wide.value);
  expect(wide.model_high!).toBeGreaterThan(narrow.model_high!);
  expect(wide.model_low!).toBeLessThan(narrow.model_low!);
});
