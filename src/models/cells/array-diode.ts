import { formula } from "../define.ts";
import { transistorCell } from "./resistive.ts";

/** A switch over a junction in silicon: unselected rows bias theirs backwards. */
export const arrayDiodeCell = transistorCell(1, {
  name: "cell_array_diode",
  title: "One junction in silicon and one switch",
  about:
    "What is said of a transistor's gate holds for the row here, and its drain for the column: the " +
    "selected row falls, all others stay high. ",
  formulas: {
    cell_transistors: formula("1", "0", "transistors of the cell", "this project", {
      note: "a diode counts as none, and so does a bipolar transistor beneath it",
    }),
    column_swing: formula(
      "V",
      "read_voltage + read_junction_voltage",
      "by how much the column moves in a read",
    ),
    row_sink_current: formula(
      "A",
      "row_sink_share * switch_write_current",
      "current of one written cell that its row carries",
      "dic",
    ),
  },
});
