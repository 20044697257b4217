/** Standby: when switching off pays, and how long a battery lasts. */
import { formula, reliabilitySheet } from "./define.ts";

const SOURCE = "arithmetic";

export const standby = reliabilitySheet(
  "standby",
  "Keep alive or save and switch off",
  "Energy of saving and restoring against the power that switching off saves. Where switching off " +
    "saves no power there is no break-even, and the study says so: the time is not finite.",
  {
    round_trip_energy: formula(
      "J",
      "save_energy + restore_energy",
      "energy to save and restore once",
      SOURCE,
    ),
    break_even_time: formula(
      "s",
      "round_trip_energy / max(keep_power - off_power, 0)",
      "standby time from which switching off pays",
      SOURCE,
    ),
    keep_mean_power: formula(
      "W",
      "(active_power * active_time + keep_power * (period - active_time)) / period",
      "mean power when kept alive between bursts",
      SOURCE,
    ),
    off_mean_power: formula(
      "W",
      "(active_power * active_time + round_trip_energy + off_power * (period - active_time)) / period",
      "mean power when switched off between bursts",
      SOURCE,
    ),
    mean_power_saved: formula(
      "W",
      "keep_mean_power - off_mean_power",
      "mean power that switching off saves; negative where it costs",
      SOURCE,
    ),
  },
);

export const battery = reliabilitySheet(
  "battery",
  "Life of a battery",
  "A constant mean power, without and with an exponential self-discharge.",
  {
    battery_energy: formula("J", "battery_charge * battery_voltage", "energy of it", SOURCE),
    battery_life: formula("s", "battery_energy / mean_power", "life, no self-discharge", SOURCE),
    battery_life_with_self_discharge: formula(
      "s",
      "log1p(self_discharge * battery_life) / self_discharge",
      "life with self-discharge",
      SOURCE,
    ),
  },
);
