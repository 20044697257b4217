import { describe, expect, test } from "vitest";
import { Catalogue, selectorLaw, wireFigures } from "../../src/catalogue/index.ts";
import { TenfoldError } from "../../src/errors/problem.ts";
import type { Parameter } from "../../src/quantities/parameter.ts";
import type { EntryUse } from "../../src/schema/field.ts";
import { sharedLoader } from "./shared.ts";

const catalogue = new Catalogue(sharedLoader);
const PATH = "/designs/a/cell/switch";

/** A user's figure in SI. */
function given(name: string, unit: string, value: number): [string, Parameter] {
  const spread = { value, low: value, high: value, distribution: "exact" } as const;
  return [
    name,
    { name, unit, ...spread, source: "notebook", basis: "user", key: `${PATH}/${name}` },
  ];
}

function use(from: string | undefined, ...values: [string, Parameter][]): EntryUse {
  const entry = { values: Object.fromEntries(values), path: PATH };
  return from === undefined ? entry : { ...entry, from };
}

function codesOf(run: () => unknown): string[] {
  try {
    run();
  } catch (error) {
    if (error instanceof TenfoldError) return error.problems.map(({ code }) => code);
    throw error;
  }
  return [];
}

describe("a name", () => {
  test("gives the values of its file under keys of its own", () => {
    const { parameters, chain } = catalogue.resolve("switch", "oxide-bilayer");
    expect(parameters["on_resistance"]).toMatchObject({
      value: 6000,
      key: "switch/oxide-bilayer/on_resistance",
      source: "typical-classes",
      basis: "memory",
    });
    expect(chain).toEqual(["oxide-bilayer"]);
  });

  test("that doesn't exist is answered with the nearest one", () => {
    expect(() => catalogue.resolve("switch", "oxide-bilayr")).toThrow(TenfoldError);
    try {
      catalogue.resolve("switch", "oxide-bilayr");
    } catch (error) {
      expect((error as TenfoldError).problems[0]).toMatchObject({
        code: "unknown-word",
        nearest: "oxide-bilayer",
      });
    }
  });

  test("of another kind is answered with that kind", () => {
    expect(() => catalogue.find("switch", "threshold-chalcogenide")).toThrow(
      "is a selector, no switch",
    );
  });

  test("never leaves the folder of its kind", () => {
    expect(codesOf(() => catalogue.find("switch", "../sources"))).toEqual(["unknown-word"]);
  });
});

describe("values over a name", () => {
  test("win, keep the key of the study, and leave the rest with the keys of the entry", () => {
    const { parameters } = catalogue.resolve(
      "switch",
      use("oxide-bilayer", given("on_resistance", "ohm", 1e4)),
    );
    expect(parameters["on_resistance"]).toMatchObject({
      value: 1e4,
      key: `${PATH}/on_resistance`,
      basis: "user",
    });
    expect(parameters["set_time"]!.key).toBe("switch/oxide-bilayer/set_time");
  });

  test("displace what they say anew: a ratio replaces the off resistance", () => {
    const { parameters, sheets } = catalogue.resolve(
      "switch",
      use("oxide-bilayer", given("on_off_ratio", "1", 10)),
    );
    expect(parameters["off_resistance"]).toBeUndefined();
    expect(sheets.flatMap(({ formulas }) => Object.keys(formulas))).toEqual(["off_resistance"]);
  });

  test("of a spread for both states replace the two of the entry, with the same draws", () => {
    const { parameters } = catalogue.resolve(
      "switch",
      use("oxide-bilayer", given("device_spread", "1", 0.3)),
    );
    expect(parameters["device_spread_on"]).toMatchObject({
      value: 0.3,
      key: `${PATH}/device_spread`,
    });
    expect(parameters["device_spread_off"]).toMatchObject({
      value: 0.3,
      key: `${PATH}/device_spread`,
    });
  });
});

describe("a measured device", () => {
  test("has its own figures where published, those of its class elsewhere, and says so", () => {
    const { parameters, chain, cautions } = catalogue.resolve("switch", "taox-bilayer-30nm");
    expect(parameters["set_time"]).toMatchObject({ value: 1e-8, source: "taox-bilayer-30nm" });
    expect(parameters["on_resistance"]).toMatchObject({
      source: "typical-classes",
      key: "switch/taox-bilayer-30nm/on_resistance",
    });
    expect(chain).toEqual(["taox-bilayer-30nm", "oxide-bilayer"]);
    expect(cautions.join()).toContain("doesn't give itself is that of oxide-bilayer");
  });
});

describe("an inline switch", () => {
  test("needs its two resistances alone; the rest is defaulted and listed", () => {
    const { parameters, defaulted } = catalogue.resolve(
      "switch",
      use(undefined, given("on_resistance", "ohm", 1e4), given("off_resistance", "ohm", 1e6)),
    );
    expect(defaulted).toContain("set_voltage");
    expect(defaulted).not.toContain("on_resistance");
    expect(parameters["set_voltage"]).toMatchObject({
      basis: "default",
      source: "typical-classes",
    });
    expect(parameters["set_voltage"]!.low).toBeLessThan(parameters["set_voltage"]!.high);
  });

  test("without an off resistance is told both ways to give it", () => {
    const resolve = () =>
      catalogue.resolve("switch", use(undefined, given("on_resistance", "ohm", 1e4)));
    expect(codesOf(resolve)).toEqual(["missing-key"]);
    try {
      resolve();
    } catch (error) {
      expect((error as TenfoldError).problems[0]!.expected).toContain("on_off_ratio");
    }
  });

  test("takes its junction side from the feature, with its draws", () => {
    const technology = catalogue.resolve("technology", "cmos-65").parameters;
    const { parameters } = catalogue.resolve("switch", "oxide-bilayer", technology);
    expect(technology["feature"]).toMatchObject({
      value: 105e-9,
      key: "technology/cmos-65/metal_half_pitch",
    });
    expect(parameters["junction_side"]!.key).toBe("technology/cmos-65/metal_half_pitch");
  });
});

describe("what no device can be is refused", () => {
  const on = (value: number) => given("on_resistance", "ohm", value);
  const off = (value: number) => given("off_resistance", "ohm", value);
  test.each([
    ["off-below-on", [on(1e6), off(1e4)]],
    ["off-below-on", [on(1e4), off(1e4)]],
    ["off-below-on", [on(1e4), given("on_off_ratio", "1", 1)]],
    ["out-of-range", [on(1e4), off(1e6), given("nonlinearity", "1", 1.9)]],
    ["out-of-range", [on(1e4), off(1e6), given("verify_pulses", "1", 0.5)]],
    ["conflicting-keys", [on(1e4), off(1e6), given("on_off_ratio", "1", 100)]],
    [
      "conflicting-keys",
      [on(1e4), off(1e6), given("nonlinearity", "1", 3), given("scale_voltage", "V", 1)],
    ],
  ] as const)("%s", (code, values) => {
    expect(codesOf(() => catalogue.resolve("switch", use(undefined, ...values)))).toEqual([code]);
  });

  test("supply-below-threshold", () => {
    const node = { ...use("cmos-65", given("supply", "V", 0.2)), path: "/technology" };
    expect(codesOf(() => catalogue.resolve("technology", node))).toEqual([
      "supply-below-threshold",
    ]);
  });

  test("a hold voltage above the threshold", () => {
    const node = use("threshold-chalcogenide", given("hold_voltage", "V", 2));
    expect(codesOf(() => catalogue.resolve("selector", node))).toEqual(["out-of-range"]);
  });

  test("a selector kind that its entry isn't", () => {
    const node = { ...use("threshold-chalcogenide"), variant: "diode" };
    expect(codesOf(() => catalogue.resolve("selector", node))).toEqual(["conflicting-keys"]);
  });
});

describe("a selector", () => {
  test.each([
    ["none", "none"],
    ["transistor", "transistor"],
    ["diode-silicon", "diode"],
    ["threshold-chalcogenide", "threshold"],
    ["nonlinear-tunnel", "tunnel"],
    ["mixed-conductor", "mixed_conductor"],
    ["complementary-pair", "complementary"],
    ["schottky-back-to-back", "tunnel"],
    ["miec-scaled", "mixed_conductor"],
  ])("%s follows the law %s", (name, law) => {
    expect(selectorLaw(catalogue.resolve("selector", name))).toBe(law);
  });

  test("gets only the fields of its kind", () => {
    const { parameters } = catalogue.resolve("selector", "transistor");
    expect(Object.keys(parameters)).toEqual([]);
    const diode = catalogue.resolve("selector", { values: {}, variant: "diode", path: PATH });
    expect(diode.defaulted).toContain("saturation_current");
    expect(diode.defaulted).not.toContain("hold_voltage");
  });
});

describe("entries of the study's own", () => {
  const own = {
    kind: "switch",
    name: "oxide-bilayer",
    title: "Mine",
    from: "oxide-filament",
    values: Object.fromEntries([given("on_resistance", "ohm", 123)]),
    path: "/catalogue/switches/oxide-bilayer",
  } as const;

  test("take precedence over the catalogue's and share draws by their name", () => {
    const mine = new Catalogue(sharedLoader, [own]);
    const { parameters, title } = mine.resolve("switch", "oxide-bilayer");
    expect(title).toBe("Mine");
    expect(parameters["on_resistance"]).toMatchObject({
      value: 123,
      key: "switch/oxide-bilayer/on_resistance",
    });
    expect(parameters["set_time"]!.key).toBe("switch/oxide-bilayer/set_time");
  });

  test("may be laid over the entry whose name they take", () => {
    const mine = new Catalogue(sharedLoader, [{ ...own, from: "oxide-bilayer" }]);
    const { parameters } = mine.resolve("switch", "oxide-bilayer");
    expect(parameters["on_resistance"]!.value).toBe(123);
    expect(parameters["set_time"]!.value).toBe(20e-9);
  });

  test("that lead back to themselves are refused with the way", () => {
    const loop = new Catalogue(sharedLoader, [
      { ...own, name: "a", from: "b" },
      { ...own, name: "b", from: "a" },
    ]);
    expect(codesOf(() => loop.resolve("switch", "a"))).toEqual(["from-cycle"]);
    expect(loop.names("switch")).toContain("a");
  });
});

describe("the wires of a level", () => {
  const technology = catalogue.resolve("technology", "cmos-65").parameters;

  test("are those of the technology under plain names", () => {
    const wires = wireFigures(undefined, "local", technology);
    expect(wires["width"]).toMatchObject({
      name: "width",
      value: 105e-9,
      key: "technology/cmos-65/local_wire_width",
    });
    expect(Object.keys(wires)).toHaveLength(5);
  });

  test("may be overridden, and a level that doesn't exist is refused", () => {
    const own = { ...use("global", given("width", "m", 1e-6)), path: "/designs/a/wires/rows" };
    const wires = wireFigures(own, "local", technology);
    expect(wires["width"]!.value).toBe(1e-6);
    expect(wires["thickness"]!.value).toBe(975e-9);
    expect(codesOf(() => wireFigures(use("globl"), "local", technology))).toEqual(["unknown-word"]);
  });
});
