import { all, create } from "mathjs";
import { describe, expect, it } from "vitest";
import { TenfoldError } from "../../src/errors/problem.ts";
import { dimensionText, sameDimension } from "../../src/quantities/dimension.ts";
import { readQuantity } from "../../src/quantities/quantity.ts";
import { dimensionOf, parseUnit } from "../../src/quantities/unit.ts";
import { UNITS } from "../../src/quantities/units.ts";

const math = create(all!);

function problemOf(run: () => unknown) {
  try {
    run();
  } catch (error) {
    if (error instanceof TenfoldError) return error.problems[0]!;
    throw error;
  }
  throw new Error("nothing was refused");
}

/**
 * What mathjs makes of a unit: it writes coulomb out, knows no prefix for it, no `bit` with prefix
 * and no `ki`.
 */
function theirFactor(prefix: string, name: string): number {
  const theirPrefix = prefix === "ki" ? "Ki" : prefix;
  if (name === "C") return theirFactor(prefix, "A");
  if (name === "bit" || name === "b") return math.unit(1, `${theirPrefix}b`).toNumber("b");
  if (name === "B") return math.unit(1, `${theirPrefix}B`).toNumber("b");
  return math
    .unit(1, prefix + name)
    .toSI()
    .toNumber();
}

describe("units", () => {
  // Oracle: the units of mathjs 15. It has the electronvolt of before 2019 (4.3e-8 low), no %, ppm,
  // gate, decade.
  const absent = new Set(["%", "ppm", "gate", "decade", "degC", "cycle"]);
  for (const [name, unit] of Object.entries(UNITS)) {
    if (absent.has(name)) continue;
    it(`${name} and all its prefixes have the factor that mathjs has`, () => {
      for (const prefix of ["", ...unit.prefixes]) {
        const theirs = theirFactor(prefix, name);
        const ours = parseUnit(prefix + name).factor;
        expect(Math.abs(ours / theirs - 1)).toBeLessThan(name === "eV" ? 5e-8 : 1e-14);
      }
    });
  }

  it.each([
    "fF/um",
    "mV um",
    "ohm um",
    "1/mm^2",
    "uA/um",
    "J/(kg K)",
    "W/m/K",
    "m^2 s^-1",
    "V^2/ohm",
    "kg m^2/s^2",
  ])("%s has the factor and the dimension that mathjs gives", (text) => {
    const theirs = math.unit(1, text.startsWith("1/") ? text.slice(2) : text);
    const sign = text.startsWith("1/") ? -1 : 1;
    const ours = parseUnit(text);
    expect(Math.abs(ours.factor / theirs.toSI().toNumber() ** sign - 1)).toBeLessThan(1e-14);
    // mathjs orders its dimensions as mass, length, time, current, temperature.
    const [mass, length, time, current, temperature] = (
      theirs as unknown as { dimensions: number[] }
    ).dimensions;
    const expected = [length, mass, time, current, temperature].map((x) => sign * x! + 0);
    expect(ours.dimension.map(([n, d]) => n / d)).toEqual(expected);
  });

  it("the electronvolt is the exact one of the SI of 2019", () => {
    expect(parseUnit("eV").factor).toBe(1.602176634e-19);
  });

  it.each([
    ["0.2 fF/um", "F/m", 2e-10],
    ["25 uA", "A", 25e-6],
    ["10 degC", "K", 283.15],
    ["-40 °C", "K", 233.15],
    ["85 °C", "K", 358.15],
    ["2.5 kΩ", "ohm", 2500],
    ["3 µm²", "m^2", 3e-12],
    ["3 um2", "m^2", 3e-12],
    ["700 kgates/mm2", "1/m^2", 7e11],
    ["5e5/mm^2", "1/m^2", 5e11],
    ["90 mV/decade", "V", 0.09],
    ["1 Mib", "bit", 1048576],
    ["1 kib", "bit", 1024],
    ["64 Kib", "bit", 65536],
    ["2 Gib", "bit", 2 ** 31],
    ["1 kbit", "bit", 1000],
    ["1 Mibit", "bit", 1048576],
    ["4 KiB", "bit", 32768],
    ["32 bit", "bit", 32],
    ["5 %", "1", 0.05],
    ["1e9 cycles", "1", 1e9],
    ["10 years", "s", 315576000],
    ["1.2 eV", "J", 1.9226119608e-19],
    ["3 pJ/bit", "J", 3e-12],
    ["−3 mV", "V", -0.003],
    [".5 V", "V", 0.5],
    ["3.5 mV um", "V m", 3.5e-9],
    ["1 1/h", "1/s", 1 / 3600],
    ["4", "1", 4],
  ])("`%s` read in %s is the double nearest %d", (text, unit, value) => {
    expect(readQuantity(text, unit)).toBe(value);
  });

  it("a thousand decimal values in every prefix are the doubles nearest to them", () => {
    for (let i = 1; i <= 1000; i++) {
      const digits = `${(i * 7919) % 1000}.${i}`;
      expect(readQuantity(`${digits} fF/um`, "F/m")).toBe(Number(`${digits}e-9`));
      expect(readQuantity(`${digits} pJ`, "J")).toBe(Number(`${digits}e-12`));
    }
  });

  it.each([
    ["1048576", "bit", "unit-missing", undefined],
    ["2.5", "ohm", "unit-missing", undefined],
    ["2.5 kohm", "V", "wrong-dimension", undefined],
    ["2 bit", "1", "wrong-dimension", undefined],
    ["2 kOhm", "ohm", "unknown-unit", "kohm"],
    ["2 PF", "F", "unknown-unit", "pF"],
    ["2 Kb", "bit", "unknown-unit", "Kib (1024 bit) or kb (1000 bit)"],
    ["2 sec", "s", "unknown-unit", "s"],
    ["2 kohms", "ohm", "unknown-unit", "kohm"],
    ["2 nanosecond", "s", "unknown-unit", "ns"],
    ["1,5 V", "V", "bad-number", undefined],
    ["1_000 V", "V", "bad-number", undefined],
    ["fast", "s", "bad-number", undefined],
    ["1 W/m K", "W/(m K)", "bad-unit", undefined],
    ["1 degC/s", "K/s", "bad-unit", undefined],
    ["1 V^", "V", "bad-unit", undefined],
    ["1 (V", "V", "bad-unit", undefined],
    ["1 V^99", "V", "bad-unit", undefined],
    ["1e999 V", "V", "number-out-of-range", undefined],
    ["1e-999999999 V", "V", "number-out-of-range", undefined],
  ])("`%s` where %s is needed is refused as %s", (text, unit, code, nearest) => {
    const problem = problemOf(() => readQuantity(text, unit));
    expect(problem.code).toBe(code);
    expect(problem.nearest).toBe(nearest);
  });

  it("a wrong dimension shows both", () => {
    const problem = problemOf(() => readQuantity("2.5 kohm", "V"));
    expect(problem.what).toBe(
      "`2.5 kohm` is in kohm (m^2 kg/(s^3 A^2)), but V (m^2 kg/(s^3 A)) is needed",
    );
  });

  it("roots have rational exponents", () => {
    const noise = dimensionOf("V/Hz^(1/2)");
    expect(dimensionText(noise)).toBe("m^2 kg/(s^(5/2) A)");
    expect(sameDimension(noise, dimensionOf("V s^(1/2)"))).toBe(true);
  });
});
