import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import width from "string-width";
import { expect, test } from "vitest";
import { scratch, tenfold } from "./run.ts";

/** Invented, from textbook ranges. */
const FILM = `format: tenfold.switch/1
name: film
title: A film
about: Invented.
values:
  film_thickness: 3 nm
  electrode_area: 100 nm^2
  least_gap: 0.3 nm
  most_gap: 0.9 nm
  barrier_height: 1 eV
  conductive_resistivity: 5e-5 ohm m
  hop_distance: 0.3 nm
  hop_energy: 1.1 eV
  set_voltage: 2.6 V
  reset_voltage: 2.6 V
  read_voltage: 0.2 V
`;

/** Runs the program on the film in a directory of its own, with a table of measured points. */
function film(args: readonly string[], table = "", text = FILM) {
  const cwd = scratch();
  writeFileSync(join(cwd, "film.yaml"), text);
  writeFileSync(join(cwd, "points.csv"), table);
  return { ...tenfold(["switch", "film.yaml", ...args], { cwd }), cwd };
}

/** The loop as rows of time-ordered [voltage, current] in SI. */
function loopOf(...args: readonly string[]): number[][] {
  const { out, err } = film(["--part", "loop", "--format", "csv", ...args]);
  expect(err).toBe("");
  const rows = out.trim().split(/\r?\n/).slice(1);
  return rows.map((row) => [Number(row.split(",")[0]), Number(row.split(",")[2])]);
}

const largest = (rows: readonly number[][]) => Math.max(...rows.map(([, i]) => Math.abs(i!)));

test("switch prints its tables in 80 columns, and a chart on request", () => {
  const { code, out, err, cwd } = film(["--chart", "times.svg"]);
  expect(err).toBe("");
  expect(code).toBe(0);
  expect(out).toMatch(/\n260 mV|\n 260 mV/);
  expect(out).toContain("Current-voltage loop, triangle of 1 s");
  expect(Math.max(...out.split("\n").map((line) => width(line)))).toBeLessThanOrEqual(80);
  expect(readFileSync(join(cwd, "times.svg"), "utf8")).toMatch(/^<svg/);
});

test.each(["triangle", "sine", "pulse"])("a %s drives a passive loop, pinched at 0 V", (drive) => {
  const rows = loopOf("--drive", drive, "--period", "1 ms", "--amplitude", "2.5 V");
  expect(rows.length).toBeGreaterThan(50);
  for (const [voltage, current] of rows) {
    expect(Math.abs(voltage!)).toBeLessThanOrEqual(2.5);
    expect(voltage! * current!).toBeGreaterThanOrEqual(0);
    if (voltage === 0) expect(current).toBe(0);
  }
});

test("--current-limit and --series-resistance bound the current of the loop", () => {
  expect(largest(loopOf())).toBeGreaterThan(1e-4);
  expect(largest(loopOf("--current-limit", "20 uA"))).toBeCloseTo(20e-6, 12);
  // Ohm's law: the whole voltage across the resistance alone.
  expect(largest(loopOf("--series-resistance", "1 Mohm"))).toBeLessThan(2.6e-6);
});

test.each([
  [["--period", "0 s"], "period"],
  [["--period", "3 V"], "--period: `3 V` is in V"],
  [["--drive", "pulse", "--width", "0.9 s"], "--period near four times --width"],
  [["--current-limit", "0 A"], "--current-limit above 0"],
  [["--temperatures", "-40 degC, warm"], "--temperatures"],
  [["--part", "levels"], "there is no table `levels` here"],
  [["--levels", "1"], "1 levels cannot be"],
  [["--levels", "2", "--fit", "points.csv"], "--fit and --levels"],
  [["--levels", "4", "--window", "1.5"], "window"],
  [["--levels", "4", "--read-time", "3 V"], "--read-time: `3 V` is in V"],
])("%j is refused with what to do", (args, words) => {
  const { code, err, out } = film(args);
  expect(code).toBe(2);
  expect(out).toBe("");
  expect(err).toContain(words);
});

test("a bad line of a measured table is named by file, line and column", () => {
  const { code, err } = film(["--fit", "points.csv"], "voltage,time (ns)\n2,300\n2.2,fast\n");
  expect(code).toBe(2);
  expect(err).toContain("points.csv:3:5");
  expect(err).toContain("`fast` is no number");
});

test("a loop that the program wrote, fitted from another film, gives barrier and hop energy", () => {
  const data = JSON.parse(film(["--format", "json"]).out);
  const points: { time: number; voltage: number; current: number }[] = data.loop.points;
  const table = points.map(({ time, voltage, current }) => `${time},${voltage},${current}`);
  const text = `time,voltage,current\n${table.join("\n")}\n`;
  const start = FILM.replace("1 eV", "0.97 eV").replace("1.1 eV", "1.12 eV");
  const { code, out, err } = film(["--fit", "points.csv", "--format", "json"], text, start);
  expect(err).toBe("");
  expect(code).toBe(0);
  const { parameters } = JSON.parse(out) as { parameters: { name: string; value: number }[] };
  const electronvolts = parameters.map(({ value }) => value / 1.602176634e-19);
  expect(parameters.map(({ name }) => name)).toEqual(["barrier_height", "hop_energy"]);
  expect(electronvolts[0]).toBeCloseTo(1, 6);
  expect(electronvolts[1]).toBeCloseTo(1.1, 6);
});

test("a table without the columns of a measurement is refused by its line", () => {
  const { code, err } = film(["--fit", "points.csv"], "# remark\nvoltage,time (V)\n1,2\n");
  expect(code).toBe(2);
  expect(err).toContain("points.csv:2:9");
  expect(film(["--fit", "points.csv"], "").err).toContain("holds no measurement");
  const twice = film(["--fit", "points.csv"], "voltage,time,time\n1,2,3\n").err;
  expect(twice).toContain("two columns are named `time`");
});

const TIMES =
  "voltage (V),time (ns)\n1.2,4e7\n1.6,1.5e5\n2,2500\n2.4,40\n-1.5,1.2e6\n-2,9000\n-2.6,6\n";

test("a fit prints three intervals within 80 columns, its residuals, and a picture of both", () => {
  const options = ["--fit", "points.csv", "--refits", "20", "--chart", "fit.svg"];
  const { code, out, err, cwd } = film(options, TIMES);
  expect(err).toBe("");
  expect(code).toBe(0);
  for (const words of ["by slopes", "by refits", "by resampling", "residual", "from the others"])
    expect(out).toContain(words);
  expect(Math.max(...out.split("\n").map((line) => width(line)))).toBeLessThanOrEqual(80);
  const picture = readFileSync(join(cwd, "fit.svg"), "utf8");
  expect(picture).toMatch(/^<svg/);
  expect(picture).toContain("ln(fitted/measured)");
});

test("the circuit of the measurement is part of the fit", () => {
  const fitted = (name: string, ...circuit: string[]) => {
    const { out } = film(["--fit", "points.csv", "--format", "json", ...circuit], TIMES);
    const { parameters } = JSON.parse(out) as { parameters: { name: string; value: number }[] };
    return parameters.find((one) => one.name === name)!.value;
  };
  const bare = fitted("hop_distance");
  // What a resistance takes of the voltage the hops must make up for.
  expect(fitted("hop_distance", "--series-resistance", "20 kohm")).toBeGreaterThan(1.02 * bare);
});

test("--temperatures makes the table of times, hotter always faster", () => {
  const { out, err } = film([
    ...["--part", "temperatures", "--format", "csv"],
    ...["--temperatures", "-40 degC, 25 degC,85 degC"],
  ]);
  expect(err).toBe("");
  const rows = out
    .trim()
    .split(/\r?\n/)
    .slice(1)
    .map((row) => row.split(",").filter((cell) => !Number.isNaN(Number(cell)) && cell !== ""));
  expect(rows.map(([kelvin]) => Number(kelvin))).toEqual([233.15, 298.15, 358.15]);
  for (const column of [1, 2, 3, 4, 5]) {
    const times = rows.map((row) => Number(row[column]));
    expect([...times].sort((a, b) => b - a)).toEqual(times);
  }
});

test("--levels prints what each level costs, in 80 columns, as data, and as a picture", () => {
  const options = ["--levels", "3", "--writes", "20", "--chart", "levels.svg"];
  const { code, out, err, cwd } = film(options);
  expect(err).toBe("");
  expect(code).toBe(0);
  expect(out).toContain("Each write begins with a whole set");
  expect(out).toContain("`verify_pulses:");
  expect(Math.max(...out.split("\n").map((line) => width(line)))).toBeLessThanOrEqual(80);
  expect(readFileSync(join(cwd, "levels.svg"), "utf8")).toMatch(/^<svg/);
  const table = film([
    "--levels",
    "3",
    "--writes",
    "20",
    "--part",
    "levels",
    "--format",
    "csv",
  ]).out;
  expect(table.trim().split(/\r?\n/)).toHaveLength(4);
  const data = JSON.parse(film(["--levels", "3", "--writes", "20", "--format", "json"]).out);
  expect(data.format).toBe("tenfold.switch-levels/1");
  expect(data.levels).toHaveLength(3);
  expect(data.study.verify_pulses).toBeGreaterThanOrEqual(1);
});

test("--part loop draws the loop", () => {
  const { cwd, err } = film(["--part", "loop", "--chart", "loop.svg"]);
  expect(err).toBe("");
  expect(readFileSync(join(cwd, "loop.svg"), "utf8")).toContain("Current-voltage loop");
});
