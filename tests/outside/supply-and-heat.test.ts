// How published parts get slower with heat and at low supplies, beside designs that know nothing of them but process,
// cell and supply. Absolute latencies are the evidence's; here only what supply and temperature do.
import { expect, test } from "vitest";
import { quantitiesOf } from "../estimate/study.ts";

const MACRO = { capacity: "1 Mib", word: "64 bit" };
const transistor = (name: string) => ({ switch: name, selector: { kind: "transistor" } });

test("a magnetic macro of 28 nm is slower by 1.29 at 120 degC than at 25 degC", () => {
  // "A 1-Mb 28-nm 1T1MTJ STT-MRAM with single-cap offset-cancelled sense amplifier and in situ self-write-termination",
  // IEEE Journal of Solid-State Circuits, 2019: 2.8 ns and 3.6 ns. Mobility against a falling threshold, so that the
  // sign alone is no foregone conclusion; a tenth for the two printed digits of both and for another circuit. Its
  // amplifiers cancel their offset, as the title says: others wait for a signal that hardly knows the temperature.
  const overrides = { offset_cancelled: 1 };
  const at = (temperature: string) =>
    quantitiesOf(
      { ...MACRO, cell: transistor("magnetic-tunnel"), supply: "1.2 V", temperature, overrides },
      { technology: "cmos-28-low-power" },
    )("read_latency");
  const ratio = at("120 degC") / at("25 degC");
  expect(ratio / (3.6 / 2.8)).toBeGreaterThan(0.9);
  expect(ratio / (3.6 / 2.8)).toBeLessThan(1.1);
});

test("a resistive macro of 28 nm is slower by tens to hundreds at 0.27 V", () => {
  // "Embedded 1Mb ReRAM in 28nm CMOS with 0.27-to-1V read using swing-sample-and-couple sense amplifier ...", ISSCC,
  // 2014: 6.8 ns at 1 V, about 404 ns at 0.27 V, medium confidence; the flavour of the process is not stated.
  // Between both flavours of the catalogue, whose thresholds are 0.1 V apart.
  const slowdown = (technology: string) => {
    const at = (supply: string) =>
      quantitiesOf({ ...MACRO, cell: transistor("oxide-filament"), supply }, { technology });
    return at("0.27 V")("read_latency") / at("1 V")("read_latency");
  };
  expect(slowdown("cmos-28")).toBeLessThan(404 / 6.8);
  expect(slowdown("cmos-28-low-power")).toBeGreaterThan(404 / 6.8);
});

test("a static macro of 65 nm in a low-power process cycles near 1.1 GHz at 1.2 V", () => {
  // "A 1.1 GHz 12 uA/Mb-leakage SRAM design in 65 nm ultra-low-power CMOS technology ...", IEEE Journal of Solid-State
  // Circuits, 2008. A title names the best corner: a third.
  const cycle = quantitiesOf(
    { ...MACRO, cell: "sram-6t", supply: "1.2 V" },
    { technology: "cmos-65-low-power" },
  )("read_cycle");
  expect(cycle * 1.1e9).toBeGreaterThan(1 / 1.33);
  expect(cycle * 1.1e9).toBeLessThan(1.33);
});
