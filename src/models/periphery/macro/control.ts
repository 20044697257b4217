/** Timing and control, refresh, latches, outputs. */
import { CHANGE_ENERGY, CLOCK_ENERGY } from "../../flip-flop.ts";
import { given, part } from "../define.ts";
import { chain } from "../effort.ts";
import { logicCosts } from "./logic.ts";

/** Self-timed control of a bank, with the chains that drive its enables along the amplifiers. */
export const bankControl = part({
  name: "bank_control",
  title: "Bank control",
  about:
    "Pulse generators, replica timing and the drivers of three enable lines (precharge, sense, " +
    "write) along each active tile. The number of gates is a parameter with a wide range; the " +
    "drivers are sized for their lines.",
  formulas: {
    enable_load: given(
      "route_wire_capacitance_per_length * row_length + sense_amplifiers * 4 * " +
        "unit_gate_input_capacitance",
      "F",
      "load of one enable line of a tile",
    ),
    ...chain({ name: "chain", load: "enable_load" }),
    enable_lines: given("3 * tiles_per_bank", "1", "enable lines of the bank"),
    gate_transistors: given("4 * bank_control_gates", "1", "transistors of the timing"),
    driver_transistors: given(
      "2 * chain_stages * enable_lines",
      "1",
      "transistors of the drivers of the enables",
    ),
    transistors: given(
      "gate_transistors + driver_transistors",
      "1",
      "transistors of a bank's control",
    ),
    area: given(
      "gate_transistors * transistor_area + enable_lines * max(chain_width * " +
        "device_area_per_width * wide_layout_share, 2 * chain_stages * transistor_area)",
      "m^2",
      "area of a bank's control",
    ),
    leakage: given(
      "gate_transistors * transistor_leakage + enable_lines * chain_width / 2 * " +
        "leakage_power_per_width",
      "W",
      "leakage of a bank's control",
    ),
    read_energy: given(
      "control_activity * gate_transistors / 2 * logic_pair_energy + 2 * tiles_active * " +
        "(enable_load + chain_width * (gate_capacitance + drain_capacitance)) * supply ^ 2",
      "J",
      "energy of one access: two of three enables in each active tile",
      "dic",
    ),
    write_energy: given("read_energy", "J", "energy of one access"),
    delay: given(
      "chain_delay",
      "s",
      "delay of an enable, hidden behind the decoder",
      "logical-effort",
    ),
  },
});

/** Command decoding, modes, clock gating and test of the whole macro. */
export const macroControl = part({
  name: "macro_control",
  title: "Macro control",
  about: "By count, with a wide range. Test logic beyond scan of the latches is not in it.",
  formulas: {
    transistors: given("4 * macro_control_gates", "1", "transistors of the macro's control"),
    ...logicCosts("control_activity"),
  },
});

/** Counter, timer and address multiplexer of refresh. */
export const refreshControl = part({
  name: "refresh_control",
  title: "Refresh control",
  about: "Counts the rows of a tile; all banks are refreshed side by side.",
  formulas: {
    counter_bits: given("ceil(log2(max(2, decoded_rows)))", "1", "bits of the row counter"),
    transistors: given(
      "counter_bits * (flip_flop_transistors + half_adder_transistors + multiplexer_transistors) " +
        "+ refresh_timer_transistors",
      "1",
      "transistors of refresh control",
    ),
    ...logicCosts("control_activity"),
  },
});

const latchCosts = (bits: string, activity: string) => ({
  bits: given(bits, "1", "bits held"),
  transistors: given(
    "bits * flip_flop_transistors",
    "1",
    "transistors of the flip-flops",
    "cmosvlsi",
  ),
  area: given("bits * flip_flop_area", "m^2", "area of the flip-flops"),
  leakage: given("transistors * transistor_leakage", "W", "leakage of the flip-flops"),
  read_energy: given(
    `bits * (${CLOCK_ENERGY} + ${activity} * ${CHANGE_ENERGY})`,
    "J",
    "energy of one clock: what hangs on the clock always, the rest where the bit changes",
    "cmosvlsi",
  ),
  write_energy: given("read_energy", "J", "energy of one clock"),
  delay: given(
    "2 * tau * (best_stage_effort + inverter_parasitic)",
    "s",
    "delay from the clock to the output",
    "logical-effort",
    "two stages of a master-slave flip-flop",
  ),
});

/** Holds the address and the command. */
export const addressLatch = part({
  name: "address_latch",
  title: "Address latches",
  about: "A flip-flop for each address bit and two for the command.",
  formulas: latchCosts("address_bits + 2", "address_activity"),
});

/** Holds the data that goes in, and the data that comes out. */
export const dataLatch = part({
  name: "data_latch",
  title: "Data latches",
  about: "A flip-flop for each bit of the word in, and one for each bit out.",
  formulas: latchCosts("2 * word", "data_activity"),
});

/** The drivers of all data outputs. */
export const outputDriver = part({
  name: "output_driver",
  title: "Output drivers",
  about:
    "A chain of inverters for each bit of the word, sized for the load on an output of the macro.",
  formulas: {
    ...chain({ name: "chain", load: "output_load" }),
    transistors: given("word * 2 * chain_stages", "1", "transistors of all output drivers"),
    width: given("word * chain_width", "m", "device widths of all output drivers"),
    area: given(
      "max(width * device_area_per_width * wide_layout_share, transistors * transistor_area)",
      "m^2",
      "area of all output drivers",
    ),
    leakage: given(
      "width / 2 * leakage_power_per_width",
      "W",
      "leakage of all output drivers",
      "this project",
      "an inverter leaks through one of its two devices",
    ),
    read_energy: given(
      "word * data_activity / 2 * (output_load + chain_width * (gate_capacitance + " +
        "drain_capacitance)) * supply ^ 2",
      "J",
      "energy of one read: half of the changes are rising",
      "dic",
    ),
    write_energy: given("0", "J", "idle in a write"),
    delay: given("chain_delay", "s", "delay to an output", "logical-effort"),
  },
});
