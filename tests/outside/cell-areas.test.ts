// Published cell areas against the area rules, nothing tuned: technology, switch and baseline
// files as any user gets them. A paper's own F is its own; areas are compared in square
// micrometres.
import { expect, test } from "vitest";
import { cells, processInstances } from "../../src/models/registry.ts";
import { entry, evaluate, ownFigures, technology, type Values } from "../models/evaluate.ts";

function area(kind: string, name: string, path: string, over: Values = {}): number {
  const got = evaluate([...processInstances, ...cells[kind]!.instances], {
    ...technology(name),
    row_capacitance: 1e-13,
    column_capacitance: 1e-13,
    column_resistance: 100,
    ...entry(path),
    ...ownFigures(kind),
    ...over,
  });
  return got["cell_area"]! * 1e12;
}

const median = (list: readonly number[]) => [...list].sort((a, b) => a - b)[list.length >> 1]!;
const noted = { sram_6t_cell_area: 0 };

// [published um2, technology, where]
const STATIC = [
  [4.65, "cmos-180", "a 130 nm generation logic technology paper's stated ratio"],
  [2.14, "cmos-130", "the same paper's own cell"],
  [
    1.0,
    "cmos-90",
    "A 90 nm logic technology featuring 50 nm strained silicon channel transistors, IEDM 2002",
  ],
  [0.57, "cmos-65", "A 65nm logic technology featuring 35nm gate lengths, IEDM 2004"],
  [0.346, "cmos-45", "A 3.8 GHz 153 Mb SRAM design in 45 nm high-k metal gate CMOS, ISSCC 2008"],
  [0.15, "cmos-32", "A 32nm CMOS low power SoC platform technology, IEDM 2007"],
  [0.127, "cmos-28", "28 nm high-k metal-gate foundry technology papers, IEDM 2009"],
  [0.092, "cmos-22", "A 4.6GHz 162Mb SRAM design in 22nm tri-gate CMOS, ISSCC 2012"],
  [0.0588, "cmos-16", "A 14nm logic technology featuring 2nd-generation FinFET, IEDM 2014"],
  [0.027, "cmos-7", "A 7nm CMOS platform technology featuring 4th generation FinFET, IEDM 2016"],
  [
    0.021,
    "cmos-5",
    "5nm CMOS production technology platform featuring full-fledged EUV, IEDM 2019",
  ],
] as const;

test("the half-pitch rule gives published 6T cells within 2, four of five within 1.3", () => {
  const ratios = STATIC.map(([published, name]) => {
    const ratio = area("sram-6t", name, "baselines/sram-6t", noted) / published;
    expect(ratio, name).toBeGreaterThan(0.5);
    expect(ratio, name).toBeLessThan(2);
    return ratio;
  });
  expect(ratios.filter((r) => r > 1 / 1.3 && r < 1.3).length / ratios.length).toBeGreaterThan(0.8);
  expect(median(ratios)).toBeGreaterThan(0.8);
  expect(median(ratios)).toBeLessThan(1.25);
});

test("where the technology has its published 6T cell, that is the area", () => {
  expect(area("sram-6t", "cmos-65", "baselines/sram-6t")).toBeCloseTo(0.57, 12);
  expect(area("sram-8t", "cmos-65", "baselines/sram-8t")).toBeCloseTo(0.57 * 1.3, 12);
});

/** Pitches of the low-power process of fins that the part's title names (22 nm lithography process, 2018). */
const LOW_POWER_FINS = {
  contacted_gate_pitch: 108e-9,
  metal_half_pitch: 45e-9,
  feature: 45e-9,
};

/** The planar low-power process of 22 nm, which is laid over 28 nm. */
const LOW_POWER_PLANAR = (() => {
  const own = entry("technology/cmos-22-low-power");
  return { ...own, feature: own["metal_half_pitch"]!, nominal_supply: own["supply"]! };
})();

// Cells of logic processes with a transistor: the switch is typical of its class, so that current
// and width are too.
const EMBEDDED: readonly [number, string, string, string, Values?][] = [
  [0.022, "cmos-16", "oxide-filament", "A 14nm-FinFET 1Mb embedded 1T1R RRAM, ISSCC 2021"],
  [0.07, "cmos-45", "oxide-bilayer", "A 1.4Mb 40-nm embedded ReRAM macro, A-SSCC 2019"],
  [
    0.338,
    "cmos-130",
    "metal-bridge",
    "A 0.13um 8Mb logic based CuxSiyO resistive memory, VLSI 2012",
  ],
  [
    0.0486,
    "cmos-22",
    "magnetic-tunnel",
    "A 7Mb STT-MRAM in 22nm FinFET technology, ISSCC 2019",
    LOW_POWER_FINS,
  ],
  [
    0.046,
    "cmos-28",
    "magnetic-tunnel",
    "A 22nm 32Mb embedded STT-MRAM, ISSCC 2020",
    LOW_POWER_PLANAR,
  ],
];

test("embedded one-transistor cells are within 1.6 of the published, the median within 1.25", () => {
  const ratios = EMBEDDED.map(([published, name, device, , process]) => {
    const ratio = area("resistive-transistor", name, `switches/${device}`, process) / published;
    expect(ratio, `${name} ${device}`).toBeGreaterThan(1 / 1.6);
    expect(ratio, `${name} ${device}`).toBeLessThan(1.6);
    return ratio;
  });
  expect(median(ratios)).toBeGreaterThan(0.8);
  expect(median(ratios)).toBeLessThan(1.25);
});

test("cells of memory processes are their own process's squares of F", () => {
  // A write current that the least device carries leaves the least cell: A 16Gb ReRAM in 27nm
  // technology, ISSCC 2014: 6 F2; A 4Gb LPDDR2 STT-MRAM, ISSCC 2017: 9 F2, 90 nm by 90 nm
  const dense = (feature: number, selector_least_cell_squares: number) =>
    area("resistive-array-transistor", "cmos-28", "switches/metal-bridge", {
      feature,
      selector_least_cell_squares,
      current_limit: 10e-6,
    });
  expect(dense(27e-9, 6)).toBeCloseTo(0.004374, 12);
  expect(dense(30e-9, 9)).toBeCloseTo(0.0081, 12);
  // 1.2V 1.6Gb/s 56nm 6F2 4Gb DDR3 SDRAM, ISSCC 2009; A 390-mm2 1-Gb DDR SDRAM, JSSC 1999: 8 F2 at
  // 175 nm
  const dram = (feature: number, cell_area_in_feature_squared: number) =>
    area("dram-1t1c", "cmos-65", "baselines/dram-1t1c", { feature, cell_area_in_feature_squared });
  expect(dram(56e-9, 6)).toBeCloseTo(0.018816, 12);
  expect(dram(175e-9, 8)).toBeCloseTo(0.245, 12);
});

test("a write current beyond the least device widens the cell by the width that it needs", () => {
  // 50 uA x 1.3 at 0.75 of 400 A/m: 217 nm of channel, 108 nm on the layout, 27 nm beside it.
  const wide = area("resistive-array-transistor", "cmos-28", "switches/metal-bridge", {
    feature: 27e-9,
    current_limit: 50e-6,
  });
  expect(wide).toBeCloseTo((65e-6 / 300 / 2 + 27e-9) * 81e-9 * 1e12, 12);
});

test("field-written cells of three papers are within 1.5 of the published, drawn by their lines", () => {
  // 350 by 700 nm element, 250 nm half pitch of the 180 nm node, 100 nm enclosure: bit line 900 nm
  // and space 250 nm; digit line 550 nm, space, landing of 450 nm, space. Nothing is tuned.
  const predicted = area("resistive-field-written", "cmos-180", "switches/magnetic-tunnel");
  expect(predicted).toBeCloseTo(1.15 * 1.5, 12);
  for (const published of [
    1.4, // A high-speed 128-kb MRAM core for future universal memory applications, JSSC 2004
    1.42, // A 16-Mb MRAM featuring bootstrapped write drivers, JSSC 2005
    1.55, // A 4-Mb 0.18-um 1T1MTJ toggle MRAM with balanced three input sensing scheme, JSSC 2005
  ]) {
    expect(predicted / published).toBeLessThan(1.5);
    expect(predicted / published).toBeGreaterThan(1 / 1.5);
  }
});

test("embedded dynamic cells are within a factor of 1.3 of the published ones", () => {
  // A 45 nm SOI embedded DRAM macro, JSSC 2011; 0.026um2 high performance embedded DRAM in 22nm,
  // IEDM 2014. The share of the 6T cell in the catalogue was made from these two, so that this
  // only says how far apart they are.
  for (const [published, name] of [
    [0.067, "cmos-45"],
    [0.026, "cmos-22"],
  ] as const) {
    const ratio = area("embedded-dram-1t1c", name, "baselines/embedded-dram-1t1c") / published;
    expect(ratio).toBeGreaterThan(1 / 1.3);
    expect(ratio).toBeLessThan(1.3);
  }
});
