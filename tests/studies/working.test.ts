import { expect, test } from "vitest";
import { Draws } from "../../src/estimate/draws.ts";
import type { MacroModel } from "../../src/estimate/model.ts";
import { workingSamples } from "../../src/studies/working.ts";

const CONDITIONS = [{ quantity: "margin", fails: "there is no margin", fix: "more margin" }];

/** A model that gives these columns, and says why it cannot compute a draw. */
function giving(columns: Record<string, number[]>): MacroModel {
  const sample = () =>
    new Map(Object.entries(columns).map(([name, values]) => [name, Float64Array.from(values)]));
  const failure = () => ({ code: "out-of-range", what: "a scale is too small" });
  return { sample, failure } as unknown as MacroModel;
}

function working(columns: Record<string, number[]>) {
  const draws = new Draws(1, columns["area"]!.length);
  return workingSamples(giving(columns), draws, CONDITIONS, ["area"]);
}

test("a draw works where its conditions hold and all its quantities are finite numbers", () => {
  const infinite = Number.POSITIVE_INFINITY;
  const { samples, failed, cause } = working({
    area: [1, 2, Number.NaN, infinite, 5, 6],
    margin: [1, -1, 1, 1, Number.NaN, 0.5],
  });
  expect([...samples.get("area")!]).toEqual([1, NaN, NaN, NaN, NaN, 6]);
  expect(failed).toBe(4);
  expect(cause).toBe("a scale is too small");
});

test("the cause is what is wrong in most of the draws that fail", () => {
  const { failed, cause } = working({ area: [1, 2, 3, NaN], margin: [0, 0, 1, 1] });
  expect(failed).toBe(3);
  expect(cause).toBe("there is no margin");
});

test("nothing is said of draws that all work", () => {
  expect(working({ area: [1, 2], margin: [1, 1] })).not.toHaveProperty("cause");
});
