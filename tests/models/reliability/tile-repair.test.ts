import { describe, expect, it } from "vitest";
import { patternYield, repairablePatterns } from "../../../src/models/reliability/repair.ts";
import { repairedLoss, unrepairedLoss } from "../../../src/models/reliability/tile-repair.ts";
import { binomialTail } from "../../../src/numerics/special/discrete.ts";

describe("tiles with spare lines", () => {
  it("never claims less loss than the count of all patterns of a small tile", () => {
    for (const [rows, columns, spareRows, spareColumns] of [
      [3, 3, 1, 1],
      [3, 2, 1, 1],
      [2, 4, 1, 0],
    ] as const) {
      for (const cellFault of [1e-3, 0.01, 0.1]) {
        // All lines, spares included, of which so many may be given up.
        const counts = repairablePatterns(
          rows + spareRows,
          columns + spareColumns,
          spareRows,
          spareColumns,
        );
        const exact = patternYield(counts, cellFault).lost;
        const bound = repairedLoss({
          rows,
          columns,
          spareRows,
          spareColumns,
          cellFault,
          lineFault: 0,
        });
        expect(bound).toBeGreaterThanOrEqual(exact * (1 - 1e-12));
        // In tiles this small most faults share lines; each counts as if it took one of its own.
        if (cellFault === 1e-3) expect(bound / exact).toBeLessThan(10);
      }
    }
  });

  it("is exact for broken lines alone", () => {
    const tile = { rows: 64, columns: 32, spareRows: 2, spareColumns: 1, cellFault: 0 };
    const lineFault = 1e-5;
    const rows = binomialTail(66, 3, lineFault);
    const columns = binomialTail(33, 2, lineFault);
    const lost = repairedLoss({ ...tile, lineFault });
    expect(lost / (rows + (1 - rows) * columns)).toBeCloseTo(1, 12);
  });

  it("is the loss without repair where there are no spares", () => {
    const tile = { rows: 64, columns: 64, spareRows: 0, spareColumns: 0 };
    for (const [cellFault, lineFault] of [
      [1e-15, 1e-14],
      [1e-5, 0],
      [0, 1e-4],
      [1e-4, 1e-3],
    ] as const) {
      const all = { ...tile, cellFault, lineFault };
      expect(repairedLoss(all) / unrepairedLoss(all)).toBeCloseTo(1, 11);
    }
  });
});
