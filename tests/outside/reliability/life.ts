import {
  acceleration,
  battery,
  devicesWithFailures,
  disturbCounts,
  disturbErrors,
  disturbKinetics,
  effectiveTemperature,
  extremeOfNormals,
  failingFractionBound,
  failureRateBound,
  failureRateInterval,
  lognormalLife,
  lossShares,
  season,
  slowestPulses,
  standby,
  thermalLoss,
  twoTests,
  verifiedWrite,
  wear,
  weibullLife,
  zeroFailureDevices,
} from "../../../src/models/reliability/index.ts";
import { chiSquaredQuantile } from "../../../src/numerics/index.ts";
import {
  type Case,
  CELSIUS,
  complement,
  DAY,
  EV,
  firstWord,
  HOUR,
  run,
  type Solver,
  YEAR,
} from "./run.ts";

function accelerate(use: number, stress: number, ev: number, time = HOUR): Record<string, number> {
  return run(acceleration, {
    activation_energy: ev * EV,
    use_temperature: use + CELSIUS,
    stress_temperature: stress + CELSIUS,
    stress_time: time,
  });
}

function bakes({ name }: Case): number {
  const [, hours, stress, use] = /(\d+)h@(\d+) at (\d+)/.exec(name)!.map(Number);
  const time = accelerate(use!, stress!, 1.1, hours! * HOUR)["equivalent_time"]!;
  return time / (use === 40 ? DAY : YEAR);
}

function twoBakes({ name }: Case): number {
  const values = run(twoTests, {
    stress_time: 1000 * HOUR,
    stress_temperature: 150 + CELSIUS,
    second_time: 40 * HOUR,
    second_temperature: 200 + CELSIUS,
    use_temperature: 85 + CELSIUS,
    wanted_time: 10 * YEAR,
  });
  const answers: Record<string, number> = {
    Ea: values["fitted_activation_energy"]! / EV,
    time_at_85: values["retention_in_use"]! / YEAR,
    temperature_for_10_years: values["highest_temperature"]! - CELSIUS,
  };
  return answers[name]!;
}

function profile({ name }: Case): number {
  const celsius = [-40, 23, 40, 75, 80];
  const shares = [0.06, 0.2, 0.65, 0.08, 0.01];
  const steps = celsius.map((t, i) => ({ temperature: t + CELSIUS, share: shares[i]! }));
  const effective = effectiveTemperature(steps, 0.9 * EV) - CELSIUS;
  const answers: Record<string, number> = {
    effective_temperature: effective,
    mean_temperature: celsius.reduce((sum, t, i) => sum + t * shares[i]!, 0),
    bake_at_125: (10 * YEAR) / HOUR / accelerate(effective, 125, 0.9)["temperature_acceleration"]!,
    share_of_wear_at_80: lossShares(steps, 0.9 * EV)[4]!,
  };
  return answers[name]!;
}

function seasons({ name }: Case): number {
  const values = run(season, {
    mean_temperature: 10 + CELSIUS,
    temperature_amplitude: 8,
    activation_energy: 1.1 * EV,
  });
  if (name === "rate_ratio") return values["seasonal_rate_ratio"]!;
  return values["seasonal_temperature"]! - CELSIUS;
}

function stability({ name, at }: Case): number {
  const values = run(thermalLoss, {
    storage_time: 10 * YEAR,
    attempt_time: 1e-9,
    stability: at["stability"] ?? 60,
    words: 2 ** 20,
    macro_loss_target: 1e-6,
  });
  return values[name.startsWith("bit_loss") ? "bit_loss" : "needed_stability"]!;
}

function weibull({ name, at }: Case): number {
  const cycles = name.startsWith("failed at") ? Number(name.split(" ").pop()) : 1;
  const values = run(weibullLife, {
    life_shape: 1.5,
    life_scale: 1e8,
    cells: 1,
    cycles,
    failed_share: at["p"] ?? 0.5,
  });
  if (name === "mean") return values["mean_life"]!;
  return values[name.startsWith("failed at") ? "failed_cells" : "life_at_share"]!;
}

function weakest({ name, at }: Case): number {
  const values = run(weibullLife, {
    life_shape: at["shape"]!,
    life_scale: 1e8,
    cells: at["N"]!,
    failed_share: 0.01,
  });
  const ratio = name.startsWith("scale_ratio");
  return values[ratio ? "first_failure_ratio" : "first_failure_at_share"]!;
}

function lognormalFirst({ name, at }: Case): number {
  const values = run(lognormalLife, { cells: at["N"]!, median_life: 1e9, life_spread: 0.8 });
  return values[name.startsWith("sigmas") ? "first_sigmas" : "first_median_life"]!;
}

function verify({ name, at }: Case): number {
  if (name.startsWith("pulses_of_slowest")) {
    return run(slowestPulses, { pulse_failure: 0.1, parallel_cells: 64 })["slowest_pulses"]!;
  }
  const values = run(verifiedWrite, {
    pulse_failure: complement(at["p"]!),
    most_pulses: at["max"]!,
  });
  return values[firstWord(name)]!;
}

function fit({ name, at }: Case): number {
  const factor = accelerate(55, 125, 0.7)["temperature_acceleration"]!;
  const hours = 231 * 1000 * factor;
  const tests: Record<string, () => number> = {
    acceleration: () => factor,
    equivalent_hours: () => hours,
    chi2: () => chiSquaredQuantile(1 - at["C"]!, 2 * at["f"]! + 2),
    upper_bound: () => failureRateBound(at["f"]!, at["C"]!, hours) * 1e9,
    lower: () => failureRateInterval(2, 0.95, hours).low * 1e9,
    upper: () => failureRateInterval(2, 0.95, hours).high * 1e9,
  };
  return tests[firstWord(name)]!();
}

function standbyValues({ name }: Case): number {
  const bits = 2 ** 20;
  const given = {
    save_energy: bits * 2e-12,
    restore_energy: bits * 5e-14,
    keep_power: 8e-6,
    off_power: 3e-7,
    period: 600,
    active_time: 0.2,
    active_power: 1.5e-3,
  };
  const values = run(standby, given);
  const answers: Record<string, number> = {
    save: given.save_energy,
    restore: given.restore_energy,
    break_even: values["break_even_time"]!,
    break_even_no_residual: run(standby, { ...given, off_power: 0 })["break_even_time"]!,
    mean_power_keep: values["keep_mean_power"]!,
    mean_power_off: values["off_mean_power"]!,
    saving: values["mean_power_saved"]!,
  };
  return answers[name]!;
}

function batteryDays(given: Case): number {
  const power = given.name.startsWith("days_keep") ? "mean_power_keep" : "mean_power_off";
  const values = run(battery, {
    battery_charge: 2.4 * HOUR,
    battery_voltage: 3,
    self_discharge: -Math.log1p(-0.01) / YEAR,
    mean_power: standbyValues({ ...given, name: power }),
  });
  const discharging = given.name.endsWith("self_discharge");
  return values[discharging ? "battery_life_with_self_discharge" : "battery_life"]! / DAY;
}

function counts({ name, at }: Case): number {
  const values = run(disturbCounts, {
    rows: at["rows"]!,
    columns: at["columns"]!,
    parallel_cells: at["word"] ?? 1,
  });
  const names: Record<string, string> = {
    half_selected_per_access: "half_selected",
    unselected_per_access: "unselected",
    exposures_per_cell_full_rewrite: "cell_exposures",
    exposures_total_full_rewrite: "rewrite_exposures",
    row_exposures_per_cell: "row_exposures",
    column_exposures_per_cell: "column_exposures",
  };
  return values[names[firstWord(name)]!]!;
}

function cumulative({ name, at }: Case): number {
  const values = run(disturbErrors, {
    disturb: at["p"]!,
    exposures: at["n"] ?? 1,
    cells: 2 ** 20,
    macro_loss_target: 1e-3,
  });
  const names: Record<string, string> = {
    cell: "cell_disturbed",
    macro: "macro_disturbed",
    exposures: "allowed_exposures",
  };
  return values[names[firstWord(name)]!]!;
}

function kinetics({ name, at }: Case): number {
  const values = run(disturbKinetics, {
    write_voltage: at["V"]!,
    rate_voltage: at["V0"]!,
    disturb_margin: at["margin"] ?? 10,
  });
  const names: Record<string, string> = {
    half: "half_voltage_slowdown",
    third: "third_voltage_slowdown",
    survived_half_exposures: "half_voltage_exposures",
  };
  return values[names[firstWord(name)]!]!;
}

export const LIFE: Record<string, Solver> = {
  "ret-acceleration": ({ at }) =>
    accelerate(at["use"]!, at["stress"]!, at["Ea"]!)["temperature_acceleration"]!,
  "ret-bake-equivalents": bakes,
  "ret-two-bakes": twoBakes,
  "ret-profile": profile,
  "ret-season": seasons,
  "ret-stability-factor": stability,
  "life-weibull": weibull,
  "life-weakest-link": weakest,
  "life-lognormal-first": lognormalFirst,
  "life-extreme-normal": ({ name, at }) => {
    const values = run(extremeOfNormals, { cells: at["N"]! });
    return values[name.startsWith("exact") ? "largest_median" : "limit_median"]!;
  },
  "life-write-budget": ({ name }) => {
    const values = run(wear, {
      capacity: 8 * 2 ** 20,
      endurance: 1e6,
      wear_share: 0.8,
      write_rate: 8 * 1000,
      write_amplification: 1.4,
      hot_line: 8 * 64,
    });
    return name === "life_spread" ? values["spread_life"]! / YEAR : values["hot_line_life"]!;
  },
  "life-verify-pulses": verify,
  "demo-zero-failures": ({ name, at }) => {
    const found = zeroFailureDevices(at["C"]!, complement(at["R"]!));
    return name.startsWith("n ") ? found.devices : found.unrounded;
  },
  "demo-longer-test": ({ name, at }) => {
    const found = zeroFailureDevices(
      at["C"]!,
      complement(at["R"]!),
      at["test/life"]!,
      at["shape"]!,
    );
    return name.startsWith("n ") ? found.devices : found.unrounded;
  },
  "demo-some-failures": ({ at }) =>
    devicesWithFailures(at["C"]!, complement(at["R"]!), at["failures"]!),
  "demo-fraction-bound": ({ at }) => failingFractionBound(at["n"]!, at["failures"]!, at["C"]!),
  "demo-fit-bound": fit,
  "standby-break-even": standbyValues,
  "standby-battery": batteryDays,
  "disturb-counts": counts,
  "disturb-cumulative": cumulative,
  "disturb-sinh-kinetics": kinetics,
};
