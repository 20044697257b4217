/**
 * The rows of a node against each other. Bounds: shared/checks/technology-cross-checks.yaml; the
 * capacitance formula is that of "Simple formulas for two- and three-dimensional capacitances",
 * IEEE Transactions on Electron Devices 30(2), 1983, computed here anew.
 */
import { readFileSync } from "node:fs";
import { load } from "js-yaml";
import { describe, expect, test } from "vitest";
import { Catalogue } from "../../src/catalogue/index.ts";
import { readQuantity } from "../../src/quantities/quantity.ts";
import { SHARED, sharedLoader } from "./shared.ts";

const catalogue = new Catalogue(sharedLoader);
const nodes = catalogue.names("technology");

function valuesOf(node: string): Record<string, number> {
  const { parameters } = catalogue.resolve("technology", node);
  return Object.fromEntries(Object.entries(parameters).map(([name, { value }]) => [name, value]));
}

interface Checks {
  cell_areas: { technology: string; area: string }[];
  wires: { technology: string; level: string; capacitance: string; resistance: string }[];
}
const checks = load(
  readFileSync(new URL("checks/technology-cross-checks.yaml", SHARED), "utf8"),
) as Checks;

/**
 * Capacitance per length over permittivity of the middle of three lines at a height equal to their
 * thickness.
 */
function threeLines(width: number, spacing: number, thickness: number, planes: 1 | 2): number {
  const w = width / thickness;
  const s = spacing / thickness;
  const side = (0.03 * w + 0.83 - 0.07) * s ** -1.34;
  // A second plane adds its plate part and half of the fringe.
  return 1.15 * w + 2.8 + 2 * side + (planes === 2 ? 1.15 * w + 1.4 : 0);
}

/** The mean of one and two planes. */
function capacitanceOf(of: Record<string, number>, level: string): number {
  const [width, spacing, thickness] = ["width", "spacing", "thickness"].map(
    (name) => of[`${level}_wire_${name}`]!,
  ) as [number, number, number];
  const one = threeLines(width, spacing, thickness, 1);
  const two = threeLines(width, spacing, thickness, 2);
  return (8.8541878128e-12 * of[`${level}_wire_permittivity`]! * (one + two)) / 2;
}

describe.each(nodes)("%s", (node) => {
  const of = valuesOf(node);

  test("has a static cell of 50 to 110 squares of the metal half pitch", () => {
    const squares = of["sram_6t_cell_area"]! / of["metal_half_pitch"]! ** 2;
    expect(squares).toBeGreaterThanOrEqual(50);
    expect(squares).toBeLessThanOrEqual(110);
  });

  test("has local wires of 0.15 to 0.30 fF/um", () => {
    const capacitance = capacitanceOf(of, "local");
    expect(capacitance).toBeGreaterThan(0.15e-9);
    expect(capacitance).toBeLessThan(0.3e-9);
  });

  test("has a flip-flop whose range meets 4.5 to 6.5 NAND gates", () => {
    const { flip_flop_area: area, gate_density: density } = catalogue.resolve(
      "technology",
      node,
    ).parameters;
    expect(area!.low * density!.low).toBeLessThan(6.5);
    expect(area!.high * density!.high).toBeGreaterThan(4.5);
  });

  test("turns its transistors on and off by at least three decades", () => {
    expect(of["nmos_on_current"]! / of["nmos_off_current"]!).toBeGreaterThan(1e3);
    expect(of["supply"]).toBeGreaterThan(of["threshold_voltage"]!);
    expect(of["io_supply"]).toBeGreaterThan(of["supply"]!);
  });
});

describe("wires of all nodes", () => {
  // The table was computed once from the same geometry and printed with four digits.
  test.each(checks.wires)("$technology $level has the resistance of the table", (row) => {
    const of = valuesOf(row.technology);
    const area = of[`${row.level}_wire_width`]! * of[`${row.level}_wire_thickness`]!;
    const expected = readQuantity(row.resistance, "ohm/m");
    expect(Math.abs(of[`${row.level}_wire_resistivity`]! / area / expected - 1)).toBeLessThan(5e-4);
  });

  test.each(checks.wires)("$technology $level has the capacitance of the table", (row) => {
    const expected = readQuantity(row.capacitance, "F/m");
    const computed = capacitanceOf(valuesOf(row.technology), row.level);
    expect(Math.abs(computed - expected)).toBeLessThan(0.5000001e-13);
  });
});

test("the static cells are those of the table of published areas", () => {
  for (const { technology, area } of checks.cell_areas) {
    expect(valuesOf(technology)["sram_6t_cell_area"]).toBe(readQuantity(area, "m^2"));
  }
  expect(checks.cell_areas).toHaveLength(11);
});

test("each node is smaller and denser than the one before, and no slower", () => {
  const plain = nodes.filter((name) => /^cmos-\d+$/.test(name));
  const bySize = plain.sort((a, b) => Number(b.split("-")[1]) - Number(a.split("-")[1]));
  const rows = bySize.map(valuesOf);
  for (let i = 1; i < rows.length; i++) {
    expect(rows[i]!["sram_6t_cell_area"]).toBeLessThan(rows[i - 1]!["sram_6t_cell_area"]!);
    expect(rows[i]!["gate_density"]).toBeGreaterThan(rows[i - 1]!["gate_density"]!);
    expect(rows[i]!["fo4_delay"]).toBeLessThanOrEqual(rows[i - 1]!["fo4_delay"]!);
  }
});
