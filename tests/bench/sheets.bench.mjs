// Sheet evaluations per second: compiled, against the same chain by hand and against mathjs with units.

import { all, create } from "mathjs";
import { assemble, compile, parseFormula, sheet } from "../../dist/formulas.js";

export const name = "sheets";

const BLOCKS = 8;
const SETS = 4096;
const OUTPUTS = ["delay", "energy", "next_load"];

/** One stage of a chain: a wire, its driver and its energy; ten formulas. */
const stage = sheet({
  name: "stage",
  title: "A wire and its driver",
  about: "A chain for timing.",
  inputs: inputs({
    width: "m",
    thickness: "m",
    length: "m",
    resistivity: "ohm m",
    density: "F/m",
    load: "F",
    unit_load: "F",
    threshold: "V",
    slope: "V",
    supply: "V",
  }),
  formulas: formulas({
    area: ["m^2", "width * thickness"],
    resistance: ["ohm", "resistivity * length / area"],
    capacitance: ["F", "density * length + load"],
    delay: ["s", "0.38 * resistance * capacitance"],
    effort: ["1", "max(capacitance / unit_load, 1)"],
    stages: ["1", "max(ceil(log(effort) / log(4)), 1)"],
    stage_effort: ["1", "effort ^ (1 / stages)"],
    leak: ["1", "exp(-threshold / slope)"],
    energy: ["J", "capacitance * supply^2 * (stage_effort + leak)"],
    next_load: ["F", "min(load + 0.1 * capacitance, 4 * sqrt(capacitance * unit_load))"],
  }),
});

function inputs(units) {
  return Object.fromEntries(
    Object.entries(units).map(([key, unit]) => [key, { unit, meaning: key }]),
  );
}

function formulas(lines) {
  const source = "common practice";
  return Object.fromEntries(
    Object.entries(lines).map(([key, [unit, formula]]) => [
      key,
      { unit, formula, source, meaning: key },
    ]),
  );
}

/** Given quantities with a typical value and its unit. */
const GIVEN = {
  width: [90e-9, "m"],
  thickness: [160e-9, "m"],
  length: [120e-6, "m"],
  resistivity: [3.2e-8, "ohm m"],
  density: [2e-10, "F/m"],
  load: [2e-15, "F"],
  unit_load: [0.4e-15, "F"],
  threshold: [0.32, "V"],
  slope: [0.039, "V"],
  supply: [1.1, "V"],
};
const NAMES = Object.keys(GIVEN);

/** The chain as a person writes it. The results of each stage go to `out`. */
function byHand(
  width,
  thickness,
  length,
  resistivity,
  density,
  first,
  unitLoad,
  vt,
  slope,
  vdd,
  out,
) {
  let load = first;
  for (let i = 0; i < BLOCKS; i++) {
    const area = width * thickness;
    const resistance = (resistivity * length) / area;
    const capacitance = density * length + load;
    const effort = Math.max(capacitance / unitLoad, 1);
    const stages = Math.max(Math.ceil(Math.log(effort) / Math.log(4)), 1);
    const stageEffort = effort ** (1 / stages);
    const leak = Math.exp(-vt / slope);
    out[3 * i] = 0.38 * resistance * capacitance;
    out[3 * i + 1] = capacitance * vdd * vdd * (stageEffort + leak);
    load = Math.min(load + 0.1 * capacitance, 4 * Math.sqrt(capacitance * unitLoad));
    out[3 * i + 2] = load;
  }
}

function byHandMany(columns, count, outputs) {
  const [width, thickness, length, resistivity, density, load, unitLoad, vt, slope, vdd] = columns;
  const row = new Float64Array(outputs.length);
  for (let j = 0; j < count; j++) {
    byHand(
      width[j],
      thickness[j],
      length[j],
      resistivity[j],
      density[j],
      load[j],
      unitLoad[j],
      vt[j],
      slope[j],
      vdd[j],
      row,
    );
    for (let o = 0; o < row.length; o++) outputs[o][j] = row[o];
  }
}

/** Runs `work` (which does `per` sheets) for about `seconds`; sheets per second, median of five. */
function speed(work, per, seconds = 0.1) {
  const rates = [];
  for (let round = 0; round < 6; round++) {
    let runs = 0;
    const start = performance.now();
    while (performance.now() - start < 1000 * seconds) {
      work();
      runs++;
    }
    rates.push((1000 * runs * per) / (performance.now() - start));
  }
  // The first round warms up.
  return rates.slice(1).sort((a, b) => a - b)[2];
}

/** The chain with units in mathjs, formula by formula. */
function withUnits(program) {
  const math = create(all);
  const scope = new Map();
  for (const [key, [value, unit]] of Object.entries(GIVEN)) {
    scope.set(key, math.unit(value, unit.replace(/ /g, " * ")));
  }
  const texts = new Map();
  for (let i = 0; i < BLOCKS; i++) {
    for (const [local, { formula }] of Object.entries(stage.formulas)) {
      const own = (word) => (word in stage.formulas ? `b${i}_${word}` : word);
      const bound = (word) => (word === "load" && i > 0 ? `b${i - 1}_next_load` : own(word));
      texts.set(`b${i}_${local}`, formula.replace(/[a-z_]+\w*/g, bound));
    }
  }
  const steps = program.steps.map((step) => [step.name, math.compile(texts.get(step.name))]);
  return () => {
    for (const [key, code] of steps) scope.set(key, code.evaluate(scope));
    return scope;
  };
}

export async function run(report) {
  const instances = Array.from({ length: BLOCKS }, (_, i) => ({
    of: stage,
    prefix: `b${i}_`,
    bind: i === 0 ? {} : { load: `b${i - 1}_next_load` },
  }));
  const given = NAMES.map((key) => ({ name: key, unit: GIVEN[key][1] }));
  const begin = performance.now();
  const program = assemble(instances, given, parseFormula);
  const assembled = performance.now();
  const outputs = instances.flatMap(({ prefix }) => OUTPUTS.map((output) => prefix + output));
  const code = compile(program, outputs);
  const one = Float64Array.from(code.inputs, (key) => GIVEN[key][0]);
  const values = new Float64Array(outputs.length);
  code.evaluate(one, values);
  const compiled = performance.now();

  const columns = Array.from(code.inputs, (key) =>
    Float64Array.from({ length: SETS }, (_, j) => GIVEN[key][0] * (1 + j / SETS)),
  );
  const ours = outputs.map(() => new Float64Array(SETS));
  const hand = outputs.map(() => new Float64Array(SETS));
  code.evaluateMany(columns, SETS, ours);
  byHandMany(columns, SETS, hand);
  let worst = 0;
  ours.forEach((column, o) => {
    column.forEach((value, j) => {
      worst = Math.max(worst, Math.abs(value / hand[o][j] - 1));
    });
  });
  if (!(worst < 1e-13))
    throw new Error(`the compiled chain differs from the one by hand: ${worst}`);

  const many = speed(() => code.evaluateMany(columns, SETS, ours), SETS);
  const manyByHand = speed(() => byHandMany(columns, SETS, hand), SETS);
  const single = speed(() => {
    for (let j = 0; j < 1000; j++) {
      one[2] = 120e-6 + j * 1e-9;
      code.evaluate(one, values);
    }
  }, 1000);
  const singleByHand = speed(() => {
    for (let j = 0; j < 1000; j++) {
      one[2] = 120e-6 + j * 1e-9;
      const [w, t, l, rho, c, first, cu, vt, n, vdd] = one;
      byHand(w, t, l, rho, c, first, cu, vt, n, vdd, values);
    }
  }, 1000);
  const units = speed(withUnits(program), 1, 0.05);

  const rate = (x) => `${x.toPrecision(3)}/s`;
  report(`${10 * BLOCKS} formulas, ${outputs.length} outputs; largest difference ${worst}`);
  report(`many sets    compiled ${rate(many)}, by hand ${rate(manyByHand)}`);
  report(`             compiled / by hand = ${(many / manyByHand).toFixed(2)} (aim: at least 0.5)`);
  report(`one by one   compiled ${rate(single)}, by hand ${rate(singleByHand)}`);
  report(
    `             compiled / by hand = ${(single / singleByHand).toFixed(2)} (aim: at least 0.5)`,
  );
  report(`with units   mathjs ${rate(units)}: compiled / mathjs = ${(many / units).toFixed(0)}`);
  report(
    `set-up       parse and assemble ${(assembled - begin).toFixed(1)} ms, ` +
      `generate and first run ${(compiled - assembled).toFixed(1)} ms`,
  );
}
