import { BOUNDARIES, BOUNDARY_MEANINGS } from "../../../estimate/ledger.ts";
import type { PartUse } from "../../../models/periphery/index.ts";
import { cells } from "../../../models/registry.ts";
import type { Block } from "../../document/document.ts";
import { heading, paragraph, text } from "../../document/make.ts";

/** The kinds of cells with a transistor in each cell; those without are a selector and a scheme. */
export function cellBlocks(): Block[] {
  return [
    heading("Kinds of cells", 2),
    paragraph(
      "A cell without a transistor of its own is composed of a switch, a kind of selector and a " +
        "bias scheme; see the chapters on selectors and on the crossbar.",
    ),
    {
      kind: "table",
      name: "cells",
      columns: [
        { name: "cell", title: "cell" },
        { name: "sensing", title: "read by" },
        { name: "structure", title: "structure" },
        { name: "models", title: "models" },
      ],
      rows: Object.entries(cells).map(([name, { sensing, structure, instances }]) => [
        text(name),
        text(sensing),
        text(
          Object.entries(structure)
            .filter(([, has]) => has)
            .map(([what]) => WORDS[what as keyof typeof structure])
            .join(", "),
        ),
        text(instances.map(({ of }) => of.name).join(", ")),
      ]),
    },
  ];
}

const WORDS = {
  transistorInCell: "transistor in the cell",
  differential: "pair of columns",
  biased: "unselected lines held",
  refreshed: "refreshed",
  erasedByBlock: "erased by block",
  pulsed: "written by verified pulses",
  fieldWritten: "written by the field of two wires",
  rowSinks: "rows carry the cells' current",
  memoryProcess: "made in a memory process",
} as const;

/** What counts as a transistor where, and how many of each part there are. */
export function countingBlocks(parts: readonly PartUse[]): Block[] {
  return [
    heading("Counting", 2),
    paragraph("Each boundary holds what the ones before it hold."),
    {
      kind: "table",
      name: "boundaries",
      columns: [
        { name: "boundary", title: "boundary" },
        { name: "meaning", title: "what it counts" },
      ],
      rows: BOUNDARIES.map((boundary) => [text(boundary), text(BOUNDARY_MEANINGS[boundary])]),
    },
    {
      kind: "table",
      name: "parts",
      caption: "Parts of the periphery",
      columns: ["part", "per", "how many", "active in a read", "active in a write", "model"].map(
        (title) => ({ name: title.replaceAll(" ", "_"), title }),
      ),
      rows: parts.map(({ name, level, count, activeRead, activeWrite, sheet }) =>
        [name, level, count, activeRead, activeWrite, sheet.name].map(text),
      ),
    },
  ];
}
