import { expect, it } from "vitest";
import { Catalogue } from "../../src/catalogue/index.ts";
import { resolveDesign } from "../../src/estimate/design.ts";
import { folderLoader } from "../../src/io/catalogue.ts";
import { studyTables } from "../../src/io/tables.ts";
import { readStudy } from "../../src/schema/read-study.ts";
import { quantitiesOf } from "./study.ts";

function cautionsAt(supply: string): readonly string[] {
  const text = `title: Supply
technology: cmos-65
designs:
  a: {cell: sram-6t, capacity: 64 kib, word: 32 bit, supply: ${supply}}
`;
  const study = readStudy(text, "study.yaml", { tables: studyTables() });
  return resolveDesign(study, "a", new Catalogue(folderLoader())).cautions;
}

const about = (supply: string) => cautionsAt(supply).filter((text) => text.includes("supply of"));

it("says nothing of a supply between a tenth of a volt above threshold and a fifth above nominal", () => {
  for (const supply of ["0.45 V", "0.6 V", "1 V", "1.15 V"]) expect(about(supply)).toEqual([]);
});

it("cautions near the threshold and far above the technology's own supply", () => {
  expect(about("0.3 V")[0]).toContain("near or below the threshold of 330 mV");
  expect(about("0.4 V")[0]).toContain("near or below the threshold of 330 mV");
  expect(about("1.3 V")[0]).toContain("far above the technology's own of 1 V");
});

it("an array below threshold is read in microseconds, and slower with each step down", () => {
  let last = 0;
  for (const supply of ["1 V", "0.5 V", "0.35 V", "0.3 V", "0.25 V"]) {
    const tile = { rows: 32, columns: 64 };
    const latency = quantitiesOf({ cell: "sram-8t", supply, tile })("read_latency");
    expect(latency).toBeGreaterThan(1.5 * last);
    last = latency;
  }
  expect(last).toBeGreaterThan(1e-7);
});

it("a lower supply is slower and leaks less, and at the technology's own nothing moves", () => {
  const at = (supply?: string) =>
    quantitiesOf({ cell: "sram-6t", ...(supply !== undefined && { supply }) });
  const [own, same, low] = [at(), at("1 V"), at("0.6 V")];
  for (const name of ["read_latency", "standby_power", "read_energy"])
    expect(same(name), name).toBe(own(name));
  expect(low("read_latency") / own("read_latency")).toBeGreaterThan(1.5);
  expect(low("standby_power") / own("standby_power")).toBeLessThan(0.3);
  // Charge falls with the square of the supply, but for the columns' swing, which is given.
  expect(low("route_wire_energy") / own("route_wire_energy")).toBeCloseTo(0.36, 1);
});
