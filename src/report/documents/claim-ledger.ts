import type { SideModel } from "../../estimate/functions/index.ts";
import { BOUNDARIES, countAt } from "../../estimate/ledger.ts";
import { derive } from "../../formulas/derive.ts";
import type { TestedClaim } from "../../studies/claim/claims.ts";
import type { Block, Table } from "../document/document.ts";
import { quantity, text } from "../document/make.ts";

/** Both ledgers of a claim: each part with its formula, its numbers and its count. */
export function ledgerBlocks({ name, sides }: TestedClaim): Block[] {
  return [
    ledgerTable(`${name}_hybrid`, "Transistors of the hybrid form", sides.hybrid),
    ledgerTable(`${name}_baseline`, "Transistors of the all-CMOS form", sides.baseline),
  ];
}

function ledgerTable(name: string, caption: string, side: SideModel): Table {
  const values = side.everything();
  const row = (boundary: string, part: string, name_: string) => {
    const { formula } = derive(side.program, values, name_, 0);
    return [
      text(boundary),
      text(part),
      text(formula === undefined ? "" : `${formula.text} = ${formula.numbers}`),
      quantity("1", values.get(name_)!),
    ];
  };
  const rows = BOUNDARIES.flatMap((boundary) => [
    ...side.rows
      .filter((one) => one.boundary === boundary && values.get(one.quantity) !== 0)
      .map((one) => row(boundary, one.part, one.quantity)),
    row(boundary, `up to the boundary ${boundary}`, countAt(boundary)),
  ]);
  return {
    kind: "table",
    name: `ledger_${name.replaceAll("-", "_")}`,
    caption,
    columns: [
      { name: "boundary", title: "boundary" },
      { name: "part", title: "part" },
      { name: "formula", title: "formula" },
      { name: "transistors", title: "transistors", align: "right" },
    ],
    rows,
  };
}
