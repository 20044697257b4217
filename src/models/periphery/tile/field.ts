/** Digit lines: the wires along the rows whose field writes together with that of a column. */
import { given, part } from "../define.ts";
import { chain } from "../effort.ts";
import { layoutArea } from "./layout.ts";

/** The switch of one digit line. */
export const digitLineSwitch = part({
  name: "digit_line_switch",
  title: "Digit line switch",
  about:
    "One wide device for each row, in saturation at a share of its current, opens the digit line " +
    "to the current that a write sends along it; the source of that current is the write " +
    "supply. A chain of inverters drives its gate.",
  formulas: {
    switch_width: given(
      "line_write_current / (access_drive_share * nmos_on_current)",
      "m",
      "width of the switch",
      "common practice",
    ),
    ...chain({ name: "chain", load: "gate_capacitance * switch_width" }),
    transistors: given("1 + 2 * chain_stages", "1", "transistors of one switch and its chain"),
    width: given("switch_width + chain_width", "m", "device widths of one switch and its chain"),
    area: given(
      layoutArea("width", "transistors", "device_area_per_width", "wide_layout_share"),
      "m^2",
      "area of one switch and its chain",
    ),
    leakage: given("width / 2 * leakage_power_per_width", "W", "leakage of one switch"),
    read_energy: given("0", "J", "idle in a read"),
    write_energy: given(
      "supply * line_write_current * write_time + width * (gate_capacitance + " +
        "drain_capacitance) * supply ^ 2",
      "J",
      "energy of the digit line's current, and of the switch itself",
      "dic",
    ),
    delay: given("chain_delay", "s", "delay until the switch is open", "logical-effort"),
  },
});
