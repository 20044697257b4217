// Worked examples of shared/checks/delay-checks.yaml: numbers, tolerances and sources stand there.
import { expect, test } from "vitest";
import { lineDrop } from "../../src/models/crossbar/closed/line-drop.ts";
import { sneakResistance } from "../../src/models/crossbar/closed/sneak.ts";
import { capacitance, resistorNoise } from "../../src/models/process/circuit.ts";
import { subthreshold } from "../../src/models/process/subthreshold.ts";
import { ladderCrossing, lineCrossing } from "../../src/models/wire/crossing.ts";
import { ladderDelay, lineDelay, lumpedDelay } from "../../src/models/wire/line-delay.ts";
import { filmSurface, sizeEffect } from "../../src/models/wire/size-effect.ts";
import { wire } from "../../src/models/wire/wire.ts";
import { evaluateOne } from "../models/evaluate.ts";
import { expectWorked, inputsOf } from "./checks.ts";

const unitLine = {
  driver_resistance: 0,
  line_resistance: 1,
  line_capacitance: 1,
  load_capacitance: 0,
};

test("a lumped resistance and capacitance reach half and rise as the exponential does", () => {
  const { R, C } = inputsOf("rc-step");
  const got = evaluateOne(lumpedDelay, { lumped_resistance: R!, lumped_capacitance: C! });
  expectWorked("rc-step", "t50", got["half_time"]!);
  expectWorked("rc-step", "t50_over_RC", got["half_time"]! / (R! * C!));
  expectWorked("rc-step", "tr", got["rise_time"]!);
  expectWorked("rc-step", "tr_over_RC", got["rise_time"]! / (R! * C!));
});

test("the exact line crosses each share when the solution of the diffusion equation does", () => {
  const at = (share: number) => evaluateOne(lineCrossing, { ...unitLine, share })["crossing_time"]!;
  expectWorked("rc-line", "t10", at(0.1));
  expectWorked("rc-line", "t50", at(0.5));
  expectWorked("rc-line", "t63_2", at(1 - Math.exp(-1)));
  expectWorked("rc-line", "t90", at(0.9));
  expectWorked("rc-line", "t90_minus_t10", at(0.9) - at(0.1));
});

test("an open line of 2 mm has the worked delay and first moment", () => {
  const { r, c, L } = inputsOf("rc-line");
  const whole = { line_resistance: r! * L!, line_capacitance: c! * L! };
  const ladder = evaluateOne(ladderDelay, { ...whole, sections: 100 });
  expectWorked("rc-line", "rc_line_example_t50", ladder["line_half_time"]!);
  const line = evaluateOne(lineDelay, { ...unitLine, ...whole });
  expectWorked("rc-line", "elmore_T", line["mean_delay"]!);
});

test("ladders have the first moment of their sum and the half time of their linear system", () => {
  for (const sections of inputsOf<number[]>("elmore-ladder")["N_list"]!) {
    const whole = { sections, line_resistance: 1, line_capacitance: 1 };
    const { ladder_mean_delay } = evaluateOne(ladderDelay, whole);
    expectWorked("elmore-ladder", `T_N${sections}`, ladder_mean_delay!);
    const { crossing_time } = evaluateOne(ladderCrossing, { ...whole, share: 0.5 });
    expectWorked("ladder-actual-50", `t50_N${sections}`, crossing_time!);
  }
});

test("the line delay of sheets is the published fit, and the exact one the solved response", () => {
  const inputs = inputsOf("driver-line-load");
  for (const which of ["a", "b"]) {
    const line = {
      driver_resistance: inputs[`case_${which}_Rd`]!,
      load_capacitance: inputs[`case_${which}_CL`]!,
      line_resistance: inputs["R"]!,
      line_capacitance: inputs["C"]!,
    };
    expectWorked("driver-line-load", `fit_${which}`, evaluateOne(lineDelay, line)["delay"]!);
    const exact = evaluateOne(lineCrossing, { ...line, share: 0.5 })["crossing_time"]!;
    expectWorked("driver-line-load", `exact_${which}`, exact);
  }
});

test("charging, slewing and noise of a capacitance", () => {
  const energy = inputsOf("cv2-energy");
  const noise = inputsOf("noise");
  const slew = inputsOf("sense-offset-and-bitline");
  const charge = (C: number, V: number, dV: number, I: number) =>
    evaluateOne(capacitance, {
      charged_capacitance: C,
      charged_voltage: V,
      voltage_step: dV,
      moving_current: I,
      temperature: noise["T"]!,
    });
  const first = charge(energy["C"]!, energy["V"]!, energy["dV"]!, 1);
  expectWorked("cv2-energy", "E_supply", first["supply_energy"]!);
  expectWorked("cv2-energy", "E_stored", first["stored_energy"]!);
  expectWorked("cv2-energy", "E_swing", first["swing_energy"]!);
  const second = charge(slew["C"]!, 1, slew["dV"]!, slew["I"]!);
  expectWorked("sense-offset-and-bitline", "t", second["slewing_time"]!);
  const third = charge(noise["C"]!, 1, 1, 1);
  expectWorked("noise", "v_rms", third["sampled_noise"]!);
  expectWorked("noise", "electrons_rms", third["sampled_electrons"]!);
  const given = { temperature: noise["T"]!, noisy_resistance: noise["R"]!, bandwidth: noise["B"]! };
  const thermal = evaluateOne(resistorNoise, given);
  expectWorked("noise", "thermal_noise_v_rms", thermal["noise_voltage"]!);
  expectWorked("noise", "i_rms", thermal["noise_current"]!);
});

test("swing and off-current follow from the slope factor", () => {
  const { n, T, Vt, I0 } = inputsOf("subthreshold");
  const got = evaluateOne(subthreshold, {
    slope_factor: n!,
    temperature: T!,
    threshold_voltage: Vt!,
    threshold_current: I0! * 1e6, // from per um
  });
  expectWorked("subthreshold", "S", got["swing"]!);
  expectWorked("subthreshold", "S_ideal", got["least_swing"]!);
  expectWorked("subthreshold", "I_off", got["off_current"]! / 1e6);
});

test("wire capacitance is the empirical formula for one plane", () => {
  const { w, h, t, k } = inputsOf("wire-cap-single-and-plate");
  const { s } = inputsOf("wire-cap-three");
  const got = evaluateOne(wire, {
    width: w!,
    spacing: s!,
    thickness: t!,
    plane_distance_ratio: h! / t!,
    permittivity: k!,
    resistivity: 1,
    planes: 1,
    capacitance_formula_factor: 1,
    metal_temperature_slope: 0,
    temperature: 300,
    reference_temperature: 300,
  });
  // The example takes the vacuum permittivity of an earlier adjustment, 2e-11 apart.
  const epsilon = 8.8541878128e-12 * k!;
  expectWorked("wire-cap-single-and-plate", "C_over_eps", got["plane_part"]!);
  expectWorked("wire-cap-single-and-plate", "C", got["plane_part"]! * epsilon);
  expectWorked("wire-cap-three", "Cc_over_eps", got["neighbour_part"]!);
  expectWorked("wire-cap-three", "C_total", got["capacitance_per_length"]!);
});

test("a film's resistivity is the exact surface integral", () => {
  for (const [name, k, p] of [
    ["k1_p0", 1, 0],
    ["k2_p0_5", 2, 0.5],
    ["k0_25_p0", 0.25, 0],
  ] as const) {
    const got = evaluateOne(filmSurface, { film_ratio: k, surface_specularity: p });
    expectWorked("size-film", name, got["film_factor"]!);
  }
});

const bulk = {
  barrier_thickness: 0,
  grain_size_ratio: 1,
  geometry_factor: 1.2,
  bulk_resistivity: 1.725e-8,
  mean_free_path: 3.88e-8,
  surface_specularity: 0.52,
  grain_reflection: 0.43,
};

test("grain boundaries raise the resistivity as the closed form says", () => {
  for (const a of inputsOf<number[]>("size-grain")["a_list"]!) {
    // With half of the electrons reflected the parameter is the mean free path over the grain size.
    const given = { ...bulk, grain_reflection: 0.5, mean_free_path: a, width: 1, thickness: 1 };
    const name = `a${a}`.replace(".", "_");
    expectWorked("size-grain", name, evaluateOne(sizeEffect, given)["grain_factor"]!);
  }
});

test("copper wires have the worked resistivity, and less than it never", () => {
  for (const width of inputsOf<number[]>("size-wire-cu")["widths"]!) {
    const got = evaluateOne(sizeEffect, { ...bulk, width, thickness: 2 * width });
    expectWorked("size-wire-cu", `rho_${Math.round(width * 1e9)}nm`, got["resistivity"]!);
    const clad = evaluateOne(sizeEffect, {
      ...bulk,
      width,
      thickness: 2 * width,
      barrier_thickness: 1e-9,
    });
    expect(clad["resistivity"]!).toBeGreaterThan(got["resistivity"]!);
  }
});

test("lines with equal sinks lose the worked voltage", () => {
  const { N, r, I, line_resistive_load_N, Rs } = inputsOf("line-drop");
  const given = { segment_resistance: r!, sink_current: I!, sink_resistance: Rs! };
  const currents = evaluateOne(lineDrop, { ...given, sinks: N! });
  expectWorked("line-drop", "dV", currents["sink_drop"]!);
  const loads = evaluateOne(lineDrop, { ...given, sinks: line_resistive_load_N! });
  expectWorked("line-drop", "ratio", loads["far_end_ratio"]!);
});

test("the sneak path of equal junctions has the worked resistance", () => {
  const { m, n, R } = inputsOf("sneak-resistance");
  const given = { rows: m!, columns: n!, junction_resistance: R! };
  const { sneak_path_resistance } = evaluateOne(sneakResistance, given);
  expectWorked("sneak-resistance", "Rs", sneak_path_resistance!);
  expectWorked("sneak-resistance", "ratio_to_device", sneak_path_resistance! / R!);
});
