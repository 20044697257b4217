import { describe, expect, it } from "vitest";
import { modelOf, OXIDE_TRANSISTOR, quantitiesOf } from "./study.ts";

const CELLS = ["sram-6t", "dram-1t1c", OXIDE_TRANSISTOR] as const;

describe("what leaks during an access", () => {
  it("is the power at rest without refresh, for as long as the next access has to wait", () => {
    for (const cell of CELLS) {
      const q = quantitiesOf({ cell });
      const power = q("standby_power") - q("all_refresh_power");
      const read = power * Math.max(q("read_latency"), q("read_cycle"));
      const write = power * Math.max(q("write_latency"), q("read_cycle"));
      expect(q("leakage_read_energy") / read).toBeCloseTo(1, 12);
      expect(q("leakage_write_energy") / write).toBeCloseTo(1, 12);
    }
  });

  it("is a row of the breakdown of both energies, and the rest of it is the active energy", () => {
    const model = modelOf({ cell: "sram-6t" });
    const values = model.nominal();
    for (const access of ["read", "write"]) {
      const { parts } = model.totals.find(({ name }) => name === `${access}_energy`)!;
      const rest = parts.filter(({ part }) => part !== "leakage meanwhile");
      expect(parts.length - rest.length).toBe(1);
      const active = rest.reduce((sum, { quantity }) => sum + values.get(quantity)!, 0);
      expect(values.get(`active_${access}_energy`)! / active).toBeCloseTo(1, 12);
    }
  });

  // Textbook: E = C V^2 + I_off V t, in which t grows by a decade for each swing below the threshold.
  it("makes the energy of a read least at a supply near the threshold, not at the lowest", () => {
    const supplies = [1, 0.8, 0.6, 0.5, 0.4, 0.35, 0.3, 0.25];
    const reads = supplies.map((supply) =>
      quantitiesOf({ cell: "sram-8t", capacity: "1 Mib", supply: `${supply} V` }),
    );
    const energies = reads.map((q) => q("read_energy"));
    const least = energies.indexOf(Math.min(...energies));
    expect(supplies[least]).toBeGreaterThan(0.25);
    expect(supplies[least]).toBeLessThan(0.8);
    const active = reads.map((q) => q("active_read_energy"));
    for (let k = 1; k < supplies.length; k++) expect(active[k]).toBeLessThan(active[k - 1]!);
  });

  it("does not change what a die's supplies are made for", () => {
    const q = quantitiesOf({ cell: "dram-1t1c", die: { pads: "auto" } });
    const read = (q("active_read_energy") - q("pads_read_energy")) / q("read_cycle");
    const write = q("active_write_energy") / q("write_latency");
    const current = Math.max(read, write) / q("supply");
    expect(q("die_supplies_active_current") / current).toBeCloseTo(1, 12);
  });
});
