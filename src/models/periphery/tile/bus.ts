/** From a tile's amplifiers to the wires that leave the bank. */
import { given, part } from "../define.ts";
import { layoutArea } from "./layout.ts";

/** Three-state driver behind one sense amplifier. */
export const dataDriver = part({
  name: "data_driver",
  title: "Data driver",
  about:
    "Puts an amplifier's bit on a wire that tiles and banks share: two gates and a pair of wide " +
    "devices, sized for the first segment of the route. Its delay is that of the route's chain " +
    "up to the first repeater, and the energy of its wire is the route's.",
  inputs: { segment_length: { unit: "m", meaning: "distance of the route's repeaters" } },
  formulas: {
    load: given(
      "route_wire_capacitance_per_length * min(macro_side, segment_length)",
      "F",
      "capacitance of the first segment",
    ),
    transistors: given(
      "10",
      "1",
      "transistors of one driver: two gates of two inputs and two wide devices",
      "dic",
    ),
    drive_width: given(
      "max(2 * gate_width, load / (drive_effort * gate_capacitance))",
      "m",
      "width of the pair of wide devices",
      "logical-effort",
    ),
    width: given("drive_width + 8 * gate_width", "m", "device widths of one driver"),
    area: given(
      layoutArea("width", "transistors", "device_area_per_width", "pitch_layout_share"),
      "m^2",
      "area of one driver",
    ),
    leakage: given("width / 2 * leakage_power_per_width", "W", "leakage of one driver"),
    read_energy: given(
      "data_activity / 2 * width * (gate_capacitance + drain_capacitance) * supply ^ 2",
      "J",
      "energy of the driver's own capacitance: half of the changes are rising",
      "dic",
    ),
    write_energy: given("0", "J", "idle in a write"),
  },
});
