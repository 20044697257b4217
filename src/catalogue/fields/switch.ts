import { chosen, type FieldTable, typical } from "./field.ts";
import { GEOMETRY_FIELDS } from "./geometry.ts";
import { MAGNETIC_FIELDS } from "./magnetic.ts";

/**
 * A resistance switch as it is measured. Defaults are for an inline switch that gives its
 * resistances alone.
 */
export const SWITCH_FIELDS: FieldTable = {
  on_resistance: {
    unit: "ohm",
    meaning: "resistance of the on state at the read voltage",
    symbol: "R_{on}",
    required: true,
  },
  off_resistance: {
    unit: "ohm",
    meaning: "resistance of the off state at the read voltage",
    symbol: "R_{off}",
    required: true,
  },
  on_off_ratio: {
    unit: "1",
    meaning: "off resistance divided by on resistance at the read voltage",
    symbol: "k",
  },
  read_voltage: {
    unit: "V",
    meaning: "voltage across the switch in a read, at which its resistances are stated",
    symbol: "V_{read}",
    default: typical("0.2 V", "0.1 V", "0.3 V"),
  },
  scale_voltage: {
    unit: "V",
    meaning: "scale voltage of the sinh law of the current",
    symbol: "V_0",
    default: typical("0.4 V", "0.25 V", "1 V"),
  },
  nonlinearity: {
    unit: "1",
    meaning: "current at the read voltage divided by the current at half of it",
    symbol: "K",
  },
  set_voltage: {
    unit: "V",
    meaning: "voltage across the switch that sets it within the set time",
    symbol: "V_{set}",
    default: typical("1 V", "0.6 V", "2 V"),
  },
  reset_voltage: {
    unit: "V",
    meaning: "magnitude of the voltage across the switch that resets it within the reset time",
    symbol: "V_{reset}",
    default: typical("1.2 V", "0.8 V", "2 V"),
  },
  set_time: {
    unit: "s",
    meaning: "width of a set pulse",
    symbol: "t_{set}",
    default: typical("50 ns", "5 ns", "500 ns"),
  },
  reset_time: {
    unit: "s",
    meaning: "width of a reset pulse",
    symbol: "t_{reset}",
    default: typical("50 ns", "5 ns", "500 ns"),
  },
  current_limit: {
    unit: "A",
    meaning: "largest current through the switch in a write",
    symbol: "I_{lim}",
    default: typical("100 uA", "20 uA", "300 uA"),
  },
  forming_voltage: {
    unit: "V",
    meaning: "voltage of the first set of a fresh switch",
    symbol: "V_{form}",
  },
  device_spread: {
    unit: "1",
    meaning: "standard deviation of ln R from device to device, both states",
  },
  device_spread_on: {
    unit: "1",
    meaning: "standard deviation of ln R from device to device in the on state",
    symbol: "\\sigma_{on}",
    sameAs: "device_spread",
    default: typical("0.2", "0.05", "0.4"),
  },
  device_spread_off: {
    unit: "1",
    meaning: "standard deviation of ln R from device to device in the off state",
    symbol: "\\sigma_{off}",
    sameAs: "device_spread",
    default: typical("0.6", "0.2", "1.5"),
  },
  cycle_spread: {
    unit: "1",
    meaning: "standard deviation of ln R from cycle to cycle",
    symbol: "\\sigma_{c}",
    default: typical("0.15", "0.05", "0.4"),
  },
  endurance: {
    unit: "1",
    meaning: "write cycles before the window closes",
    symbol: "N_{w}",
    default: typical("1e7", "1e5", "1e10"),
  },
  retention_time: {
    unit: "s",
    meaning: "time for which a state is kept at the retention temperature",
    symbol: "t_{ret}",
    default: typical("10 year", "1 year", "30 year"),
  },
  retention_temperature: {
    unit: "K",
    meaning: "temperature at which the retention time is stated",
    symbol: "T_{ret}",
    default: typical("85 degC", "55 degC", "125 degC"),
  },
  activation_energy: {
    unit: "J",
    meaning: "activation energy of the loss of a state",
    show: "eV",
    symbol: "E_a",
    default: typical("1.2 eV", "0.8 eV", "2 eV"),
  },
  resistance_area_product: {
    unit: "ohm m^2",
    meaning: "resistance of the on state times the area of the element",
    symbol: "RA",
    show: "ohm um^2",
  },
  switching_current_density: {
    unit: "A/m^2",
    meaning: "largest current of a write over the area of the element",
    symbol: "J_{w}",
    show: "A/cm^2",
  },
  element_area: {
    unit: "m^2",
    meaning: "area that the write current crosses: of a magnetic element, of a heater's contact",
    symbol: "A_{e}",
    show: "nm^2",
  },
  junction_side: {
    unit: "m",
    meaning: "side of the square junction",
    symbol: "a",
    sameAs: "feature",
  },
  film_thickness: {
    unit: "m",
    meaning: "thickness of the film between the electrodes",
    symbol: "d",
    default: typical("5 nm", "3 nm", "15 nm"),
  },
  film_permittivity: {
    unit: "1",
    meaning: "relative permittivity of the film",
    symbol: "\\varepsilon_r",
    default: typical("20", "8", "30"),
  },
  verify_pulses: {
    unit: "1",
    meaning: "pulses of one write, each with its verify read",
    symbol: "n_{v}",
    default: typical("1.5", "1", "4", "the mean of many writes"),
  },
  write_polarities: {
    unit: "1",
    meaning: "polarities of the pulses that write: 1 where set and reset have the same",
    default: chosen("2", "most switches; phase change and fuses have 1"),
  },
  spin_transfer: {
    unit: "1",
    meaning: "1 where the torque of the current's spins writes, which follows the voltage",
    default: chosen("0", "1 for magnetic junctions"),
  },
  line_write_current: {
    unit: "A",
    meaning: "current of each of two crossing wires whose field writes the element",
    symbol: "I_{w}",
  },
  element_width: {
    unit: "m",
    meaning: "short side of a magnetic element that a field writes",
  },
  element_length: {
    unit: "m",
    meaning: "long side of a magnetic element that a field writes",
  },
  ...GEOMETRY_FIELDS,
  ...MAGNETIC_FIELDS,
};
