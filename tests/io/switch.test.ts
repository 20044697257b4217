import { describe, expect, test } from "vitest";
import { TenfoldError } from "../../src/errors/problem.ts";
import { folderLoader } from "../../src/io/catalogue.ts";
import { readSwitch } from "../../src/io/switch.ts";
import { studySwitch } from "../../src/studies/switch/switch.ts";

/** The film of `tests/studies/switch`, one key a line so that lines tell keys. */
const FILM = {
  film_thickness: "3 nm",
  electrode_area: "100 nm^2",
  least_gap: "0.3 nm",
  most_gap: "0.9 nm",
  barrier_height: "1 eV",
  conductive_resistivity: "5e-5 ohm m",
  hop_distance: "0.3 nm",
  hop_energy: "1.4 eV",
  set_voltage: "2.6 V",
  reset_voltage: "2.6 V",
  read_voltage: "0.2 V",
};

function problemOf(changed: Partial<typeof FILM>): string {
  const values = Object.entries({ ...FILM, ...changed }).map(([key, text]) => `  ${key}: ${text}`);
  const head = ["format: tenfold.switch/1", "name: film", "title: A film", "about: Invented."];
  const text = [...head, "values:", ...values].join("\n");
  const { resolved, placed } = readSwitch(text, "film.yaml", folderLoader());
  try {
    placed(() => studySwitch(resolved, { temperature: 300 }));
  } catch (error) {
    if (!(error instanceof TenfoldError)) throw error;
    const [{ code, place }] = error.problems as [(typeof error.problems)[0]];
    return `${error.exitCode} ${code} ${place?.file}:${place?.text?.trim()}`;
  }
  return "computed";
}

describe("what a film cannot be is refused with 2 where the file states it", () => {
  test("a film with usual figures is computed", () => {
    expect(problemOf({})).toBe("computed");
  });

  test("a gap that is wider than the film", () => {
    expect(problemOf({ most_gap: "9 nm" })).toBe("2 out-of-range film.yaml:least_gap: 0.3 nm");
  });

  test("hops of so much energy that the switch never sets", () => {
    // exp(E/kT) leaves the doubles above E = kT ln(2^1024), 18.3 eV at 300 K; the voltage lowers it little.
    expect(problemOf({ hop_energy: "1e6 eV" })).toBe("2 out-of-range film.yaml:hop_energy: 1e6 eV");
  });
});
