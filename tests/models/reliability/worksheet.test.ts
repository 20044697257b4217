// What rates, populations and upkeep come to, worked out without the sheets: products of probabilities, searches for
// roots, circuits counted.
import { describe, expect, test } from "vitest";
import type { Sheet } from "../../../src/formulas/sheet.ts";
import { stateLoss } from "../../../src/models/reliability/aging.ts";
import * as reliability from "../../../src/models/reliability/index.ts";
import { levelPlan } from "../../../src/models/reliability/level-plan.ts";
import { profileRetention } from "../../../src/models/reliability/profile.ts";
import { run } from "../../outside/reliability/run.ts";
import { oddValues, type Values } from "../odd.ts";
import { expectPaper } from "../periphery/worksheet/paper.ts";

const sheets = new Map(
  [...Object.values(reliability), ...Object.values(stateLoss)]
    .filter((one): one is Sheet => typeof one === "object" && "kind" in one && one.kind === "sheet")
    .map((one) => [one.name, one]),
);
const of = (name: string, given: Values = {}) => oddValues(sheets.get(name)!, given);
const BOLTZMANN = 1.380649e-23;

test("wear spreading: counters of places and writes, an adder and a comparison", () => {
  const v = of("wear_spreading", {
    address_bits: 13,
    rotation_interval: 100,
    flip_flop_transistors: 21,
    full_adder_transistors: 27,
  });
  // Two places of 13 bits, and 100 writes counted in seven; an adder of 13 bits and as many again to compare.
  const flops = 13 + 13 + 7;
  const adders = 13 + 13;
  const count = flops * 21 + adders * 27;
  // Half of the gates switch, two devices each as one inverter.
  const turn = (count / 2 / 2) * v["unit_gate_energy"]!;
  expectPaper(v, {
    rotation_copies: 0.01,
    spreading_flip_flops: flops,
    spreading_transistors: count,
    spreading_area: flops * v["flip_flop_area"]! + adders * 27 * v["transistor_area"]!,
    spreading_energy: turn,
    // A tree over 13 bits is four levels, two more gates, eight units each.
    spreading_delay: 6 * 8 * v["tau"]!,
    spreading_write_energy: turn + (v["read_energy"]! + v["write_energy"]!) / 100,
  });
});

test("scrub: a counter of addresses and a timer, and every word once in the interval", () => {
  const v = of("scrub_logic", {
    address_bits: 13,
    scrub_timer_bits: 20,
    words: 8192,
    flip_flop_transistors: 21,
    half_adder_transistors: 15,
  });
  const energy = 8192 * v["read_energy"]! + 8192 * v["write_energy"]!;
  expectPaper(v, {
    scrub_transistors: 33 * 21 + 33 * 15,
    scrub_area: 33 * v["flip_flop_area"]! + 33 * 15 * v["transistor_area"]!,
    scrub_power: energy / v["scrub_period"]!,
  });
});

describe("levels of a cell", () => {
  const state = {
    on_resistance: 6e3,
    off_resistance: 130e3,
    on_spread: 0.05,
    off_spread: 0.3,
    read_voltage: 0.21,
    cell_on_current: 26e-6,
    cell_off_current: 1.5e-6,
    signal_current: 22e-6,
    drift_exponent_on: 0.003,
    drift_exponent_off: 0.09,
    drift_deviation_on: 0.001,
    drift_deviation_off: 0.03,
    read_noise: 0.04,
  };
  const unstated = { resistance: false, spread: false, drift: false };

  test.each([2, 4, 8])(
    "%i levels lie evenly from on to off, in series with the rest of the path",
    (levels) => {
      for (const series of [true, false]) {
        const v = oddValues(
          levelPlan({ levels, stated: unstated, drifts: true, noise: true, series }),
          state,
        );
        const paper: Record<string, number> = { read_leak: 26e-6 - 1.5e-6 - 22e-6 };
        const step = (on: number, off: number, k: number) => on + ((off - on) / (levels - 1)) * k;
        for (let k = 0; k < levels; k++) {
          const r = Math.exp(step(Math.log(6e3), Math.log(130e3), k));
          const beside = 0.21 / 26e-6 - 6e3;
          const between = series
            ? 0.21 / (r + beside)
            : Math.exp(step(Math.log(26e-6), Math.log(1.5e-6), k));
          const ends: Record<number, number> = { 0: 26e-6, [levels - 1]: 1.5e-6 };
          paper[`level_resistance_${k + 1}`] = r;
          paper[`level_current_${k + 1}`] = ends[k] ?? between;
          paper[`level_spread_${k + 1}`] = Math.hypot(step(0.05, 0.3, k), 0.04);
          paper[`level_drift_${k + 1}`] = step(0.003, 0.09, k);
          paper[`level_drift_deviation_${k + 1}`] = step(0.001, 0.03, k);
        }
        expectPaper(v, paper);
      }
    },
  );

  test("what a study states is taken, and what does not drift has no drift", () => {
    const stated = { resistance: true, spread: true, drift: true };
    const own = {
      level_resistance_1: 7e3,
      level_resistance_2: 19e3,
      level_resistance_3: 88e3,
      level_written_spread_1: 0.02,
      level_written_spread_2: 0.11,
      level_written_spread_3: 0.2,
    };
    for (const series of [true, false]) {
      const v = oddValues(levelPlan({ levels: 3, stated, drifts: true, noise: false, series }), {
        ...state,
        ...own,
      });
      for (const [k, r] of [7e3, 19e3, 88e3].entries()) {
        const beside = 0.21 / 26e-6 - 6e3;
        const share = Math.log(r / 6e3) / Math.log(130 / 6);
        const current = series ? 0.21 / (r + beside) : 26e-6 * Math.exp(share * Math.log(1.5 / 26));
        expectPaper(v, {
          [`level_current_${k + 1}`]: current,
          [`level_spread_${k + 1}`]: [0.02, 0.11, 0.2][k]!,
        });
        expect(v[`level_drift_${k + 1}`]).toBeUndefined();
      }
    }
    const plan = { levels: 3, stated: unstated, drifts: false, noise: false, series: true };
    const still = oddValues(levelPlan(plan), state);
    for (const k of [1, 2, 3]) {
      expect(still[`level_drift_${k}`]).toBe(0);
      expect(still[`level_drift_deviation_${k}`]).toBe(0);
    }
    expectPaper(still, { level_spread_2: 0.175 });
    expect(oddValues(levelPlan(plan), { ...state, signal_current: 25e-6 })["read_leak"]).toBe(0);
  });
});

test("a year's temperatures: rates of loss by Arrhenius add up, and one temperature loses as much", () => {
  const ev = 1.602176634e-19;
  const steps = [
    [283, 0.5],
    [298, 0.3],
    [331, 0.2],
  ] as const;
  const given: Record<string, number> = {
    retention_time: 3.1e8,
    retention_temperature: 358,
    activation_energy: 1.1 * ev,
  };
  for (const [k, [temperature, share]] of steps.entries()) {
    given[`profile_temperature_${k + 1}`] = temperature;
    given[`profile_share_${k + 1}`] = share;
  }
  const v = oddValues(profileRetention(3), given);
  const rate = (t: number) =>
    Math.exp((-1.1 * ev) / (BOLTZMANN * t)) / Math.exp((-1.1 * ev) / (BOLTZMANN * 358));
  const mean = steps.reduce((sum, [t, share]) => sum + share * rate(t), 0);
  let [cold, hot] = [200, 400];
  for (let i = 0; i < 80; i++) {
    const middle = (cold + hot) / 2;
    if (rate(middle) < mean) cold = middle;
    else hot = middle;
  }
  expectPaper(v, {
    profile_rate: mean,
    retention: 3.1e8 / mean,
    profile_effective_temperature: cold,
  });
});

describe("states that change", () => {
  test("what survives one loss and another is a product", () => {
    const given = {
      bit_flip_rate: 3e-9,
      storage_time: 4e7,
      lost_share: 0.1,
      retention: 9e7,
      loss_shape: 1.6,
    };
    const flipped = 1 - Math.exp(-3e-9 * 4e7);
    // A tenth is lost by the retention: a Weibull law through that point.
    const lost = 1 - 0.9 ** ((4 / 9) ** 1.6);
    expectPaper(of("states_flipped", given), { changed_share: flipped });
    expectPaper(of("states_lost", given), { changed_share: lost });
    expectPaper(of("states_lost_or_flipped", given), {
      changed_share: 1 - (1 - flipped) * (1 - lost),
    });
    expect(of("states_kept", given)["changed_share"]).toBe(0);
    // A changed bit is read wrong, and so is a kept one at the rate of reads.
    const v = of("changed_bits", { read_error: 0.02, changed_share: 0.03 });
    expectPaper(v, { bit_error_rate: 1 - (1 - 0.02) * (1 - 0.03) });
  });

  test("drift: currents fall and spreads grow with the logarithm of the time", () => {
    const given = { drift_decades: 11, drift_exponent_on: 0.004, drift_exponent_off: 0.08 };
    const v = of("drifted_pair", given);
    for (const [state, exponent] of [
      ["on", 0.004],
      ["off", 0.08],
    ] as const) {
      expectPaper(v, {
        [`drifted_${state}_current`]: v[`cell_${state}_current`]! / Math.exp(11) ** exponent,
        [`drifted_${state}_spread`]: Math.hypot(
          v[`${state}_spread`]!,
          11 * v[`drift_deviation_${state}`]!,
        ),
      });
    }
  });

  test("a read holds a state as much longer as sinh(V / V0) is smaller", () => {
    const given = {
      set_time: 20e-9,
      reset_time: 70e-9,
      set_voltage: 1.2,
      reset_voltage: 1.5,
      read_voltage: 0.3,
      rate_voltage: 0.06,
    };
    const set = (20e-9 * Math.sinh(20)) / Math.sinh(5);
    const reset = (70e-9 * Math.sinh(25)) / Math.sinh(5);
    const slow = of("read_hold", { ...given, rate_voltage: 1.5 });
    expectPaper(slow, {
      set_hold: (20e-9 * Math.sinh(0.8)) / Math.sinh(0.2),
      reset_hold: (70e-9 * Math.sinh(1)) / Math.sinh(0.2),
    });
    expectPaper(of("read_hold", given), {
      set_hold: set,
      reset_hold: reset,
      read_hold_time: Math.min(set, reset),
    });
  });

  test("thermal switching: a rate by Boltzmann, and the barrier that a macro needs", () => {
    const v = of("thermal_loss", {
      storage_time: 3e8,
      attempt_time: 1e-9,
      stability: 45,
      words: 4096,
      macro_loss_target: 0.01,
    });
    const rate = Math.exp(-45) / 1e-9;
    expectPaper(v, { bit_loss: -Math.expm1(-3e8 * rate) });
    // With that barrier, the words together keep with 99 %.
    const all = 4096 * (3e8 / 1e-9) * Math.exp(-v["needed_stability"]!);
    expect(Math.exp(-all)).toBeCloseTo(0.99, 12);
  });
});

test("charge on a column: the noise of its capacitors, its amplifier's offset, its cells' spread", () => {
  const v = of("charge_read_errors", {
    signal_voltage: 0.11,
    sense_amplifier_offset_sigma: 0.008,
    on_spread: 0.1,
    temperature: 350,
    storage_capacitance: 20e-15,
    column_capacitance: 80e-15,
  });
  const noise = Math.sqrt((BOLTZMANN * 350) / 100e-15);
  expectPaper(v, { charge_noise: noise });
  const sigma = Math.hypot(0.008, noise, 0.1 * 0.11);
  const z = 0.11 / sigma;
  // The tail of the normal law by its continued fraction.
  let fraction = z;
  for (let k = 200; k >= 1; k--) fraction = z + k / fraction;
  expectPaper(v, { bit_error_rate: Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI) / fraction });
});

describe("defects", () => {
  // Defects per die spread as a gamma law of so many clusters: e^-D averaged over it by Simpson's rule.
  test("yield of a die: no defect, averaged over how densities spread", () => {
    const v = of("defect_yield", { defect_count: 0.7, clustering: 2 });
    const n = 20_000;
    const most = 40;
    let clustered = 0;
    let exponential = 0;
    for (let k = 0; k <= n; k++) {
      const x = (most * k) / n;
      const weight = k === 0 || k === n ? 1 : k % 2 === 1 ? 4 : 2;
      // Density of the mean 0.7 in two clusters, and of an exponential law.
      clustered += weight * Math.exp(-x) * (x / 0.35 ** 2) * Math.exp(-x / 0.35);
      exponential += (weight * Math.exp(-x) * Math.exp(-x / 0.7)) / 0.7;
    }
    const step = most / n / 3;
    expect(v["clustered_yield"]! / (clustered * step)).toBeCloseTo(1, 7);
    expect(v["exponential_weighted_yield"]! / (exponential * step)).toBeCloseTo(1, 7);
    expectPaper(v, {
      poisson_yield: Math.E ** -0.7,
      root_exponential_yield: Math.E ** -(0.7 ** 0.5),
    });
    for (const law of ["poisson", "clustered", "exponential_weighted", "root_exponential"]) {
      expect(v[`${law}_yield`]! + v[`${law}_loss`]!).toBeCloseTo(1, 14);
    }
  });

  test("cells, rows and junctions that must all be good: products of what each can do", () => {
    const cells = of("cell_yield", { cells: 900, cell_fault: 2e-3, repairable_cells: 1 });
    const good = 0.998 ** 900;
    const one = 900 * 2e-3 * 0.998 ** 899;
    expectPaper(cells, {
      all_cells_good: good,
      any_cell_bad: 1 - good,
      cell_repair_loss: 1 - good - one,
    });
    const rows = of("spare_rows_yield", {
      cells_per_row: 70,
      cell_fault: 2e-3,
      rows: 5,
      spare_rows: 1,
    });
    const bad = 1 - 0.998 ** 70;
    const lost = 1 - (1 - bad) ** 6 - 6 * bad * (1 - bad) ** 5;
    expectPaper(rows, { row_fault: bad, spare_rows_loss: lost });
    const given = { rows: 9, columns: 14, short_fault: 1e-3, open_fault: 4e-3 };
    const junctions = of("stuck_junctions", given);
    // A short takes its row and its column away, an open junction itself.
    const usable = 0.999 ** 22 * 0.996;
    expectPaper(junctions, {
      junction_loss: 1 - usable,
      usable_junctions: 126 * usable,
      all_junctions_usable: (0.999 * 0.996) ** 126,
    });
  });

  test("a spare for each bank, or as many for all: at most as many faults as there are spares", () => {
    const v = of("bank_spares", { banks: 3, faults_per_bank: 0.4 });
    const none = Math.E ** -0.4;
    const poisson = [0, 1, 2, 3].map((k) => (Math.E ** -1.2 * 1.2 ** k) / [1, 1, 2, 6][k]!);
    const shared = poisson.reduce((a, b) => a + b, 0);
    expectPaper(v, {
      local_spare_yield: (none + 0.4 * none) ** 3,
      shared_spare_yield: shared,
      shared_spare_loss: 1 - shared,
    });
  });
});

// No failure of n devices: at confidence C a fraction 1 - (1 - C)^(1/n) may fail, and a rate -ln(1 - C) over the time.
test("bounds after a test without failures are the closed forms of no event", () => {
  const given = { devices: 77, device_time: 2e8, acceleration: 30, failures: 0, confidence: 0.9 };
  const v = run(reliability.failureBounds, given);
  expect(v["failing_fraction_bound"]! / (1 - 0.1 ** (1 / 77))).toBeCloseTo(1, 9);
  expect(v["failure_rate_bound"]! / (Math.log(10) / (2e8 * 30))).toBeCloseTo(1, 9);
});
