/** What logic costs that is known by its count alone. */
import { type Formulas, given, part } from "../define.ts";

/**
 * Energy of a pair of average transistors with its share of the wires. Instantiated once, without
 * a prefix.
 */
export const logicEnergy = part({
  name: "logic_energy",
  title: "Energy of logic by count",
  about:
    "Logic whose gates are counted and not drawn has transistors of the average width, as in its " +
    "area and its leakage, and wires between its gates, which take a share of what is switched.",
  formulas: {
    logic_pair_energy: given(
      "unit_gate_energy * gate_width / minimum_width / (1 - logic_wire_share)",
      "J",
      "energy from the supply for one charge of an average pair of transistors and its wires",
      "logic-wires",
    ),
  },
});

/** Costs of `transistors` at the density of the library, a share of which switch in an access. */
export const logicCosts = (activity: string): Formulas => ({
  area: given("transistors * transistor_area", "m^2", "area, at the density of the logic library"),
  leakage: given("transistors * transistor_leakage", "W", "leakage"),
  read_energy: given(
    `${activity} * transistors / 2 * logic_pair_energy`,
    "J",
    "energy of one access",
    "this project",
    "two transistors count as one inverter",
  ),
  write_energy: given("read_energy", "J", "energy of one access"),
});
