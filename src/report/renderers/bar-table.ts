import { engineeringPrefix } from "../../quantities/display.ts";
import type { Bars, Cell, Table } from "../document/document.ts";
import { quantity, share, text } from "../document/make.ts";

/** The same breakdown as a table: one row for each part of each bar, largest first. */
export function barTable(bars: Bars): Table {
  const rows: Cell[][] = [];
  for (const bar of bars.bars) {
    const total = bar.parts.reduce((sum, part) => sum + part.value, 0);
    const unit = bar.unit ?? bars.unit;
    // The parts of one total are read against each other: one prefix for all. Counts have no unit to show it with.
    const shown = unit === "1" ? {} : { show: engineeringPrefix([total], unit).text };
    const parts = [...bar.parts].sort((a, b) => b.value - a.value);
    for (const part of parts) {
      rows.push([
        text(bar.label),
        text(part.part),
        { ...quantity(unit, part.value), ...shown },
        total > 0 ? share(part.value / total) : { kind: "none" },
      ]);
    }
  }
  return {
    kind: "table",
    name: bars.name,
    ...(bars.caption === undefined ? {} : { caption: bars.caption }),
    columns: [
      { name: "design", title: "design" },
      { name: "part", title: "part" },
      { name: "value", title: "value" },
      { name: "share", title: "share" },
    ],
    rows,
  };
}
