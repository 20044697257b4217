import { describe, expect, test } from "vitest";
import { Catalogue, ownEntries } from "../../src/catalogue/index.ts";
import { TenfoldError } from "../../src/errors/problem.ts";
import { parseFormula } from "../../src/formulas/parse.ts";
import { folderLoader } from "../../src/io/catalogue.ts";
import { estimateStudy } from "../../src/studies/estimate.ts";
import { type Keys, OXIDE_TRANSISTOR, studyOf } from "./study.ts";

/** Exit code, then code, JSON pointer and quoted text of each problem. */
function refusal(design: Keys, top: Keys = {}): string[] {
  const study = studyOf({ one: { capacity: "64 Kib", word: "32 bit", ...design } }, top);
  const catalogue = new Catalogue(folderLoader(), ownEntries(study.catalogue));
  try {
    estimateStudy({ ...study, samples: 16 }, catalogue, parseFormula);
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    const places = error.problems.map(
      ({ code, path, place }) => `${code} ${path} ${place?.text?.slice(place.column - 1).trim()}`,
    );
    return [String(error.exitCode), ...places];
  }
  return [];
}

const SHORT = { from: "oxide-bilayer", on_resistance: "1e-305 ohm" };
const cell = { ...OXIDE_TRANSISTOR, switch: SHORT };

describe("a value that lets no figure be computed is refused with 2, where it stands", () => {
  test("in the design", () => {
    expect(refusal({ cell })).toEqual([
      "2",
      'out-of-range /designs/one/cell/switch/on_resistance "1e-305 ohm"',
    ]);
  });

  test("in what all designs share", () => {
    expect(refusal({}, { defaults: { cell } })).toEqual([
      "2",
      'out-of-range /defaults/cell/switch/on_resistance "1e-305 ohm"',
    ]);
  });

  test("in an entry that the study adds to the catalogue", () => {
    const top = { catalogue: { switches: { short: SHORT } } };
    expect(refusal({ cell: { ...OXIDE_TRANSISTOR, switch: "short" } }, top)).toEqual([
      "2",
      'out-of-range /catalogue/switches/short/on_resistance "1e-305 ohm"',
    ]);
  });

  test("in the overrides", () => {
    expect(refusal({ cell: "sram-6t", overrides: { fo4_delay: "1e308 s" } })).toEqual([
      "2",
      'out-of-range /designs/one/overrides/fo4_delay "1e308 s"',
    ]);
  });
});
