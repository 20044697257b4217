import { expect, test } from "vitest";
import { byName } from "../../src/catalogue/natural.ts";

test("names are ordered by their letters and by the size of their numbers", () => {
  const names = ["cmos-180", "b", "cmos-5", "cmos-16-x", "cmos-16", "a10", "a9", "cmos-007"];
  expect(names.sort(byName)).toEqual([
    "a9",
    "a10",
    "b",
    "cmos-5",
    "cmos-007",
    "cmos-16",
    "cmos-16-x",
    "cmos-180",
  ]);
  expect(byName("x1", "x1")).toBe(0);
});
