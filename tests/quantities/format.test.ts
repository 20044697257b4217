import { describe, expect, it } from "vitest";
import {
  formatNumber,
  formatQuantity,
  formatRatio,
  formatRow,
  unitText,
} from "../../src/quantities/format.ts";
import { fixedAt, roundToUncertainty } from "../../src/quantities/rounding.ts";

describe("rounding", () => {
  // JCGM 100:2008, 7.2.6: 10.05762 ohm with uncertainty 27 mohm is 10.058 ohm; here the interval is
  // ± 27 mohm, and its width 54 mohm has its second digit at the milliohm as well.
  it("rounds the resistor of the guide to the expression of uncertainty to 10.058 ohm", () => {
    const rounded = roundToUncertainty(10.05762, 10.05762 - 0.027, 10.05762 + 0.027);
    expect(rounded).toEqual({ value: "10.058", low: "10.031", high: "10.085" });
  });

  it("keeps two digits of each where the interval spans decades", () => {
    expect(roundToUncertainty(100, 1.04, 10432)).toEqual({
      value: "100",
      low: "1.0",
      high: "10000",
    });
  });

  // JCGM 100:2008 rounds what people read: in binary 2.675 lies below the tie, 1.005 as well.
  it("rounds in decimal, ties to the even digit", () => {
    expect(fixedAt(2.675, -2)).toBe("2.68");
    expect(fixedAt(1.005, -2)).toBe("1.00");
    expect(fixedAt(1.015, -2)).toBe("1.02");
    expect(fixedAt(-2.5, 0)).toBe("-2");
    expect(fixedAt(-0.004, -2)).toBe("0.00");
    expect(fixedAt(12_350, 2)).toBe("12400");
    expect(fixedAt(3e-20, -21)).toBe("0.000000000000000000030");
  });

  it("rounds tens and hundreds too", () => {
    expect(roundToUncertainty(3127, 2412, 4933)).toEqual({
      value: "3100",
      low: "2400",
      high: "4900",
    });
  });
});

describe("a row of a table", () => {
  it("shares one prefix, and value and interval one last digit", () => {
    const row = formatRow(
      [
        { value: 0.8213e-6, low: 0.7391e-6, high: 0.9312e-6 },
        { value: 0.3122e-6, low: 0.2511e-6, high: 0.3899e-6 },
        { value: 0.1911e-6, low: 0.1309e-6, high: 0.2791e-6 },
      ],
      "m^2",
    );
    expect(row.unit).toBe("mm²");
    expect(row.figures.map((f) => f.value)).toEqual(["0.82", "0.31", "0.19"]);
    expect(row.figures.map((f) => f.interval)).toEqual([
      "0.74 – 0.93",
      "0.25 – 0.39",
      "0.13 – 0.28",
    ]);
  });

  it("shows large counts with a bare prefix", () => {
    const row = formatRow([{ value: 6.9e6 }, { value: 1.4e6 }, { value: 0.36e6 }], "1");
    expect(row).toEqual({
      unit: "M",
      figures: [{ value: "6.9" }, { value: "1.4" }, { value: "0.36" }],
    });
  });

  it("shows spans of ten decades with powers of ten", () => {
    const row = formatRow([{ value: 1.5e-12, low: 1e-14, high: 1e-9 }], "1");
    expect(row.figures[0]!.interval).toBe("1.0 × 10⁻¹⁴ – 1.0 × 10⁻⁹");
  });
});

describe("one quantity", () => {
  it.each([
    [{ value: 2500 }, "ohm", {}, "2.5 kΩ"],
    [{ value: 2500 }, "ohm", { ascii: true }, "2.5 kohm"],
    [{ value: 2e-10 }, "F/m", {}, "200 aF/µm"],
    [{ value: 2e-10 }, "F/m", { show: "fF/um" }, "0.2 fF/µm"],
    [{ value: 283.15 }, "K", { show: "degC" }, "10 °C"],
    [{ value: 1048576 }, "bit", {}, "1 Mib"],
    [{ value: 32 }, "bit", {}, "32 bit"],
    [{ value: 5120 }, "1", {}, "5120"],
    [{ value: 8.4e-14 }, "m^2", {}, "0.084 µm²"],
    [{ value: 7e11 }, "1/m^2", {}, "0.7 1/µm²"],
    [{ value: 3.5e-9 }, "V m", {}, "3.5 mV µm"],
    [{ value: 315576000 }, "s", {}, "10 year"],
    [{ value: 2.1e-9, low: 1.7e-9, high: 2.8e-9 }, "s", {}, "2.1 ns (1.7 – 2.8 ns)"],
    [{ value: -0.003, low: -0.012, high: 0.004 }, "V", { ascii: true }, "-3 mV (-12 to 4 mV)"],
    [{ value: -0.003, low: -0.012, high: 0.004 }, "V", {}, "−3 mV (−12 – 4 mV)"],
    [{ value: 0 }, "W", {}, "0 W"],
    [{ value: Number.NaN }, "1", {}, "–"],
  ])("%o %s with %o reads `%s`", (figure, unit, options, text) => {
    expect(formatQuantity(figure, unit, options)).toBe(text);
  });

  it.each([
    [0.3812, "× 0.38"],
    [15.02, "× 15"],
    [3, "× 3.0"],
    [1, "× 1.0"],
    [1234, "× 1200"],
    [0.0999, "× 0.10"],
    [2e-7, "× 2.0 × 10⁻⁷"],
  ])("the ratio %d reads `%s`", (ratio, text) => {
    expect(formatRatio(ratio)).toBe(text);
  });

  it("prints units with superscripts, µ, Ω and °", () => {
    expect(
      ["um^2", "kohm um", "1/mm^2", "degC", "m^-1", "min", "1"].map((u) => unitText(u)),
    ).toEqual(["µm²", "kΩ µm", "1/mm²", "°C", "m⁻¹", "min", ""]);
  });

  it("prints numbers beyond the comfortable sizes with a power of ten", () => {
    expect([1.234e-15, 1e9, -2.5e-7, 0.25].map((x) => formatNumber(x))).toEqual([
      "1.23 × 10⁻¹⁵",
      "1.00 × 10⁹",
      "−2.50 × 10⁻⁷",
      "0.25",
    ]);
    expect(formatNumber(1.234e-15, { ascii: true })).toBe("1.23e-15");
  });
});
