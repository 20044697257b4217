/** Registers that keep their state without a supply. */
import { CHANGE_ENERGY, CLOCK_ENERGY } from "../flip-flop.ts";
import { given, logicCosts, part } from "./define.ts";

/** One flip-flop. */
export const flipFlop = part({
  name: "plain_flip_flop",
  title: "Flip-flop",
  about: "The flip-flop of the technology, from the catalogue's count.",
  formulas: {
    transistors: given("flip_flop_transistors", "1", "transistors of a flip-flop", "cmosvlsi"),
    area: given("flip_flop_area", "m^2", "area of a flip-flop"),
    energy: given(
      `${CLOCK_ENERGY} + data_activity * ${CHANGE_ENERGY}`,
      "J",
      "energy of one clock",
      "cmosvlsi",
    ),
    delay: given(
      "2 * tau * (best_stage_effort + inverter_parasitic)",
      "s",
      "delay from the clock to the output",
      "logical-effort",
    ),
  },
});

/** Two switches and the devices that store and restore a flip-flop. */
export const shadow = part({
  name: "shadow",
  title: "Non-volatile shadow of a flip-flop",
  about:
    "Store and restore devices around two switches. Two of them carry the write current at the " +
    "input-output supply, the others are of the average size.",
  formulas: {
    transistors: given("store_transistors", "1", "transistors of one shadow", "nvff-mtj"),
    write_width: given(
      "max(thick_gate_length, thick_unit_linear_resistance * switch_write_current / " +
        "(drop_share * io_supply))",
      "m",
      "width of a device that carries the write current",
      "dic",
    ),
    area: given(
      "2 * write_width * thick_device_area_per_width + max(0, transistors - 2) * transistor_area",
      "m^2",
      "area of one shadow; the switches lie above it",
    ),
    energy: given("0", "J", "idle while the clock runs"),
    switches: given("2", "1", "switches of one shadow", "nvff-mtj"),
  },
});

/** Control of one group of shadows. */
export const storeControl = part({
  name: "store_control",
  title: "Store and restore control",
  about: "Sequences store and restore of one group, and gates its supply.",
  formulas: {
    transistors: given("4 * store_control_gates", "1", "transistors of one group's control"),
    ...logicCosts("0 * control_activity"),
  },
});

/** What brings a flip-flop's bit to a memory and back. */
export const transferMultiplexer = part({
  name: "transfer_multiplexer",
  title: "Transfer of a flip-flop's bit",
  about: "A multiplexer in front of each flip-flop makes a chain that shifts to the memory.",
  formulas: {
    transistors: given("multiplexer_transistors", "1", "transistors of one multiplexer"),
    ...logicCosts("0 * data_activity"),
    delay: given(
      "2 * tau * (best_stage_effort + inverter_parasitic)",
      "s",
      "delay of the multiplexer in front of the flip-flop",
      "logical-effort",
    ),
  },
});
