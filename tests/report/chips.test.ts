import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, onTestFinished, test } from "vitest";
import { parseFormula } from "../../src/formulas/parse.ts";
import { evidenceIn } from "../../src/io/evidence.ts";
import { evidenceChart } from "../../src/report/charts/evidence.ts";
import { svgFile } from "../../src/report/charts/svg.ts";
import { evidenceDocument } from "../../src/report/documents/evidence/evidence.ts";
import { evidenceData } from "../../src/report/documents/evidence/evidence-data.ts";
import { compareChip } from "../../src/studies/evidence/compare.ts";
import { evidenceOf } from "../../src/studies/evidence/evidence.ts";
import { expectHarmless, expectSvg } from "./harmless.ts";
import { PAYLOADS } from "./payloads.ts";

/** A folder with one chip for each text, which stands wherever a text may. */
function folderOf(texts: readonly string[]): string {
  const folder = mkdtempSync(join(tmpdir(), "tenfold-"));
  onTestFinished(() => rmSync(folder, { recursive: true }));
  mkdirSync(join(folder, "chips"));
  const chips = texts.map((text, i) => {
    const values = {
      cell_area: { value: "0.9 um^2", source: text, note: text },
      capacity: { value: "1 Mibit", source: text, note: text },
    };
    const chip = { format: "tenfold.chip/1", name: `c${i}`, title: text, about: text, values };
    const design = { title: text, cell: "sram-6t", capacity: "1 Mib", word: "64 bit" };
    const study = { title: text, about: text, technology: "cmos-65", designs: { chip: design } };
    writeFileSync(join(folder, `chips/c${i}.yaml`), JSON.stringify(chip));
    writeFileSync(join(folder, `c${i}.yaml`), JSON.stringify(study));
    const plan = { kind: "static", compared: { cell_area: "cell_area" }, defaulted: text };
    return [`c${i}`, { ...plan, why: { cell_area: text } }] as const;
  });
  const left = Object.fromEntries(texts.map((text, i) => [`l${i}`, text]));
  const plan = { format: "tenfold.evidence/1", chips: Object.fromEntries(chips), left_out: left };
  writeFileSync(join(folder, "compared.yaml"), JSON.stringify(plan));
  return folder;
}

test("texts of chips of one's own come out harmless from evidence and its chart", async () => {
  const texts = Object.values(PAYLOADS).filter((text) => text.trim() !== "");
  const { plan, open } = await evidenceIn(folderOf(texts));
  const chips = [];
  for (const one of plan.chips) {
    chips.push(compareChip(one, await open(one), parseFormula, plan.place));
  }
  const result = evidenceOf(chips, plan.leftOut);
  expect(chips).toHaveLength(texts.length);
  expectHarmless(evidenceDocument(result, evidenceChart(result)), evidenceData(result, "0"));
  expectSvg(svgFile(evidenceChart(result)));
});

test.each(["c0.yaml", "chips/c0.yaml"])(
  "%s as a link out of the folder is refused",
  async (name) => {
    const folder = folderOf(["x"]);
    const outside = mkdtempSync(join(tmpdir(), "tenfold-"));
    onTestFinished(() => rmSync(outside, { recursive: true }));
    writeFileSync(join(outside, "secret"), readFileSync(join(folder, name)));
    rmSync(join(folder, name));
    symlinkSync(join(outside, "secret"), join(folder, name));
    const { plan, open } = await evidenceIn(folder);
    await expect(open(plan.chips[0]!)).rejects.toMatchObject({
      problems: [{ code: "path-outside" }],
    });
  },
);
