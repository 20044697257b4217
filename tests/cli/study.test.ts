import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import width from "string-width";
import { expect, test } from "vitest";
import manifest from "../../package.json" with { type: "json" };
import { scratch, tenfold } from "./run.ts";

const STUDY = `title: Two memories
baseline: static
samples: 64
defaults: {capacity: 64 Kib, word: 32 bit}
designs:
  static: {cell: sram-6t}
  resistive:
    cell: {switch: oxide-bilayer, selector: transistor}
`;

const run = (...args: string[]) => tenfold(args, { input: STUDY });

test("compare prints both designs, their intervals and the ratio to the baseline in 80 columns", () => {
  const { code, out, err } = run("compare", "-");
  expect(err).toBe("");
  expect(code).toBe(0);
  expect(out).toMatch(/^Two memories\n64 Kibit · 32-bit words/);
  expect(out).toMatch(
    /macro area +mm² +[\d.]+ +[\d.]+\n {2}parameters +[\d.]+ – [\d.]+ +[\d.]+ – [\d.]+\n/,
  );
  expect(out).toMatch(/\n +baseline +× [\d.]+\n/);
  expect(Math.max(...out.split("\n").map((line) => width(line)))).toBeLessThanOrEqual(80);
});

test("estimate --format json keeps its contract", () => {
  const data = JSON.parse(run("estimate", "-", "--format", "json").out);
  expect(data.format).toBe("tenfold.estimate/1");
  expect(data.study).toMatchObject({
    title: "Two memories",
    sha256: createHash("sha256").update(STUDY).digest("hex"),
    version: manifest.version,
    seed: 1,
  });
  expect(data.designs.map(({ name }: { name: string }) => name)).toEqual(["static", "resistive"]);
  for (const { quantities, breakdown } of data.designs) {
    for (const name of [
      "macro_area",
      "cell_area",
      "array_efficiency",
      "read_latency",
      "write_latency",
      "read_energy_per_bit",
      "write_energy_per_bit",
      "standby_power",
      "transistors",
      "switches",
    ]) {
      expect(quantities[name], name).toMatchObject({ unit: expect.any(String), coverage: 0.95 });
      expect(quantities[name].low).toBeLessThanOrEqual(quantities[name].high);
    }
    const parts: { value: number }[] = breakdown.macro_area;
    const sum = parts.reduce((total, { value }) => total + value, 0);
    expect(Math.abs(sum / quantities.macro_area.value - 1)).toBeLessThan(1e-12);
  }
});

test("the same study gives the same bytes, another seed others", () => {
  const once = run("estimate", "-", "--format", "json").out;
  expect(run("estimate", "-", "--format", "json").out).toBe(once);
  expect(run("estimate", "-", "--format", "json", "--seed", "1").out).toBe(once);
  const other = run("estimate", "-", "--format", "json", "--seed", "2").out;
  expect(other).not.toBe(once);
  const values = (text: string) =>
    JSON.parse(text).designs.map(
      (d: { quantities: { macro_area: { value: number } } }) => d.quantities.macro_area.value,
    );
  expect(values(other)).toEqual(values(once));
});

test.each(["markdown", "csv", "latex", "html"])("compare writes %s", (format) => {
  const { code, out, err } = run("compare", "-", "--format", format);
  expect({ code, err }).toEqual({ code: 0, err: "" });
  expect(out).toContain("resistive");
  expect(out).toContain(format === "csv" ? "macro_area" : "macro area");
});

test("--set changes one value, and a wrong one is refused at its place", () => {
  const cold = run("compare", "-", "--set", "temperature=0degC").out;
  const hot = run("compare", "-", "--set", "temperature=85degC").out;
  expect(cold).toContain("0 °C");
  expect(hot).toContain("85 °C");
  const wrong = run("compare", "-", "--set", "temprature=85degC");
  expect(wrong.code).toBe(2);
  expect(wrong.err).toContain("did you mean: temperature");
  expect(run("compare", "-", "--set", "temperature").err).toContain("the place of a value, `=`");
});

test("a name that the catalogue lacks is refused once, with place and nearest name", () => {
  const input = STUDY.replace("title:", "technology: cmos-66\ntitle:");
  for (const command of ["compare", "check"]) {
    const { code, out, err } = tenfold([command, "-"], { input });
    expect(code).toBe(2);
    const text = command === "check" ? out : err;
    expect(text.match(/there is no technology "cmos-66"/g)).toHaveLength(1);
    expect(text).toContain("standard input:1:13: ");
    expect(text).toMatch(/did you mean: cmos-\d+\n/);
  }
});

test("explain prints the formula, the same with numbers, the result and the sources", () => {
  const { code, out } = run("explain", "-", "read_latency", "--design", "static");
  expect(code).toBe(0);
  expect(out).toMatch(/^read_latency of static\n/);
  expect(out).toMatch(/\nread_latency = .*\n(.*\n)*? {2}= .* [pn]s/);
  const deeper = run("explain", "-", "read_latency", "--design", "static", "--depth", "4").out;
  expect(deeper.length).toBeGreaterThan(out.length);
  const wrong = run("explain", "-", "read_latancy");
  expect(wrong.code).toBe(2);
  expect(wrong.err).toContain("did you mean: read_latency");
});

test("what explain prints is what estimate computes", () => {
  const { derivation } = JSON.parse(
    run("explain", "-", "macro_area", "--design", "resistive", "--format", "json").out,
  );
  const { designs } = JSON.parse(run("estimate", "-", "--format", "json").out);
  expect(derivation.value).toBe(designs[1].quantities.macro_area.value);
});

test("sources lists references as text, BibTeX and CSL-JSON, the same keys in each", () => {
  const data = JSON.parse(run("sources", "-", "--format", "json").out);
  const keys = data.references
    .filter(({ type }: { type: string }) => type === "published")
    .map(({ key }: { key: string }) => key);
  expect(keys.length).toBeGreaterThan(3);
  const bib = run("sources", "-", "--format", "bibtex").out;
  expect([...bib.matchAll(/^@misc\{(.*),$/gm)].map((match) => match[1])).toEqual(keys);
  const csl = JSON.parse(run("sources", "-", "--format", "csl-json").out);
  expect(csl.map(({ id }: { id: string }) => id)).toEqual(keys);
  const text = run("sources", "-").out;
  for (const key of keys) expect(text).toContain(key);
});

test("a study brings its own entries, inline and in a file beside it, but none from elsewhere", () => {
  const cwd = scratch();
  const entry = readFileSync("shared/switches/oxide-bilayer.yaml", "utf8");
  writeFileSync(join(cwd, "mine.yaml"), entry.replace("name: oxide-bilayer", "name: mine"));
  const study = `${STUDY.replace("oxide-bilayer", "mine")}catalogue: {files: [mine.yaml]}\n`;
  writeFileSync(join(cwd, "study.yaml"), study);
  expect(tenfold(["compare", "study.yaml"], { cwd }).code).toBe(0);
  for (const outside of ["../mine.yaml", "/etc/hostname", "a/../../b.yaml"]) {
    writeFileSync(join(cwd, "study.yaml"), study.replace("[mine.yaml]", `["${outside}"]`));
    const { code, err } = tenfold(["compare", "study.yaml"], { cwd });
    expect(code).toBe(2);
    expect(err).toContain("outside of the study's folder");
  }
});

test("a study runs without the formula parser: all formulas were parsed while building", () => {
  const { out, err } = tenfold(["compare", "-"], { input: STUDY, env: { NODE_DEBUG: "module" } });
  expect(out).toContain("macro area");
  // The parser is the one file that is loaded the old way, which node then tells of.
  expect(err).not.toContain("parser.cjs");
});
