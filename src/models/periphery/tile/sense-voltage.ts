/** Sense amplifier of columns that the cell moves. */
import type { Sheet } from "../../../formulas/sheet.ts";
import { given, part } from "../define.ts";
import { costs, pair, regeneration } from "./latch.ts";

/** Amplifier of a column that the cell moves: a clocked latch. */
export const voltageSenseAmplifier: Sheet = part({
  name: "voltage_sense_amplifier",
  title: "Voltage sense amplifier",
  about:
    "A clocked latch with an input pair. The cell's signal current moves the column by the " +
    "stated swing, part of which the offset eats; then the latch regenerates the rest. The " +
    "enable comes from a replica that waits a guard time. The charge of the column is not in its " +
    "energy.",
  formulas: {
    allowed_offset: given(
      "offset_share * column_swing",
      "V",
      "offset that the swing leaves room for",
    ),
    ...pair,
    signal_time: given(
      "sense_guard * column_capacitance * column_swing / signal_current",
      "s",
      "time in which the signal current moves the column by its swing",
      "dic",
    ),
    start_difference: given(
      "max(column_swing - offset, 0.01 * column_swing)",
      "V",
      "difference that is left for the latch at the worst offset",
    ),
    margin: given("column_swing / offset", "1", "swing over the offset to beat"),
    ...regeneration,
    ...costs("sense_latch_transistors"),
    read_energy: given("latch_energy", "J", "energy of one decision"),
    write_energy: given("0", "J", "a write needs no decision"),
  },
});
