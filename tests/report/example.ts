import type { Document } from "../../src/report/document/document.ts";

/** Invented numbers: only the look is tested with them. */
export const EXAMPLE: Document = {
  title: "Working memory of the Tarn buoy",
  subtitle: "1 Mib · 32-bit words · 65 nm · 10 °C · 95 % intervals from parameters",
  blocks: [
    {
      kind: "comparison",
      name: "comparison",
      designs: ["static", "one-transistor", "bare-crossbar", "floating-gate"],
      baseline: "static",
      rows: [
        {
          name: "macro_area",
          label: "macro area",
          unit: "m^2",
          figures: [
            { value: 0.82e-6, low: 0.74e-6, high: 0.93e-6 },
            { value: 0.31e-6, low: 0.25e-6, high: 0.39e-6, ratio: { value: 0.378 } },
            { value: 0.19e-6, low: 0.13e-6, high: 0.28e-6, ratio: { value: 0.232 } },
            { value: 0.4e-6, low: 0.3e-6, high: 0.6e-6, ratio: { value: 0.488 } },
          ],
        },
        {
          name: "read_latency",
          label: "read latency",
          unit: "s",
          figures: [
            { value: 2.1e-9, low: 1.7e-9, high: 2.8e-9 },
            { value: 6.4e-9, low: 4.9e-9, high: 9.0e-9, ratio: { value: 3.05 } },
            { value: 31e-9, low: 19e-9, high: 52e-9, ratio: { value: 14.8 } },
            undefined,
          ],
        },
        {
          name: "transistors",
          label: "transistors",
          unit: "1",
          figures: [{ value: 6.9e6 }, { value: 1.4e6 }, { value: 0.36e6 }, { value: 1.2e6 }],
        },
      ],
    },
    {
      kind: "bars",
      name: "area_parts",
      caption: "Where the area goes",
      unit: "m^2",
      bars: [
        {
          label: "static",
          parts: [
            { part: "cells", value: 0.58e-6 },
            { part: "sense amplifiers", value: 0.08e-6 },
            { part: "row drivers", value: 0.07e-6 },
            { part: "column multiplexers", value: 0.05e-6 },
            { part: "control", value: 0.04e-6 },
          ],
        },
        {
          label: "one-transistor",
          parts: [
            { part: "cells", value: 0.13e-6 },
            { part: "write drivers", value: 0.06e-6 },
            { part: "all else", value: 0.12e-6 },
          ],
        },
      ],
    },
    {
      kind: "note",
      level: "caution",
      text: "Early estimate, not sign-off: use foundry data before you commit.",
    },
    { kind: "heading", level: 1, text: "Row delay" },
    {
      kind: "formula",
      text: "row_delay = 0.38 * row_resistance * row_capacitance",
      latex: "t_\\mathrm{row} = 0.38\\,R\\,C",
      numbers: "0.38 * 2.5 kΩ * 0.2 pF",
      result: { kind: "quantity", unit: "s", value: 1.9e-10 },
    },
    {
      kind: "indented",
      blocks: [
        {
          kind: "pairs",
          pairs: [
            {
              key: "row_resistance",
              value: { kind: "quantity", unit: "ohm", value: 2500, low: 2000, high: 3100 },
              remark: "row wire, 65 nm local level (wiring1983)",
            },
            { key: "row_capacitance", value: { kind: "quantity", unit: "F", value: 2e-13 } },
          ],
        },
      ],
    },
    {
      kind: "table",
      name: "switches",
      caption: "Switches",
      columns: [
        { name: "name", title: "name" },
        { name: "on_resistance", title: "on resistance" },
        { name: "about", title: "about" },
      ],
      rows: [
        [
          { kind: "text", text: "oxide-bilayer" },
          { kind: "quantity", unit: "ohm", value: 6000, low: 1000, high: 20000 },
          {
            kind: "text",
            text: "A sub-oxide with a thin stoichiometric oxide on it, formed once, then set and reset",
          },
        ],
      ],
    },
    { kind: "list", items: ["First source, journal, 1999", "Second source, journal, 2001"] },
  ],
};
