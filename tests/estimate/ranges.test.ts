import { describe, expect, test } from "vitest";
import { DEFAULTS, parameterOfDefault } from "../../src/estimate/parameters.ts";
import { quantileOf } from "../../src/quantities/distribution.ts";
import type { Parameter } from "../../src/quantities/parameter.ts";
import { studyOf } from "./study.ts";

/** Probabilities of draws far out on both sides, where a distribution leaves a range that it does not know. */
const FAR = [1e-9, 1e-4, 0.01, 0.3, 0.5, 0.9, 0.9999, 1 - 1e-9];

function overridden(name: string, given: unknown): Parameter {
  const one = { cell: "sram-6t", capacity: "1 Kib", word: "32 bit", overrides: { [name]: given } };
  return studyOf({ one }, { technology: "cmos-65" }).designs.one!.overrides![name]!;
}

describe("no draw of a parameter is below zero", () => {
  test.each([...DEFAULTS.values()])("default $name", (one) => {
    const parameter = parameterOfDefault(one);
    for (const probability of FAR)
      expect(quantileOf(parameter, probability)).toBeGreaterThanOrEqual(0);
  });

  test.each(["normal", "two-piece normal"])("stated as %s", (distribution) => {
    const stated = { value: 0.1, low: 0, high: 3, distribution };
    const parameter = overridden("edge_cells", stated);
    for (const probability of FAR)
      expect(quantileOf(parameter, probability)).toBeGreaterThanOrEqual(0);
    expect(quantileOf(parameter, 1 - 1e-9)).toBeGreaterThan(3);
  });
});

test("a distribution is cut at the bounds of its figure, and the rest keeps its shape", () => {
  // A normal one of mean 0 and deviation 1, cut at 0, is the half-normal: its median is that of |x|, 0.6744897501960817
  // (the quartile of the normal distribution, Handbook of Mathematical Functions, table 26.5).
  const half = { value: 1e-12, sigma: 1, distribution: "normal" };
  expect(quantileOf(overridden("edge_cells", half), 0.5)).toBeCloseTo(0.6744897501960817, 11);
});

test("a cut of the study's own stays", () => {
  const own = { value: 0.1, low: 0.05, high: 0.3, distribution: "normal", least: 0.04, most: 0.4 };
  expect(overridden("strap_share", own)).toMatchObject({ least: 0.04, most: 0.4 });
});

test("a share of a whole is never drawn above one, however wide its range", () => {
  const shares = [...DEFAULTS.values()].filter(
    ({ name, high }) => name.endsWith("_share") && high <= 1,
  );
  expect(shares.length).toBeGreaterThan(20);
  for (const one of shares)
    expect(quantileOf(parameterOfDefault(one), 1 - 1e-12)).toBeLessThanOrEqual(1);
  expect(() => overridden("pump_drop_share", 1.2)).toThrow("pump_drop_share can't be `1.2`");
  // Of the pitch that transistors would need, which is no whole.
  expect(overridden("pitch_layout_share", 3).value).toBe(3);
});

test("a parameter of a model is refused below zero, and allowed to be zero", () => {
  expect(() => overridden("strap_share", -0.01)).toThrow("strap_share can't be `-0.01`");
  expect(overridden("strap_share", 0).value).toBe(0);
});
