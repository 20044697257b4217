/**
 * The check data recomputed from the formulas that stand beside it: a slip in copying would make
 * other tests check against a wrong number. Published cases (10-bit ratioed decoder, 7-bit tree)
 * are from worked solutions of a textbook.
 */
import { readFileSync } from "node:fs";
import { load } from "js-yaml";
import { describe, expect, test } from "vitest";
import { SHARED } from "./shared.ts";

function checksOf<T>(name: string): T {
  return load(readFileSync(new URL(`checks/${name}.yaml`, SHARED), "utf8")) as T;
}

interface Decoders {
  rows: {
    address_bits: number;
    flat: number;
    predecoded: { groups: number[]; transistors: number }[];
  }[];
  published_checks: { case: string; transistors?: number }[];
}

describe("row decoders", () => {
  const { rows, published_checks: published } = checksOf<Decoders>("row-decoders");

  test.each(rows)("of $address_bits bits have the counts of the formulas", (row) => {
    const n = row.address_bits;
    expect(row.flat).toBe(2 ** n * (2 * n + 2) + 2 * n);
    for (const { groups, transistors } of row.predecoded) {
      const predecoders = groups.reduce((sum, g) => sum + 2 ** g * (2 * g + 2), 0);
      expect(transistors).toBe(2 * n + predecoders + 2 ** n * (2 * groups.length + 2));
    }
  });

  test("keep the two counts that a textbook's solutions print", () => {
    // Ratioed NOR decoder of 10 bits: 1024 rows of 11, and 20 inverters. Tree of 7 levels: 254 and
    // 14 inverters.
    expect(published.map(({ transistors }) => transistors)).toEqual([
      1024 * 11 + 20 * 2,
      2 ** 8 - 2 + 14 * 2,
      undefined,
    ]);
  });
});

interface Saved {
  rows: {
    cmos_function: string;
    cmos_transistors: [number, number];
    resistive_devices: number;
    remaining_transistors: [number, number];
    shared_overhead_per_function: [number, number];
    net_removed_per_device: { low: number; high: number };
  }[];
}

describe("transistors saved per switch", () => {
  const { rows } = checksOf<Saved>("transistors-saved");

  test.each(rows)("$cmos_function: what goes less what stays, over the switches", (row) => {
    const [fewest, most] = row.cmos_transistors;
    const [leastLeft, mostLeft] = row.remaining_transistors;
    const [leastShared, mostShared] = row.shared_overhead_per_function;
    const low = (fewest - mostLeft - mostShared) / row.resistive_devices;
    const high = (most - leastLeft - leastShared) / row.resistive_devices;
    // Printed with three digits.
    expect(Math.abs(row.net_removed_per_device.low - low)).toBeLessThan(
      0.005 * Math.abs(low) + 1e-9,
    );
    expect(Math.abs(row.net_removed_per_device.high - high)).toBeLessThan(
      0.005 * Math.abs(high) + 1e-9,
    );
  });
});

interface Wires {
  computed: { points: { width_nm: number; p: number; R: number; resistivity: number }[] };
}

describe("computed wire resistivities", () => {
  const { points } = checksOf<Wires>("wire-resistivity").computed;

  // Additive formula of wires2005 with height 2 w, grain w, C = 1.2, 1.725e-8 ohm m and 38.8 nm.
  test.each(points)("at $width_nm nm with p $p and R $R follow the formula", (point) => {
    const { width_nm: width, p, R, resistivity } = point;
    const path = 38.8;
    const a = ((path / width) * R) / (1 - R);
    const grain = 1 / (3 * (1 / 3 - a / 2 + a ** 2 - a ** 3 * Math.log(1 + 1 / a)));
    const surface = (3 / 8) * 1.2 * (1 - p) * (1 / width + 1 / (2 * width)) * path;
    expect(Math.abs((1.725e-8 * (grain + surface)) / resistivity - 1)).toBeLessThan(5e-6);
  });
});
