import fc from "fast-check";
import { expect, test } from "vitest";
import type { Scale } from "../../src/explorer/knobs/knob.ts";
import {
  lastPlace,
  placeOf,
  printedValue,
  valueAt,
  writtenValue,
} from "../../src/explorer/knobs/scale.ts";
import { readQuantity } from "../../src/quantities/quantity.ts";

const unit = { unit: "kohm", factor: 1e3, offset: 0, printed: "kΩ" };
const SCALES: Record<string, Scale> = {
  linear: { kind: "linear", from: 2e3, to: 9e3, ...unit },
  logarithmic: { kind: "logarithmic", from: 1e3, to: 1e6, ...unit },
  powers: { kind: "powers", from: 4, to: 12, form: "count" },
};
const degrees: Scale = {
  kind: "linear",
  from: 275.15,
  to: 295.15,
  unit: "degC",
  factor: 1,
  offset: 273.15,
  printed: "°C",
};

test.each(Object.entries(SCALES))("a slider that is %s has its ends at its ends", (_, scale) => {
  const last = lastPlace(scale);
  const [from, to] = scale.kind === "powers" ? [16, 4096] : [scale.from, scale.to];
  expect(valueAt(scale, 0)).toBeCloseTo(from, 8);
  expect(valueAt(scale, last) / to).toBeCloseTo(1, 12);
  expect([placeOf(scale, from), placeOf(scale, to)]).toEqual([0, last]);
});

test.each(Object.entries(SCALES))(
  "a slider that is %s finds each of its places again",
  (_, scale) => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: lastPlace(scale) }), (place) => {
        expect(placeOf(scale, valueAt(scale, place))).toBe(place);
      }),
      { seed: 9 },
    );
  },
);

test("a value beyond the ends stands at the end, and none at the beginning", () => {
  const { linear } = SCALES;
  expect([placeOf(linear!, 1), placeOf(linear!, 1e9), placeOf(linear!, Number.NaN)]).toEqual([
    0, 200, 0,
  ]);
});

test("what is written is read back as the value, to three digits", () => {
  fc.assert(
    fc.property(fc.double({ min: 1e3, max: 1e6, noNaN: true }), (value) => {
      const read = readQuantity(writtenValue(SCALES["logarithmic"]!, value), "ohm");
      expect(Math.abs(read / value - 1)).toBeLessThanOrEqual(0.00501);
    }),
    { seed: 9 },
  );
  expect(readQuantity(writtenValue(degrees, 283.15), "K")).toBe(283.15);
});

test("counts, words and capacities are written as studies say them", () => {
  const powers = (form: "count" | "bits" | "capacity"): Scale => ({
    kind: "powers",
    from: 0,
    to: 40,
    form,
  });
  expect(writtenValue(powers("count"), 512)).toBe("512");
  expect(writtenValue(powers("bits"), 32)).toBe("32 bit");
  expect(writtenValue(powers("capacity"), 2 ** 20)).toBe("1 Mib");
  expect(writtenValue(powers("capacity"), 2 ** 19)).toBe("512 Kib");
  expect(writtenValue(powers("capacity"), 512)).toBe("512 bit");
  for (const n of [10, 19, 20, 30]) {
    expect(readQuantity(writtenValue(powers("capacity"), 2 ** n), "bit")).toBe(2 ** n);
  }
});

test("people read the unit as it is printed", () => {
  expect(printedValue(SCALES["linear"]!, 2500)).toBe("2.5 kΩ");
  expect(printedValue(degrees, 283.15)).toBe("10 °C");
  expect(printedValue(degrees, Number.NaN)).toBe("–");
});
