import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { bundleLoader, packCatalogue } from "../../src/catalogue/bundle.ts";
import { Designs } from "../../src/explorer/engine/designs.ts";
import { problemsOf } from "../../src/explorer/engine/problems.ts";
import { Session } from "../../src/explorer/engine/session.ts";
import { lastPlace, turned, valueAt } from "../../src/explorer/knobs/scale.ts";
import { parseFormula } from "../../src/formulas/parse.ts";
import { folderLoader } from "../../src/io/catalogue.ts";
import { openStudy } from "../../src/io/study.ts";
import { renderJson } from "../../src/report/renderers/json.ts";
import { studyReader } from "../../src/studies/definition.ts";
import { estimateStudy, nominalStudy } from "../../src/studies/estimate.ts";
import { estimateData } from "../../src/studies/estimate-data.ts";

const FOLDER = join(import.meta.dirname, "../../configs");
const FILE = "tarn-working-memory.yaml";
const TEXT = readFileSync(join(FOLDER, FILE), "utf8");
// As it comes out of the page: by way of JSON.
const loader = bundleLoader(JSON.parse(JSON.stringify(packCatalogue(folderLoader()))));
const session = (file = FILE) =>
  new Session(loader, { file, version: "0", entries: {}, command: "tenfold report" });
const read = studyReader(loader);
/** Studies that a page answers at once: without tiles that are searched for. */
const STUDIES = [
  "tarn-ranges.yaml",
  "tarn-signatures.yaml",
  "tarn-working-memory.yaml",
  "ten-transistors.yaml",
];
const provenance = { sha256: "", version: "" };

describe("the catalogue in one piece", () => {
  test.each(STUDIES)(
    "gives %s the figures that the folder gives, to the last bit",
    async (name) => {
      const { study, catalogue } = await openStudy(join(FOLDER, name));
      const bundled = read(readFileSync(join(FOLDER, name), "utf8"), { file: name });
      const [a, b] = [
        estimateStudy(study, catalogue, parseFormula),
        estimateStudy(bundled.study, bundled.catalogue, parseFormula),
      ];
      expect(renderJson(estimateData(b, provenance))).toBe(renderJson(estimateData(a, provenance)));
    },
  );

  test("answers a name of no entry as the folder does", () => {
    const wrong = TEXT.replace("switch: interface-oxide", "switch: interface-oxid");
    try {
      session().quick(wrong);
      expect.unreachable();
    } catch (error) {
      expect(problemsOf(error, FILE)[0]!.text).toContain("did you mean: interface-oxide");
    }
  });
});

describe("designs that are kept", () => {
  test("have the figures of a study that is estimated as a whole", () => {
    const designs = new Designs();
    const [one, two] = [
      TEXT,
      TEXT.replace("set_voltage: {value: 1 V", "set_voltage: {value: 1.02 V"),
    ];
    for (const text of [one, two, one]) {
      const { study, catalogue } = read(text, { file: FILE });
      const kept = designs.estimate(study, catalogue, "full");
      const fresh = estimateStudy(study, catalogue, parseFormula);
      expect(renderJson(estimateData(kept, provenance))).toBe(
        renderJson(estimateData(fresh, provenance)),
      );
    }
  });

  test("at their nominal parameters have the nominal figures of the whole estimate", () => {
    const { study, catalogue } = read(TEXT, { file: FILE });
    const [quick, full] = [
      nominalStudy(study, catalogue, parseFormula),
      estimateStudy(study, catalogue, parseFormula),
    ];
    for (const [i, design] of full.designs.entries()) {
      const nominal = quick.designs[i]!;
      expect([...nominal.breakdown]).toEqual([...design.breakdown]);
      for (const [name, { value }] of design.figures) {
        expect(nominal.figures.get(name)).toEqual({
          value,
          low: value,
          median: value,
          high: value,
        });
      }
    }
  });
});

describe("sliders of the demo", () => {
  const knobs = session().knobs(TEXT);

  test("are those of the study, of what carries the uncertainty, and of each design's tile", () => {
    const of = (group: string) => knobs.filter((knob) => knob.group === group);
    expect(of("study").map(({ label }) => label)).toEqual(["capacity", "word", "temperature"]);
    expect(of("uncertainty").length).toBe(8);
    expect(of("organisation").length).toBe(3 * 6);
    expect(new Set(knobs.map(({ id }) => id)).size).toBe(knobs.length);
  });

  test("move what they say, and change no line that they need not", () => {
    const { study, catalogue } = read(TEXT, { file: FILE });
    const before = nominalStudy(study, catalogue, parseFormula);
    const readings = knobs.map((knob) => knob.read);
    const old = session().values(before, readings);
    for (const [i, knob] of knobs.entries()) {
      const value = valueAt(knob.scale, Math.round(0.7 * lastPlace(knob.scale)));
      const text = turned(knob, TEXT, value);
      const changed = read(text, { file: FILE });
      const now = session().values(nominalStudy(changed.study, changed.catalogue, parseFormula), [
        knob.read,
      ]);
      expect(Math.abs(now[0]! / value - 1), knob.id).toBeLessThan(0.006);
      const lines = TEXT.split("\n");
      const gone = lines.filter((line) => !text.split("\n").includes(line));
      expect(gone.length, knob.id).toBeLessThanOrEqual(knob.paths.length);
      expect(old[i], knob.id).toBeGreaterThan(0);
      // Back to where it was: the same figure.
      expect(turned(knob, text, value)).toBe(text);
    }
  });

  test("keep the range of a value that a design did not state", () => {
    const knob = knobs.find((one) => one.range !== undefined)!;
    const text = turned(knob, TEXT, valueAt(knob.scale, 100));
    const { study, catalogue } = read(text, { file: FILE });
    const { designs } = nominalStudy(study, catalogue, parseFormula);
    const found = designs
      .find(({ name }) => name === knob.read.design)!
      .design.parameters.get(knob.read.parameter)!;
    expect(found.low).toBeLessThan(found.value);
    expect(found.high).toBeGreaterThan(found.value);
  });
});

test.each(STUDIES)("%s has a report, files and sliders", (name) => {
  const text = readFileSync(join(FOLDER, name), "utf8");
  const own = session(name);
  expect(own.report(text).pieces.length).toBeGreaterThan(5);
  expect(own.files(text).size).toBeGreaterThan(8);
  for (const knob of own.knobs(text)) {
    // A word may be too wide for a row: that is said as a mistake of the text.
    if (knob.group !== "uncertainty") continue;
    const value = valueAt(knob.scale, lastPlace(knob.scale));
    expect(() => read(turned(knob, text, value), { file: name }), knob.id).not.toThrow();
  }
});
