import { expect, test } from "vitest";
import { assemble } from "../../src/formulas/assemble.ts";
import { firstBroken } from "../../src/formulas/culprit.ts";
import { parseFormula } from "../../src/formulas/parse.ts";

const given = ["a", "b", "c", "unused"].map((name) => ({ name, unit: "1" }));
const extra = (name: string, formula: string) =>
  ({ name, unit: "1", meaning: name, source: "this project", formula }) as const;
const program = assemble([], given, parseFormula, [
  extra("growth", "exp(sqrt(a) * b)"),
  extra("share", "growth / c"),
]);
const brokenAt = (values: Readonly<Record<string, number>>) =>
  firstBroken(program, ["share"], new Map(Object.entries({ unused: 1, ...values })));
const any = () => true;

test("finite results have no culprit", () => {
  expect(brokenAt({ a: 1, b: 1, c: 1 })).toBeUndefined();
});

test("the first quantity that overflows is named with its formula and the inputs that it hangs on", () => {
  expect(brokenAt({ a: 1, b: 2000, c: 1 })).toMatchObject({
    quantity: "growth",
    how: "exp(sqrt(a) * b)",
    inputs: ["a", "b"],
  });
});

test("the way back is as long as the largest exponential says, for a square root twice as long", () => {
  const broken = brokenAt({ a: 1, b: 2000, c: 1 })!;
  // exp overflows above ln(2^1024) = 709.78.
  const decades = Math.log10(2000 / (1024 * Math.LN2));
  for (const [name, least] of [
    ["b", decades],
    ["a", 2 * decades],
  ] as const) {
    const mend = broken.mend(name, any)!;
    expect(mend.decades).toBeGreaterThanOrEqual(least);
    expect(mend.decades).toBeLessThan(least + 1 / 16);
    expect(mend.value).toBeCloseTo((name === "b" ? 2000 : 1) / 10 ** mend.decades, 9);
  }
});

test("a zero that is divided by is mended by any other number, and nothing else mends it", () => {
  const broken = brokenAt({ a: 1, b: 1, c: 0 })!;
  expect(broken.quantity).toBe("share");
  expect(broken.mend("c", any)).toMatchObject({ value: 1 });
  expect(broken.mend("a", any)).toBeUndefined();
});

test("values that an input may not have are no way back", () => {
  const broken = brokenAt({ a: 1, b: 2000, c: 1 })!;
  expect(broken.mend("b", (value) => value > 1e4)).toBeUndefined();
});
