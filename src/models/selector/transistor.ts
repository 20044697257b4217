import type { FormulaDefinition } from "../../formulas/sheet.ts";
import { formula, model } from "../define.ts";
import { selectorDefaults } from "./defaults.ts";

/** What any access transistor gives to its cell once its width and voltage class are known. */
const electrical: Readonly<Record<string, FormulaDefinition>> = {
  access_thick: formula(
    "1",
    "switch_write_voltage > core_overdrive * supply ? 1 : 0",
    "1 where the access transistor has thick oxide",
    "common practice",
  ),
  access_on_current: formula(
    "A/m",
    "access_thick > 0.5 ? thick_on_current : on_current",
    "saturation current per width",
  ),
  access_write_on_current: formula(
    "A/m",
    "access_thick > 0.5 ? thick_on_current : max(on_current, nmos_on_current)",
    "saturation current per width in a write: rows rise to the technology's own supply at least",
    "common practice",
  ),
  access_saturation: formula(
    "V",
    "access_thick > 0.5 ? thick_drain_saturation_voltage : drain_saturation_voltage",
    "drain voltage at which it saturates",
  ),
  access_load_share: formula(
    "1",
    "min(1, switch_write_current / (access_width * access_write_on_current))",
    "write current over saturation current",
    "this project",
    { note: "at 1 the transistor limits the current: a narrow device in a memory process may" },
  ),
  access_drop: formula(
    "V",
    "access_saturation * (1 - sqrt(1 - access_load_share))",
    "drain voltage at the write current",
    "dic",
    { note: "I = I_on (2 - V/V_D0) V/V_D0 solved for V" },
  ),
  access_resistance: formula(
    "ohm",
    "(access_thick > 0.5 ? thick_unit_linear_resistance : unit_linear_resistance) / access_width",
    "resistance in a read",
    "dic",
  ),
  access_gate_load: formula(
    "F",
    "(access_thick > 0.5 ? thick_gate_capacitance : gate_capacitance) * access_width",
    "gate capacitance",
    "cmosvlsi",
  ),
  access_drain_load: formula(
    "F",
    "drain_capacitance * access_width",
    "drain capacitance",
    "cmosvlsi",
  ),
  access_off_current: formula(
    "A",
    "(access_thick > 0.5 ? thick_off_current * leakage_heat_ratio : off_current) " +
      "* access_width",
    "current when off",
    "cmosvlsi",
  ),
  access_gate_voltage: formula(
    "V",
    "access_thick > 0.5 ? io_supply : supply",
    "gate voltage in a read",
  ),
  access_write_gate_voltage: formula(
    "V",
    "max(access_gate_voltage, access_thick > 0.5 ? io_supply : min(core_overdrive * supply, " +
      "switch_write_voltage + threshold_voltage))",
    "gate voltage in a write",
    "common practice",
    { note: "boosted as far as the device stands, so that the worse polarity is not starved" },
  ),
};

/** Width of one finger that holds a share of the wanted width: whole steps, and no less than one. */
const fingerWidth = (wanted: string, meaning: string): FormulaDefinition =>
  formula(
    "m",
    `max(access_least_width, access_finger_unit > 0 ? ceil(${wanted} / access_least_width) * ` +
      `access_least_width : ${wanted})`,
    meaning,
    "common practice",
  );

/** The access transistor of a logic process: as wide as the worst junction's write asks for. */
export const accessTransistor = model({
  parameters: selectorDefaults,
  name: "access_transistor",
  title: "Access transistor",
  about:
    "Sized so that at its slow corner, lowest supply and worst temperature it still carries the " +
    "write current of the worst junction, at a share of its saturation current, which leaves " +
    "drain voltage over and covers body effect in the worse polarity. Thick oxide " +
    "where the write voltage exceeds what a core device stands in pulses. Drawn in whole " +
    "fingers of the gate pitch: one gate per cell needs an isolation gap between neighbouring " +
    "drains (1.5 gate pitches; between fins as many dummy gates as the process asks for); two " +
    "parallel gates share all contacts (2 pitches of half the width): the smaller of both is " +
    "taken. Between devices with fins one fin is cut. The cell " +
    "is at least as wide as its bit line and its part of the source line, and in both directions " +
    "as wide as the landing of the vias to its storage element.",
  formulas: {
    ...electrical,
    access_least_width: formula(
      "m",
      "access_thick > 0.5 ? thick_width_ratio * thick_gate_length : minimum_width",
      "smallest width",
      "common practice",
    ),
    worst_write_current: formula(
      "A",
      "write_current_margin * switch_write_current",
      "write current of the worst junction",
      "this project",
    ),
    write_drive_share: formula(
      "1",
      "write_polarities > 1.5 ? min(access_drive_share / lesser_write_share, " +
        "max(access_drive_share, unipolar_drive_share)) : unipolar_drive_share",
      "write current over the saturation current of the access transistor",
      "reverse-connection",
      {
        note:
          "the direction that needs less current is the one that lifts the transistor's source; " +
          "where both need the same, that one decides",
      },
    ),
    access_wanted_width: formula(
      "m",
      "max(access_least_width, worst_write_current / (write_drive_share * worst_drive_share " +
        "* access_write_on_current))",
      "width that the write current of the worst junction asks for at the worst corner",
    ),
    access_finger_unit: formula(
      "m",
      "access_thick < 0.5 ? (layout_width_ratio < 1 ? access_least_width : 0) : 0",
      "step of widths: a whole fin where devices have fins, else none",
    ),
    one_gate_finger: fingerWidth("access_wanted_width", "width of the finger of one gate"),
    two_gate_finger: fingerWidth("access_wanted_width / 2", "width of each finger of two gates"),
    access_pitch: formula(
      "m",
      "access_thick > 0.5 ? thick_contacted_pitch : contacted_gate_pitch",
      "gate pitch",
    ),
    access_layout_ratio: formula(
      "1",
      "access_thick > 0.5 ? 1 : layout_width_ratio",
      "layout width of the access transistor over its effective width",
    ),
    active_spacing: formula(
      "m",
      "max(active_spacing_ratio * metal_half_pitch, access_finger_unit * access_layout_ratio)",
      "isolation beside a device: at least one fin where devices have fins",
      "common practice",
    ),
    line_room: formula(
      "m",
      "2 * feature * (1 + (write_polarities > 1.5 ? source_lines_per_cell : 0))",
      "room for bit line and source line beside each other: one polarity needs no line of its own",
      "common practice",
    ),
    landing_pitch: formula(
      "m",
      "landing_pitch_ratio * metal_half_pitch",
      "least pitch of the landings of vias to the storage elements",
      "common practice",
    ),
    largest_element_area: formula(
      "m^2",
      "pi / 4 * (landing_pitch - metal_half_pitch)^2",
      "area of the largest round element at the pitch of the landings",
      "common practice",
      { note: "a half pitch between neighbours" },
    ),
    break_pitches: formula(
      "1",
      "access_finger_unit > 0 ? fin_break_gates / 2 : 1 / 2",
      "gate pitches of the gap between the drains of two cells, half of it in each",
      "common practice",
      { note: "between fins dummy gates fill the gap" },
    ),
    one_gate_height: formula(
      "m",
      "max((1 + break_pitches) * access_pitch, landing_pitch)",
      "outline along the column with one gate",
    ),
    one_gate_width: formula(
      "m",
      "max(one_gate_finger * access_layout_ratio + active_spacing, line_room, landing_pitch)",
      "outline along the row with one gate",
    ),
    two_gate_height: formula(
      "m",
      "max(2 * access_pitch, landing_pitch)",
      "outline along the column with two gates",
    ),
    two_gate_width: formula(
      "m",
      "max(two_gate_finger * access_layout_ratio + active_spacing, line_room, landing_pitch)",
      "outline along the row with two gates",
    ),
    access_gates: formula(
      "1",
      "two_gate_height * two_gate_width < one_gate_height * one_gate_width ? 2 : 1",
      "gates of the access transistor",
    ),
    access_width: formula(
      "m",
      "access_gates > 1.5 ? 2 * two_gate_finger : one_gate_finger",
      "effective width",
      "this project",
      { symbol: "W" },
    ),
    access_cell_height: formula(
      "m",
      "access_gates > 1.5 ? two_gate_height : one_gate_height",
      "outline along the column",
    ),
    access_cell_width: formula(
      "m",
      "access_gates > 1.5 ? two_gate_width : one_gate_width",
      "outline along the row",
    ),
  },
});
