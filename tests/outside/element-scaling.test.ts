/**
 * Resistance and write current by the area of the storage element: closed forms, and published
 * devices of `shared/checks/measured-devices.yaml` beside what their class gives at their area.
 */
import { readFileSync } from "node:fs";
import { load } from "js-yaml";
import { describe, expect, test } from "vitest";
import { type Keys, modelOf, quantitiesOf } from "../estimate/study.ts";

const file = new URL("../../shared/checks/measured-devices.yaml", import.meta.url);
const { devices } = load(readFileSync(file, "utf8")) as {
  devices: Record<string, Record<string, Record<"value" | "min" | "max", number>>>;
};

/** A published figure. */
const published = (device: string, figure: string) => devices[device]![figure]!.value;
const round = (nanometres: number) => (Math.PI / 4) * (nanometres * 1e-9) ** 2;

const transistor = (device: unknown): Keys => ({
  technology: "cmos-28",
  cell: { switch: device, selector: "transistor" },
});
const at = (device: string, area: number): Keys =>
  transistor({ from: device, element_area: `${area} m^2` });

describe("at the size at which a class is stated", () => {
  // The figures of the classes before elements had a size: typical of their class, from memory.
  test.each([
    ["magnetic-tunnel", 3e3, 6.9e3, 80e-6],
    ["phase-change", 10e3, 1.5e6, 200e-6],
  ])("%s has the resistances and the current of its class", (name, on, off, current) => {
    const of = quantitiesOf(transistor(name));
    expect(of("on_resistance") / on).toBeCloseTo(1, 12);
    expect(of("off_resistance") / off).toBeCloseTo(1, 12);
    expect(of("current_limit") / current).toBeCloseTo(1, 12);
  });

  test("a field-written element of 350 by 700 nm has 12 kohm, from an oxide within the published range", () => {
    const of = quantitiesOf({ ...transistor("magnetic-field"), technology: "cmos-180" });
    expect(of("on_resistance") / 12e3).toBeCloseTo(1, 12);
    // kohm um2 is 1e-9 ohm m2.
    const product = (of("on_resistance") * of("element_area")) / 1e-9;
    const range = devices["mtj-oxide-range"]!["resistance_area_product_kohm_um2"]!;
    expect(product).toBeGreaterThan(range.min);
    expect(product).toBeLessThan(range.max);
  });
});

describe("an element of another size", () => {
  test.each(["magnetic-tunnel", "phase-change"])(
    "%s of a quarter of the area has four times the resistances and a quarter of the write current",
    (name) => {
      const [large, small] = [quantitiesOf(at(name, 8e-16)), quantitiesOf(at(name, 2e-16))];
      expect(small("on_resistance") / large("on_resistance")).toBeCloseTo(4, 12);
      expect(small("off_resistance") / large("off_resistance")).toBeCloseTo(4, 12);
      expect(small("switch_write_current") / large("switch_write_current")).toBeCloseTo(0.25, 12);
    },
  );

  test("takes the room that a cell has: all of a landing's pitch but a half pitch, a half pitch in a crossbar", () => {
    const huge = quantitiesOf(at("magnetic-tunnel", 1e-12));
    const half = huge("metal_half_pitch");
    // 6 ohm um2 over a circle of two half pitches.
    expect(huge("on_resistance") / (6e-12 / ((Math.PI / 4) * (2 * half) ** 2))).toBeCloseTo(1, 12);
    const crossbar: Keys = {
      technology: "cmos-28",
      feature: "20 nm",
      cell: { switch: "magnetic-tunnel", selector: "array-transistor" },
    };
    const of = quantitiesOf(crossbar);
    expect(of("on_resistance") / (6e-12 / round(20))).toBeCloseTo(1, 12);
    expect(of("current_limit") / (4e10 * round(20))).toBeCloseTo(1, 12);
  });

  test("a figure that a study states itself is kept, in the cell and under overrides", () => {
    const stated = { from: "magnetic-tunnel", element_area: "1000 nm^2", on_resistance: "5 kohm" };
    const of = quantitiesOf(transistor(stated));
    expect(of("on_resistance")).toBe(5e3);
    expect(of("current_limit") / 40e-6).toBeCloseTo(1, 12);
    const over = { ...transistor("magnetic-tunnel"), overrides: { current_limit: "30 uA" } };
    expect(quantitiesOf(over)("current_limit")).toBe(30e-6);
  });

  test("a resistance and a resistance-area product in one place are refused", () => {
    const twice = { from: "magnetic-tunnel", on_resistance: "5 kohm" };
    const keys = transistor({ ...twice, resistance_area_product: "6 ohm um^2" });
    expect(() => modelOf(keys)).toThrow(/resistance_area_product/);
  });
});

/** Write current that a class gives at an area, and its range: low, middle, high. */
function classCurrents(name: string, area: number): number[] {
  const model = modelOf(at(name, area));
  const density = model.parameters.find((one) => one.name === "switching_current_density")!;
  return [density.low, density.value, density.high].map((one) => one * area);
}

describe("published devices, by their area and the density of their class", () => {
  // A perpendicular-anisotropy CoFeB-MgO magnetic tunnel junction, Nature Materials 2010: 49 uA.
  // Not blind: this density was known when the size of the class was set.
  test("a junction of 40 nm takes 49 uA; the class gives 50", () => {
    const area = round(published("mtj-40nm", "size_nm"));
    const [, middle] = classCurrents("magnetic-tunnel", area);
    const ratio = middle! / (published("mtj-40nm", "switching_current_uA") * 1e-6);
    expect(ratio).toBeGreaterThan(1 / 1.3);
    expect(ratio).toBeLessThan(1.3);
  });

  // Dependence of voltage and size on write error rates in spin-transfer torque magnetic
  // random-access memory, IEEE Magnetics Letters 2016: 7.5 uA in 10 ns, half of the class's pulse.
  test("a junction of 11 nm takes 7.5 uA; the class gives half of it, and the range holds it", () => {
    const area = round(published("mtj-write-11nm", "size_nm"));
    const reported = published("mtj-write-11nm", "switching_current_uA") * 1e-6;
    const [low, middle, high] = classCurrents("magnetic-tunnel", area);
    expect(reported).toBeGreaterThan(low!);
    expect(reported).toBeLessThan(high!);
    expect(middle! / reported).toBeGreaterThan(1 / 2.5);
    expect(middle! / reported).toBeLessThan(2.5);
  });

  // A novel cross-spacer phase change memory with ultra-small lithography independent contact
  // area, IEDM 2007: 230 uA through 1000 nm2.
  test("a phase-change contact of 1000 nm2 takes 230 uA; the class gives 200", () => {
    const area = published("pcm-lithographic", "contact_area_nm2") * 1e-18;
    const [, middle] = classCurrents("phase-change", area);
    const ratio = middle! / (published("pcm-lithographic", "reset_current_uA") * 1e-6);
    expect(ratio).toBeGreaterThan(1 / 1.3);
    expect(ratio).toBeLessThan(1.3);
  });

  // Ultra-low power phase change memory with carbon nanotube interconnects, Device Research
  // Conference 2010: at most 10 uA.
  test("a phase-change bit of 10 nm takes 10 uA or less, below the middle of the class and in its range", () => {
    const [low, middle] = classCurrents(
      "phase-change",
      round(published("pcm-nanotube", "size_nm")),
    );
    const reported = published("pcm-nanotube", "switching_current_uA") * 1e-6;
    expect(reported).toBeGreaterThan(low!);
    expect(middle! / reported).toBeGreaterThan(1);
    expect(middle! / reported).toBeLessThan(2);
  });
});
