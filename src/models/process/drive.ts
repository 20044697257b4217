import { formula, model } from "../define.ts";
import { softened } from "../softened.ts";
import { processDefaults } from "./defaults.ts";

/**
 * How current, leakage and delay follow supply and temperature. Everything is a ratio to what is
 * published at the technology's own supply, so that there nothing changes.
 */
export const driveSheet = model({
  parameters: processDefaults,
  name: "drive",
  title: "Transistors at the supply and the temperature of a study",
  about:
    "The on-current is a power of the overdrive, which turns into an exponential of the gate " +
    "voltage below threshold: one smooth law from weak to strong inversion, with the stated swing " +
    "below and the power law of velocity-saturated devices above. The threshold rises as the " +
    "drain voltage falls, and falls with temperature; the mobility falls with temperature. All is " +
    "relative to the published currents and the published delay at the nominal supply. Holds from " +
    "some 0.2 V to a little above nominal; the stated threshold need not belong to the stated " +
    "currents, which below threshold is a factor of several.",
  formulas: {
    swing_at_temperature: formula(
      "V",
      "subthreshold_swing * temperature / reference_temperature",
      "gate voltage per decade of current at the temperature",
      "tm",
      { symbol: "S" },
    ),
    threshold_at_temperature: formula(
      "V",
      "threshold_voltage + threshold_temperature_slope * (temperature - reference_temperature)",
      "threshold voltage at the temperature, at the nominal drain voltage",
      "tm",
      { symbol: "V_t" },
    ),
    threshold_at_supply: formula(
      "V",
      "threshold_at_temperature + drain_barrier_lowering * (nominal_supply - supply)",
      "threshold voltage at the temperature with the supply at the drain",
      "tm",
      { symbol: "V_t(V_{DD})", note: "the stated threshold is taken as that at nominal supply" },
    ),
    overdrive_scale: formula(
      "V",
      "drive_exponent * swing_at_temperature / log(10)",
      "voltage over which the overdrive fades into an exponential",
      "transregional",
      { symbol: "s", note: "times the exponent, so that the current keeps its swing below" },
    ),
    nominal_overdrive_scale: formula(
      "V",
      "drive_exponent * subthreshold_swing / log(10)",
      "the same at the reference temperature",
      "transregional",
    ),
    overdrive: formula(
      "V",
      softened("(supply - threshold_at_supply)", "overdrive_scale"),
      "effective overdrive: the supply beyond the threshold, an exponential below it",
      "charge1995",
      { symbol: "V_{ov}" },
    ),
    nominal_overdrive: formula(
      "V",
      softened("(nominal_supply - threshold_voltage)", "nominal_overdrive_scale"),
      "effective overdrive at nominal supply and reference temperature",
      "charge1995",
    ),
    mobility_ratio: formula(
      "1",
      "(temperature / reference_temperature)^(-mobility_exponent)",
      "mobility over that at the reference temperature",
      "cmosvlsi",
    ),
    drive_ratio: formula(
      "1",
      "mobility_ratio * (overdrive / nominal_overdrive)^drive_exponent",
      "on-current over the published one",
      "alpha1990",
      { note: "a power of the overdrive; the interpolation below threshold is of `transregional`" },
    ),
    on_current: formula(
      "A/m",
      "nmos_on_current * drive_ratio",
      "on-current per width at supply and temperature",
      "alpha1990",
      { symbol: "I_{on}" },
    ),
    off_current: formula(
      "A/m",
      "nmos_off_current * 10^(threshold_voltage / subthreshold_swing - " +
        "threshold_at_supply / swing_at_temperature)",
      "off-current per width at supply and temperature",
      "tm",
      {
        symbol: "I_{off}",
        note: "the current at threshold is taken as independent of temperature",
      },
    ),
    leakage_heat_ratio: formula(
      "1",
      "10^(threshold_voltage / subthreshold_swing - threshold_at_temperature / " +
        "swing_at_temperature)",
      "off-current at the temperature over that at the reference temperature",
      "tm",
    ),
    fixed_current: formula(
      "A/m",
      "fixed_leakage_current * 10^((supply - nominal_supply) / tunnelling_voltage)",
      "current per width through gate and junctions at the supply",
      "gateleak",
      { note: "hardly depends on temperature" },
    ),
    memory_off_ratio: formula(
      "1",
      "min(1, max(sram_leakage_share, memory_least_off_current / nmos_off_current))",
      "leakage of devices with a high threshold over that of fast ones, below threshold",
      "common practice",
      { note: "in a low-power process all devices are what memory devices are elsewhere" },
    ),
    standing_current: formula(
      "A/m",
      "off_current * (low_threshold_share + (1 - low_threshold_share) * memory_off_ratio) + " +
        "fixed_current",
      "leakage per width of circuits: below threshold, and through gate and junctions",
      "this project",
      { note: "gates that are not in the way of an access have a high threshold" },
    ),
    retention_leak_ratio: formula(
      "1",
      "retention_supply_share * 10^(-drain_barrier_lowering * supply * (1 - " +
        "retention_supply_share) / swing_at_temperature)",
      "power that keeps the data at the supply of a sleeping array over that at the full one",
      "cmosvlsi",
      {
        note: "the drain voltage falls, and with it the current; gates and junctions follow alike",
      },
    ),
    fan_out_delay: formula(
      "s",
      "fo4_delay * supply / (nominal_supply * drive_ratio)",
      "fan-out-of-four delay at supply and temperature",
      "alpha1990",
      { symbol: "t_{4}", note: "charge over current" },
    ),
    tau: formula("s", "fan_out_delay / 5", "unit of logical effort", "logical-effort", {
      symbol: "\\tau",
      note: "an inverter of parasitic 1 with fan-out 4 takes 5 units",
    }),
    transconductance: formula(
      "A/(V m)",
      "on_current / max(overdrive, swing_at_temperature / log(10))",
      "transconductance per width of a device at full drive",
      "tm",
      {
        note:
          "velocity-saturated above threshold: current proportional to the overdrive; " +
          "exponential below",
      },
    ),
    drain_saturation_voltage: formula(
      "V",
      "max(drain_saturation_share * (nominal_supply - threshold_voltage) * overdrive / " +
        "nominal_overdrive, 2 * boltzmann_constant * temperature / elementary_charge)",
      "drain voltage at which the current saturates",
      "dic",
      {
        symbol: "V_{D0}",
        note: "below threshold the slope at zero is the current over the thermal voltage",
      },
    ),
  },
});
