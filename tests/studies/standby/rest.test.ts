import { describe, expect, test } from "vitest";
import { resolveDesign } from "../../../src/estimate/design.ts";
import { MacroModel } from "../../../src/estimate/model.ts";
import { parseFormula } from "../../../src/formulas/parse.ts";
import { openText } from "../../../src/io/study.ts";
import { standbyOfStudy } from "../../../src/studies/standby/study.ts";

const STUDY = `title: Rest
baseline: static
samples: 64
defaults: {capacity: 64 Kib, word: 32 bit}
designs:
  static: {cell: sram-6t}
  resistive: {cell: {switch: oxide-bilayer, selector: transistor}}
`;
const USE = `standby:
  period: 10 min
  active_time: 2 s
  reads: 1000
  writes: 200
`;
const BATTERY =
  "  battery: {charge: 2.4 A h, voltage: 3 V, self_discharge: 1 %/year, other_power: 50 uW}\n";

async function rest(text: string) {
  const { study, catalogue } = await openText({ text, file: "rest.yaml" }, "rest.yaml");
  const result = standbyOfStudy(study, catalogue, parseFormula);
  const nominal = (name: string) =>
    new MacroModel(resolveDesign(study, name, catalogue), parseFormula).nominal();
  return { result, static: nominal("static"), resistive: nominal("resistive") };
}
const close = (got: number | undefined, wanted: number) =>
  expect(Math.abs(got! / wanted - 1)).toBeLessThan(1e-12);

describe("standby", () => {
  test("breaks even after the energy of saving and restoring over the power that it saves", async () => {
    const { result, static: s, resistive: r } = await rest(`${STUDY}${USE}  save_to: resistive\n`);
    const { figures, rest: how } = result.designs[0]!;
    expect(how).toBe("saved and switched off");
    // 64 Kib in words of 32 bit: each is read and written twice.
    const words = 65536 / 32;
    const each = ["read_energy", "write_energy"].map((name) => s.get(name)! + r.get(name)!);
    const energy = words * (each[0]! + each[1]!);
    close(figures.get("round_trip_energy")!.value, energy);
    const saved = s.get("sleep_power")! - r.get("sleep_power")!;
    close(figures.get("break_even_time")!.value, energy / saved);
  });

  test("has the mean power of bursts and rest", async () => {
    const { result, resistive: r } = await rest(`${STUDY}${USE}`);
    const [kept, off] = [result.designs[0]!, result.designs[1]!];
    expect(kept.rest).toBe("kept alive");
    expect(kept.figures.has("break_even_time")).toBe(false);
    expect(off.rest).toBe("keeps its data");
    const burst =
      2 * r.get("standby_power")! +
      1000 * r.get("active_read_energy")! +
      200 * r.get("active_write_energy")!;
    close(off.figures.get("off_mean_power")!.value, (burst + 598 * r.get("sleep_power")!) / 600);
    close(off.figures.get("keep_mean_power")!.value, (burst + 598 * r.get("standby_power")!) / 600);
    expect(off.figures.get("break_even_time")!.value).toBe(0);
  });

  // A battery of charge Q that loses k Q of itself and gives P / U: it lasts ln(1 + k t0) / k with t0 = Q U / P.
  test("tells the days of a battery with self-discharge", async () => {
    const { result } = await rest(`${STUDY}${USE}${BATTERY}`);
    const { figures } = result.designs[1]!;
    const power = figures.get("mean_power")!.value;
    close(power, figures.get("off_mean_power")!.value + 50e-6);
    const plain = (2.4 * 3600 * 3) / power;
    const rate = 0.01 / 31557600;
    close(figures.get("battery_life_days")!.value, Math.log1p(rate * plain) / rate / 86400);
  });

  test("refuses to save into a design that loses its data, and a study without the section", async () => {
    await expect(rest(`${STUDY}${USE}  save_to: static\n`)).rejects.toThrow(
      /loses its data without a supply/,
    );
    await expect(rest(`${STUDY}${USE}  save_to: resistiv\n`)).rejects.toThrow(
      /no design `resistiv`/,
    );
    await expect(rest(STUDY)).rejects.toThrow(/no section `standby`/);
  });
});
