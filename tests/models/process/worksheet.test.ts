// Devices of a process away from its own supply and temperature, worked out step by step from textbook laws: decades of
// current by the swing, a threshold that falls with heat and drain voltage, mobility by a power of the temperature.
import { describe, expect, test } from "vitest";
import { processInstances } from "../../../src/models/registry.ts";
import { evaluate, technology } from "../evaluate.ts";
import { expectPaper } from "../periphery/worksheet/paper.ts";

const BOLTZMANN = 1.380649e-23;
const CHARGE = 1.602176634e-19;
const decades = (x: number) => 10 ** x;

const POINTS = [
  { name: "cmos-65", supply: 0.63, temperature: 358.15 },
  { name: "cmos-65", supply: 1.07, temperature: 268 },
  { name: "cmos-90", supply: 0.21, temperature: 330 },
  { name: "cmos-180", supply: 1.5, temperature: 398.15 },
  { name: "cmos-28", supply: 0.8, temperature: 345 },
  { name: "cmos-7", supply: 0.55, temperature: 310 },
];

describe.each(POINTS)("$name at $supply V, $temperature K", ({ name, supply, temperature }) => {
  const given = {
    ...technology(name),
    supply,
    temperature,
    leakage_stack_share: 0.77,
    gate_width_multiple: 1.9,
    layout_width_ratio: 0.83,
  } as Record<string, number>;
  const v = (key: string) => given[key]!;
  const got = evaluate(processInstances, given);
  const heat = temperature / v("reference_temperature");
  const warmer = temperature - v("reference_temperature");
  const swing = v("subthreshold_swing") * heat;
  const hot = v("threshold_voltage") + v("threshold_temperature_slope") * warmer;
  const threshold = hot + v("drain_barrier_lowering") * (v("nominal_supply") - supply);
  /** s ln(1 + exp(x / s)), with so many decades to the exponential's swing as the power has. */
  const fade = (x: number, perDecade: number) => {
    const s = (v("drive_exponent") * perDecade) / Math.LN10;
    return s * Math.log(1 + Math.exp(x / s));
  };
  const overdrive = fade(supply - threshold, swing);
  const nominal = fade(v("nominal_supply") - v("threshold_voltage"), v("subthreshold_swing"));
  const mobility = heat ** -v("mobility_exponent");
  const ratio = mobility * (overdrive / nominal) ** v("drive_exponent");
  const on = v("nmos_on_current") * ratio;
  // What flows at the threshold, and falls a decade for each swing below it.
  const atThreshold =
    v("nmos_off_current") * decades(v("threshold_voltage") / v("subthreshold_swing"));
  const off = atThreshold / decades(threshold / swing);
  const fixed =
    v("fixed_leakage_current") * decades((supply - v("nominal_supply")) / v("tunnelling_voltage"));
  const slow = Math.min(
    1,
    Math.max(v("sram_leakage_share"), v("memory_least_off_current") / v("nmos_off_current")),
  );
  const fast = v("low_threshold_share");
  const standing = fast * off + (1 - fast) * slow * off + fixed;
  const inverter = 1 + 1 / v("p_to_n_current");
  const saturation = Math.max(
    (v("drain_saturation_share") * (v("nominal_supply") - v("threshold_voltage")) * overdrive) /
      nominal,
    (2 * BOLTZMANN * temperature) / CHARGE,
  );

  test("currents, leakage and delay", () => {
    expectPaper(got, {
      drive_ratio: ratio,
      on_current: on,
      off_current: off,
      fixed_current: fixed,
      memory_off_ratio: slow,
      standing_current: standing,
      leakage_heat_ratio: decades(v("threshold_voltage") / v("subthreshold_swing") - hot / swing),
      // Charge over current: a lower supply moves less of it, more slowly.
      fan_out_delay: (v("fo4_delay") / ratio) * (supply / v("nominal_supply")),
      tau: (v("fo4_delay") / ratio / 5) * (supply / v("nominal_supply")),
      transconductance: on / Math.max(overdrive, swing / Math.LN10),
      drain_saturation_voltage: saturation,
    });
  });

  test("a sleeping array has a share of the supply, and as many decades less as its barrier rises", () => {
    const share = v("retention_supply_share");
    const lost = supply - share * supply;
    const barrier = v("drain_barrier_lowering") * lost;
    expectPaper(got, { retention_leak_ratio: share / decades(barrier / swing) });
  });

  test("resistances of devices that charge, and of devices that are on", () => {
    const charging = supply / 2 / (v("effective_current_share") * on * Math.LN2);
    const io = v("io_supply");
    const above = io - v("thick_threshold_voltage");
    const warm = above - v("threshold_temperature_slope") * warmer;
    const thick = v("thick_on_current") * mobility * (warm / above) ** v("drive_exponent");
    const thickSaturation = v("drain_saturation_share") * above;
    expectPaper(got, {
      unit_resistance_n: charging,
      unit_resistance_p: charging / v("p_to_n_current"),
      // A parabola's slope at zero is twice its top over the voltage of the top.
      unit_linear_resistance: saturation / (2 * on),
      saturated_resistance_n: (3 / 4) * (supply / on),
      thick_unit_resistance: io / 2 / (v("effective_current_share") * thick * Math.LN2),
      thick_unit_linear_resistance: thickSaturation / (2 * thick),
    });
  });

  test("an inverter, an average transistor, wide devices", () => {
    const both = v("minimum_width") * inverter;
    const gate = 1.9 * v("minimum_width");
    expectPaper(got, {
      unit_gate_input_capacitance: both * v("gate_capacitance"),
      unit_gate_energy: both * (v("gate_capacitance") + v("drain_capacitance")) * supply ** 2,
      gate_width: gate,
      transistor_area: 1 / v("gate_density") / 4,
      device_area_per_width: v("contacted_gate_pitch") * 0.83 * v("device_layout_overhead"),
      thick_device_area_per_width: v("thick_contacted_pitch") * v("device_layout_overhead"),
      // Of a pair of devices one is off, so that each has half; of a pair's width half.
      transistor_leakage: ((supply * standing * gate * inverter) / 2 / 2) * 0.77,
      leakage_power_per_width: supply * standing,
      thick_leakage_power_per_width:
        v("io_supply") *
        v("thick_off_current") *
        decades(v("threshold_voltage") / v("subthreshold_swing") - hot / swing),
    });
    const own =
      got["tau"]! / (Math.LN2 * got["unit_resistance_n"]! * v("gate_capacitance") * inverter);
    expect(got["delay_consistency"]! / own).toBeCloseTo(1, 12);
  });
});
