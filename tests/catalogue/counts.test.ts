/**
 * Transistor counts against the inventories of circuits (shared/checks/circuit-inventories.yaml,
 * from textbooks and papers), which can be recounted from their breakdowns.
 */
import { readFileSync } from "node:fs";
import { load } from "js-yaml";
import { describe, expect, test } from "vitest";
import { Catalogue } from "../../src/catalogue/index.ts";
import { defaults } from "../../src/models/periphery/index.ts";
import { SHARED, sharedLoader } from "./shared.ts";

type Count = number | [number, number];
interface Circuit {
  transistors: { value: number; low: number; high: number };
  breakdown: Record<string, Count>;
}

const catalogue = new Catalogue(sharedLoader);
const inventories = (
  load(readFileSync(new URL("checks/circuit-inventories.yaml", SHARED), "utf8")) as {
    circuits: Record<string, Circuit>;
  }
).circuits;

function sumOf(breakdown: Record<string, Count>, end: 0 | 1): number {
  return Object.values(breakdown).reduce<number>(
    (sum, count) => sum + (typeof count === "number" ? count : count[end]),
    0,
  );
}

describe("the breakdown of a circuit", () => {
  test.each(Object.entries(inventories))("%s meets its count", (_, circuit) => {
    const { low, value, high } = circuit.transistors;
    expect(sumOf(circuit.breakdown, 0)).toBeLessThanOrEqual(high);
    expect(sumOf(circuit.breakdown, 1)).toBeGreaterThanOrEqual(low);
    expect(low <= value && value <= high).toBe(true);
  });

  test.each(catalogue.names("baseline"))("of the cell %s meets its count", (name) => {
    const { values, more } = catalogue.find("baseline", name);
    const breakdown = more["breakdown"] as Record<string, Count>;
    const { low, high } = values["cell_transistors"]!;
    expect(sumOf(breakdown, 0)).toBeLessThanOrEqual(high);
    expect(sumOf(breakdown, 1)).toBeGreaterThanOrEqual(low);
  });
});

describe("the counts of the periphery", () => {
  const { values } = catalogue.find("circuit", "periphery");

  test.each([
    ["sense_latch", "sa-strong"],
    ["sense_pair", "sa-latch"],
    ["sense_current", "sa-current"],
    ["pull_up", "precharge"],
    ["row_driver", "wl-driver"],
    ["plain_driver", "write-driver-sram"],
    ["limited_driver", "write-driver-res"],
    ["level_shifter", "level-shifter"],
    ["pump_stage", "pump-stage"],
    ["full_adder", "fa-mirror"],
    ["flip_flop", "dff-tg"],
    ["converter", "adc-sar"],
  ])("%s are those of the inventory %s", (part, circuit) => {
    const { value, low, high } = values[`${part}_transistors`]!;
    expect(inventories[circuit]!.transistors).toMatchObject({ value, low, high });
  });

  test("are those that the models take where both have them", () => {
    const shared = defaults.filter(({ name }) => values[name] !== undefined);
    expect(shared.length).toBeGreaterThan(10);
    for (const { name, value, low, high } of shared) {
      const { value: v, low: l, high: h } = values[name]!;
      expect([name, v, l, h]).toEqual([name, value, low, high]);
    }
  });
});
