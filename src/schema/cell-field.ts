/** The definition of a cell: the name of an all-CMOS one, or switches with their selector. */

import { choice, either, entry, group, whole } from "./define.ts";
import type { Field } from "./field.ts";
import type { Cell, CellForm } from "./study.ts";
import type { StudyTables } from "./tables.ts";

const FORMS: Readonly<Record<CellForm, string>> = {
  single: "one switch, or several bits in one switch",
  complementary: "two switches in series, one of them off",
  differential: "two switches that hold a bit and its inverse",
  "two-switch-match": "two switches that compare a ternary symbol",
  shadow: "a static cell or flip-flop with switches that keep its state",
};

export function cellField(tables: StudyTables): Field<Cell> {
  const grouped = group<Cell>("a cell", {
    baseline: entry("baseline", "an all-CMOS cell", tables.baseline),
    switch: entry("switch", "the resistance switch", tables.switch),
    selector: entry("selector", "what is in series with the switch", tables.selector),
    bits: whole("bits that one cell stores", {
      maximum: 8,
      example: "1",
      default: { value: "1", source: "common practice" },
    }),
    form: choice("how switches make a cell", FORMS, {
      default: { value: "single", source: "common practice" },
    }),
  });
  const plain = entry("baseline", "the name of an all-CMOS cell", tables.baseline);
  // The plain form is turned into `{baseline}` when the study is put together.
  return either("what stores one symbol", plain, grouped, { example: "sram-6t" }) as Field<Cell>;
}
