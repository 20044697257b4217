import { formula, model } from "../define.ts";
import { cellDefaults } from "./defaults.ts";

/** How long a charge lasts and what refreshing it costs. */
export const refresh = model({
  parameters: cellDefaults,
  name: "refresh",
  title: "Retention and refresh",
  about:
    "Retention is stated at a temperature and halves with each step of the leakage's doubling " +
    "temperature, which is a rule of thumb near room temperature. A refresh reads and " +
    "restores every cell of a row once per retention time; its share of decoders and " +
    "amplifiers is the estimate's.",
  formulas: {
    retention_at_temperature: formula(
      "s",
      "retention_time * 2^((retention_temperature - temperature) / leakage_doubling)",
      "retention at the temperature",
      "common practice",
      { symbol: "t_{ret}" },
    ),
    refresh_energy: formula(
      "J",
      "column_capacitance * supply * restore_swing + row_capacitance * write_row_swing^2 / " +
        "columns + stored_energy",
      "energy of refreshing one cell",
      "dic",
    ),
    refresh_power: formula(
      "W",
      "refresh_energy / retention_at_temperature",
      "power of refresh per cell",
      "dic",
    ),
  },
});
