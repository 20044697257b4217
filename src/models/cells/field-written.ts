import { formula } from "../define.ts";
import { transistorCell } from "./resistive.ts";

/** A magnetic cell that the field of two crossing wires writes, read through a small transistor. */
export const fieldWrittenCell = transistorCell(1, {
  name: "cell_field_written",
  title: "One transistor and one field-written junction",
  about:
    "A current in the digit line below and one in the bit line above switch the element where " +
    "both cross; neither flows through the cell, so that nothing limits it there and no pulse " +
    "is verified. ",
  formulas: {
    write_row_swing: formula("V", "0", "swing of the row in a write", "this project", {
      note: "the row opens the transistor for reads only; the digit line is a part of its own",
    }),
    write_current: formula("A", "line_write_current", "current of the bit line in a write"),
    write_voltage: formula(
      "V",
      "line_write_current * column_resistance",
      "voltage along the bit line in a write",
      "dic",
      { note: "of a wire as wide as the level's; the field line is wider" },
    ),
    write_time: formula("s", "max(set_time, reset_time)", "pulse of one write"),
    write_cell_energy: formula(
      "J",
      "supply * line_write_current * write_time / bits_per_cell",
      "energy of the bit line's current per written bit",
      "dic",
      { note: "that of the digit line is counted with its drivers" },
    ),
  },
});
