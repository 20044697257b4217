import fc from "fast-check";
import { expect, test } from "vitest";
import { SCHEMES } from "../../../src/models/crossbar/contract.ts";
import {
  type CellModel,
  cells,
  crosspointCellModel,
  modelDefaults,
  processInstances,
  wireInstance,
} from "../../../src/models/registry.ts";
import { biasSheets, type SelectorKind } from "../../../src/models/selector/bias.ts";
import {
  entry,
  evaluate,
  ownFigures,
  selectorEntry,
  technologies,
  technology,
} from "../evaluate.ts";

const SELECTORS: Readonly<Record<SelectorKind, string>> = {
  none: "none",
  diode: "diode-silicon",
  threshold: "threshold-chalcogenide",
  tunnel: "nonlinear-tunnel",
  mixed_conductor: "mixed-conductor",
  complementary: "complementary-pair",
};

/** A whole design's figures, each its low, its middle or its high. */
function drawn(name: string, path: string, selector: string, pick: (name: string) => number) {
  const files = (["low", "value", "high"] as const).map((which) => ({
    ...technology(name, which),
    ...Object.fromEntries(modelDefaults.map((one) => [one.name, one[which]])),
    ...entry(path, which),
    ...selectorEntry(selector, which),
  }));
  return Object.fromEntries(
    Object.keys(files[1]!).map((key) => [key, files[pick(key)]![key] ?? files[1]![key]!]),
  );
}

function kinds(): (readonly [string, CellModel, string, string])[] {
  const own = Object.entries(cells).map(([kind, model]) => {
    const path = kind.startsWith("resistive") ? "switches/oxide-bilayer" : `baselines/${kind}`;
    return [kind, model, path, "none"] as const;
  });
  const crossed = (Object.keys(biasSheets) as SelectorKind[]).flatMap((selector) =>
    SCHEMES.map((scheme) => {
      const model = crosspointCellModel(selector, { read: scheme, write: scheme });
      return [
        `${selector} ${scheme}`,
        model,
        "switches/oxide-bilayer",
        SELECTORS[selector],
      ] as const;
    }),
  );
  return [...own, ...crossed];
}

test.each(kinds())("%s is sound at the corners of its ranges", (kind, model, path, selector) => {
  fc.assert(
    fc.property(
      fc.constantFrom(...technologies),
      fc.infiniteStream(fc.integer({ min: 0, max: 2 })),
      (name, picks) => {
        const got = evaluate(
          [
            ...processInstances,
            wireInstance("row_wire_", "local"),
            wireInstance("column_wire_", "local"),
            ...model.instances,
          ],
          {
            ...drawn(name, path, selector, () => picks.next().value),
            ...ownFigures(kind),
            row_capacitance: 1e-13,
            column_capacitance: 1e-13,
            column_resistance: 100,
          },
        );
        for (const quantity of ["cell_area", "row_load", "write_time", "write_cell_energy"]) {
          expect(got[quantity]!, quantity).toBeGreaterThan(0);
        }
        for (const quantity of ["cell_on_current", "cell_off_current", "column_leak_current"]) {
          expect(got[quantity]!, quantity).toBeGreaterThanOrEqual(0);
        }
      },
    ),
    { seed: 20261125, numRuns: 40 },
  );
});
