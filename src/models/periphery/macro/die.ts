/** What a die adds to a macro: pads, interface, test and repair, internal supplies, rails, edges. */
import { given, part } from "../define.ts";
import { chain } from "../effort.ts";
import { logicCosts } from "./logic.ts";

/** Bond pads with their drivers, receivers and protection. */
export const pads = part({
  name: "pads",
  title: "Pads",
  about:
    "A row of bond pads with what belongs to each: protection, receiver, driver. Their number is " +
    "the study's, or follows from the interface: a pad for each bit of the word and of the " +
    "address, control pads, and pairs for the supplies. The driver is a chain of thick-oxide " +
    "inverters for the load outside.",
  formulas: {
    data_pads: given("word", "1", "pads that data leave by"),
    count: given(
      "die_pads > 0 ? die_pads : word + address_bits + control_pads + 2 * (core_supply_pairs + " +
        "ceil(word / data_pads_per_supply_pair))",
      "1",
      "pads of the die",
    ),
    transistors: given("count * pad_transistors", "1", "transistors at all pads"),
    area: given("count * pad_pitch * pad_depth", "m^2", "area of all pads"),
    ...chain({ name: "chain", load: "pad_load", thick: true }),
    leakage: given(
      "count * chain_width / 2 * thick_leakage_power_per_width",
      "W",
      "leakage of the drivers, as if each pad had one",
    ),
    read_energy: given(
      "data_pads * data_activity / 2 * (pad_load + chain_width * (thick_gate_capacitance + " +
        "drain_capacitance)) * io_supply ^ 2",
      "J",
      "energy at the data pads: half of the changes are rising",
      "dic",
    ),
    write_energy: given("0", "J", "what drives the pads from outside is not counted"),
    input_delay: given(
      "2 * thick_tau * (best_stage_effort + inverter_parasitic)",
      "s",
      "delay of a receiver: two stages",
      "logical-effort",
    ),
    delay: given("chain_delay", "s", "delay of a driver", "logical-effort"),
  },
});

/** Logic between the pads and the macro. */
export const dieInterface = part({
  name: "die_interface",
  title: "Interface logic",
  about: "Commands, modes, address counters and timing of a stand-alone part, by count.",
  formulas: {
    transistors: given("4 * die_interface_gates", "1", "transistors of the interface"),
    ...logicCosts("control_activity"),
  },
});

/** Test modes, self-test, fuses. */
export const dieTest = part({
  name: "die_test",
  title: "Test and repair",
  about: "Logic by count, asleep in use, and fuses with their latches.",
  formulas: {
    transistors: given(
      "4 * die_test_gates + die_fuses * fault_bit_transistors",
      "1",
      "transistors of test and repair",
    ),
    area: given(
      "4 * die_test_gates * transistor_area + die_fuses * fuse_area",
      "m^2",
      "area of test logic and fuses",
    ),
    leakage: given("transistors * transistor_leakage", "W", "leakage"),
    read_energy: given("0", "J", "asleep in use"),
    write_energy: given("0", "J", "asleep in use"),
  },
});

/** References, regulators and the capacitors that hold the supply up until they answer. */
export const dieSupplies = part({
  name: "die_supplies",
  title: "Internal supplies",
  about:
    "Regulators for the mean current of reads or writes, whichever is larger, and capacitors " +
    "(thick-oxide gates) that carry it until the regulators answer, at the stated droop.",
  inputs: {
    whole_read_energy: { unit: "J", meaning: "energy of one read of the whole" },
    whole_write_energy: { unit: "J", meaning: "energy of one write of the whole" },
    pads_read_energy: { unit: "J", meaning: "energy of one read at the pads" },
    read_cycle: { unit: "s", meaning: "until the same tile can be read again" },
    write_latency: { unit: "s", meaning: "time of one write" },
  },
  formulas: {
    active_current: given(
      "max((whole_read_energy - pads_read_energy) / read_cycle, whole_write_energy / " +
        "write_latency) / supply",
      "A",
      "mean current of an access from the internal supplies",
      "dic",
    ),
    pass_width: given(
      "thick_unit_linear_resistance / p_to_n_current * active_current / regulator_drop",
      "m",
      "width of all pass devices",
      "dic",
    ),
    capacitance: given(
      "active_current * supply_response / (supply_droop * supply)",
      "F",
      "capacitance that holds the supply until the regulator answers",
      "dic",
    ),
    transistors: given(
      "die_regulators * regulator_transistors",
      "1",
      "transistors of the regulators",
      "general",
    ),
    area: given(
      "capacitance * thick_gate_length / thick_gate_capacitance + (pass_width + transistors * " +
        "20 * thick_gate_length) * thick_device_area_per_width * wide_layout_share",
      "m^2",
      "area: capacitors, pass devices, and matched devices twenty times as wide as long",
    ),
    leakage: given(
      "pass_width * thick_leakage_power_per_width",
      "W",
      "leakage of the pass devices",
    ),
    read_energy: given("0", "J", "what the regulators lose is outside of the internal supply"),
    write_energy: given("0", "J", "what the regulators lose is outside of the internal supply"),
  },
});

/** Rails and channels that nothing lies beneath. */
export const dieRails = part({
  name: "die_rails",
  title: "Supply rails and channels",
  about: "A share of the tiles and pads of the die. Has no transistors.",
  inputs: { pads_area: { unit: "m^2", meaning: "area of all pads" } },
  formulas: {
    transistors: given("0", "1", "none"),
    area: given("die_rail_share * (macro_side ^ 2 + pads_area)", "m^2", "area of the rails"),
    leakage: given("0", "W", "none"),
    read_energy: given("0", "J", "none"),
    write_energy: given("0", "J", "none"),
  },
});

/** Seal ring and scribe lane. */
export const dieEdges = part({
  name: "die_edges",
  title: "Seal ring and scribe lane",
  about: "A strip along the four edges of a square die. Has no transistors.",
  inputs: { pads_area: { unit: "m^2", meaning: "area of all pads" } },
  formulas: {
    side: given(
      "sqrt((1 + die_rail_share) * (macro_side ^ 2 + pads_area))",
      "m",
      "side of the die",
    ),
    transistors: given("0", "1", "none"),
    area: given("4 * seal_width * (side + seal_width)", "m^2", "area along the edges"),
    leakage: given("0", "W", "none"),
    read_energy: given("0", "J", "none"),
    write_energy: given("0", "J", "none"),
  },
});
