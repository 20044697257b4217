import { describe, expect, it } from "vitest";
import { Catalogue, readEntry } from "../../../src/catalogue/index.ts";
import type { TenfoldError } from "../../../src/errors/problem.ts";
import * as library from "../../../src/index.ts";
import { folderLoader } from "../../../src/io/catalogue.ts";
import { writeTime } from "../../../src/models/switch/geometry-way.ts";
import { studySwitch } from "../../../src/studies/switch/switch.ts";
import { CATALOGUE, modelOf, quantitiesOf } from "../../estimate/study.ts";

const GEOMETRY = {
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
const TEXT = JSON.stringify({
  format: "tenfold.switch/1",
  name: "film",
  title: "A film",
  about: "Invented.",
  values: GEOMETRY,
});

function resolved() {
  const entry = readEntry(TEXT, { file: "film.yaml", kind: "switch", source: "film.yaml" });
  return new Catalogue(folderLoader(), [{ ...entry, path: "" }]).resolve("switch", "film");
}

describe("a switch from its geometry", () => {
  const study = studySwitch(resolved(), { temperature: 300 });

  it("is the same in a study as alone", () => {
    const of = quantitiesOf({ cell: { switch: GEOMETRY, selector: { kind: "transistor" } } });
    expect(of("on_resistance") / study.states.on).toBeCloseTo(1, 12);
    expect(of("off_resistance") / study.states.off).toBeCloseTo(1, 12);
    // The study's temperature is 300 K too.
    expect(of("set_time") / study.setTime).toBeCloseTo(1, 9);
    expect(of("reset_time") / study.resetTime).toBeCloseTo(1, 9);
  });

  it("is written as long as its slower pulse takes, and kept by diffusion", () => {
    const of = quantitiesOf({
      cell: { switch: GEOMETRY, selector: { kind: "transistor" } },
      reliability: {},
    });
    expect(of("switch_write_time")).toBeGreaterThan(study.setTime);
    // x^2/(2 D) with D = a^2 f exp(-E/kT), by hand; 300 K.
    const energy = (1.4 * 1.602176634e-19) / (1.380649e-23 * 300);
    const diffusivity = 0.3e-9 ** 2 * 1e13 * Math.exp(-energy);
    expect(of("retention") / (0.3e-9 ** 2 / (2 * diffusivity))).toBeCloseTo(1, 9);
    expect(study.retentionTime / of("retention")).toBeCloseTo(1, 9);
  });

  it("covers twelve decades of time, the faster the higher, down to one hop per attempt", () => {
    const { times } = study;
    expect(times[0]!.set / times.at(-1)!.set).toBeGreaterThan(1e12);
    for (const [i, one] of times.entries())
      if (i > 0) expect(one.set).toBeLessThanOrEqual(times[i - 1]!.set);
    // 98 % of 0.6 nm in hops of 0.3 nm at 1e13 attempts a second.
    expect(times.at(-1)!.set).toBeGreaterThan((0.999 * (0.98 * 0.6)) / 0.3 / 1e13);
  });

  it("has a pinched loop that sets at a positive and resets at a negative voltage", () => {
    const { loop } = study;
    expect(loop.currentAtZero).toBe(0);
    expect(loop.setAt).toBeGreaterThan(0);
    expect(loop.resetAt).toBeLessThan(0);
    expect(loop.energy).toBeGreaterThan(0);
    expect(loop.imbalance).toBeLessThan(1e-9);
  });

  it("has each time at the voltage and temperature that it names, behind the circuit", () => {
    const circuit = { series_resistance: 3e3, current_limit: Number.POSITIVE_INFINITY };
    const kelvins = [280, 340];
    const behind = studySwitch(resolved(), {
      temperature: 300,
      temperatures: kelvins,
      drive: { circuit },
    });
    const g = behind.geometry;
    const at = (v: number, temperature = 300) => writeTime({ ...g, temperature }, v, circuit);
    expect(behind.setTime).toBe(at(2.6));
    expect(behind.resetTime).toBe(at(-2.6));
    expect(behind.halfSetTime).toBe(at(1.3));
    expect(behind.halfResetTime).toBe(at(-1.3));
    expect(behind.readTime).toBe(at(0.2));
    expect(behind.resetTime).toBeGreaterThan(1.5 * study.resetTime);
    // Twenty voltages up to twice the higher write voltage.
    expect(behind.times).toHaveLength(20);
    expect(behind.times.at(-1)!.voltage).toBeCloseTo(5.2, 12);
    for (const { voltage, set, reset } of behind.times) {
      expect(set).toBe(at(voltage));
      expect(reset).toBe(at(-voltage));
    }
    expect(behind.temperatures.map(({ temperature }) => temperature)).toEqual(kelvins);
    for (const row of behind.temperatures) {
      expect(row.set).toBe(at(2.6, row.temperature));
      expect(row.reset).toBe(at(-2.6, row.temperature));
      expect(row.halfSet).toBe(at(1.3, row.temperature));
      expect(row.readSet).toBe(at(0.2, row.temperature));
      const k = 1.380649e-23 / 1.602176634e-19;
      const arrhenius = (1.4 / k) * (1 / row.temperature - 1 / 300);
      expect(Math.log(row.retention / behind.retentionTime) / arrhenius).toBeCloseTo(1, 9);
    }
    // The textbook decay of 1 eV at the free mass over 0.3 nm: exp(10.2463 x 0.3).
    expect(study.factorOfStep).toBeCloseTo(21.62, 1);
    expect(study.decades).toBeCloseTo(Math.log10(study.retentionTime / study.setTime), 12);
  });

  it("keeps its decades in exact proportion to the hop energy over kT", () => {
    const colder = studySwitch(resolved(), { temperature: 280 });
    const k = 1.380649e-23 / 1.602176634e-19;
    const expected = (1.4 / k) * (1 / 280 - 1 / 300);
    expect(Math.log(colder.retentionTime / study.retentionTime) / expected).toBeCloseTo(1, 9);
  });

  it("is refused without all of its geometry, and beside a measured resistance", () => {
    const { hop_energy: _, ...short } = GEOMETRY;
    const problemOf = (cell: object) => {
      try {
        modelOf({ cell: { switch: cell, selector: { kind: "transistor" } } });
      } catch (error) {
        return (error as TenfoldError).problems[0]!;
      }
      return expect.unreachable();
    };
    expect(problemOf(short)).toMatchObject({
      code: "missing-key",
      what: "the geometry of the switch has no `hop_energy`",
    });
    expect(problemOf({ ...GEOMETRY, on_resistance: "1 kohm" }).code).toBe("conflicting-keys");
    expect(() =>
      studySwitch(CATALOGUE.resolve("switch", "oxide-bilayer"), { temperature: 300 }),
    ).toThrow("not given by its geometry");
  });

  it("displaces what an entry below it has measured", () => {
    const of = quantitiesOf({
      cell: {
        switch: { from: "oxide-bilayer", ...GEOMETRY },
        selector: { kind: "transistor" },
      },
    });
    expect(of("on_resistance") / study.states.on).toBeCloseTo(1, 12);
  });
});

it("is studied through the library as through the command line: states, levels, fits", () => {
  const film = resolved();
  const geometry = library.geometryOf(film, 300);
  expect(library.studySwitch(film, { temperature: 300 }).geometry).toEqual(geometry);
  const levels = library.studyLevels(library.levelsSwitchOf(film, 300), { levels: 2, writes: 5 });
  expect(levels.levels).toHaveLength(2);
  const points = [2, 2.2, 2.4, 2.6].map((v) => `${v},${writeTime(geometry, v)}`);
  const measured = library.readMeasured(`voltage,time\n${points.join("\n")}\n`, "t.csv");
  const circuit = { series_resistance: 0, current_limit: Number.POSITIVE_INFINITY };
  const fitted = library.fitMeasured(measured, { geometry, circuit });
  expect(fitted.fit.geometry.hop_energy / geometry.hop_energy).toBeCloseTo(1, 6);
  const { title } = library.fitDocument(fitted);
  expect(title).toBe("Fit to switching times");
});
