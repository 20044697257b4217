/** Amplifier of a column that a cell shares its charge with. */
import { given, part } from "../define.ts";
import { pair } from "./latch.ts";
import { layoutArea } from "./layout.ts";

const { latch_width: _, ...matched } = pair;

/** The cross-coupled latch between a column and the one it is compared with. */
export const chargeSenseAmplifier = part({
  name: "charge_sense_amplifier",
  title: "Charge sense amplifier",
  about:
    "A cross-coupled latch between a column and an equal one at rest: it decides and restores " +
    "the cell through the column, so that it has to move the whole column, and its own mismatch " +
    "is the offset. The columns' charge is not in its energy, nor is the equaliser (see the " +
    "precharge). The imbalance of the capacitances and of the drive of both sides is left out.",
  formulas: {
    allowed_offset: given(
      "offset_share * column_swing",
      "V",
      "offset that the shared charge leaves room for",
    ),
    ...matched,
    latch_width: given(
      "max(gate_width, pair_width)",
      "m",
      "width of one n-type device of the latch, the matched pair",
    ),
    signal_time: given(
      "sense_guard * column_capacitance * column_swing / signal_current",
      "s",
      "time in which the charge is shared",
      "dic",
    ),
    start_difference: given(
      "max(column_swing - offset, 0.01 * column_swing)",
      "V",
      "difference that is left for the latch at the worst offset",
    ),
    margin: given("column_swing / offset", "1", "signal over the offset to beat"),
    latch_conductance: given(
      "transconductance * latch_width / 2",
      "A/V",
      "transconductance of the pair while the columns are near half of the supply",
      "tm",
      "velocity-saturated devices; at half of the supply half of their drive is left",
    ),
    latch_capacitance: given(
      "(1 + 1 / p_to_n_current) * latch_width * (gate_capacitance + 2 * drain_capacitance)",
      "F",
      "capacitance that the latch itself hangs on a column",
      "dic",
    ),
    latch_time_constant: given(
      "(column_capacitance + latch_capacitance) / latch_conductance",
      "s",
      "time in which the difference grows by e",
      "dic",
    ),
    regeneration_time: given(
      "latch_time_constant * log(max(exp(1), supply / start_difference))",
      "s",
      "time of the latch from its starting difference to the supply",
      "dic",
    ),
    delay: given(
      "signal_time + regeneration_time",
      "s",
      "time from the selected row to columns at their levels",
    ),
    transistors: given(
      "charge_latch_transistors",
      "1",
      "transistors of one amplifier, with its share of the devices that switch the latch on",
    ),
    width: given("2 * latch_width * (1 + 1 / p_to_n_current)", "m", "device widths of both pairs"),
    area: given(
      layoutArea(
        "width * (1 + pair_length / contacted_gate_pitch) + max(0, transistors - 4) * gate_width",
        "transistors",
        "device_area_per_width",
        "pitch_layout_share",
      ),
      "m^2",
      "area of one amplifier",
      "this project",
      "a matched device is longer than others by its channel",
    ),
    leakage: given(
      "max(0, transistors - 4) * transistor_leakage",
      "W",
      "leakage of one amplifier",
      "this project",
      "at rest both columns and both ends of the latch lie at one level: only what switches it on leaks",
    ),
    read_energy: given(
      "(2 * latch_capacitance + max(0, transistors - 4) * unit_gate_input_capacitance) * supply ^ 2",
      "J",
      "energy of one decision beside the columns' charge",
      "dic",
    ),
    write_energy: given("read_energy", "J", "energy of one decision: a write restores the row"),
  },
});
