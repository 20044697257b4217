/** Lines whose field writes: digit lines along the rows, bit lines along the columns. */
import { given, part } from "../define.ts";
import { chain } from "../effort.ts";
import { layoutArea } from "./layout.ts";

/** A switch at an end of a line that makes a field. @param line whether its part counts the line's current */
const fieldSwitch = (line: boolean) => {
  const switches = line ? "" : "field_polarities * ";
  const what = line ? "one switch and its chain" : "the switches at the far end, with their chains";
  return part({
    name: line ? "digit_line_switch" : "bit_line_return",
    title: line ? "Digit line switch" : "Bit line return",
    about:
      (line
        ? "A digit line has a switch at each of its ends: one to the source of the write current, " +
          "one to its return. "
        : "The direction of a bit line's current is the datum, so that its far end has a switch to " +
          "the return of the write current and one to its source; with a single direction it has " +
          "the return alone. At the near end stand its write switches. ") +
      "A switch is one wide device that carries the current at its slow corner, at a share of its " +
      "saturation current, with a chain of inverters that drives its gate.",
    formulas: {
      switch_width: given(
        "line_write_current / (access_drive_share * worst_drive_share * nmos_on_current)",
        "m",
        "width of a switch, at the worst corner",
        "common practice",
      ),
      ...chain({ name: "chain", load: "gate_capacitance * switch_width" }),
      transistors: given(`${switches}(1 + 2 * chain_stages)`, "1", `transistors of ${what}`),
      width: given(`${switches}(switch_width + chain_width)`, "m", `device widths of ${what}`),
      area: given(
        layoutArea("width", "transistors", "device_area_per_width", "wide_layout_share"),
        "m^2",
        `area of ${what}`,
      ),
      leakage: given("width / 2 * leakage_power_per_width", "W", `leakage of ${what}`),
      read_energy: given("0", "J", "idle in a read"),
      own_energy: given(
        "(switch_width + chain_width) * (gate_capacitance + drain_capacitance) * supply ^ 2",
        "J",
        "energy of the switch itself",
        "dic",
      ),
      write_energy: given(
        line ? "supply * line_write_current * write_time / 2 + own_energy" : "own_energy",
        "J",
        line
          ? "energy of the digit line's current, half of it at each end, and of the switch"
          : "energy of the switch; that of the bit line's current is counted with the cells",
        "dic",
      ),
      delay: given("chain_delay", "s", "delay until the switch is open", "logical-effort"),
    },
  });
};

export const digitLineSwitch = fieldSwitch(true);
export const bitLineReturn = fieldSwitch(false);
