import { expect, it } from "vitest";
import { Catalogue } from "../../src/catalogue/index.ts";
import { resolveDesign } from "../../src/estimate/design.ts";
import { folderLoader } from "../../src/io/catalogue.ts";
import { studyTables } from "../../src/io/tables.ts";
import { readStudy } from "../../src/schema/read-study.ts";

function cautionsAt(supply: string): readonly string[] {
  const text = `title: Supply
technology: cmos-65
designs:
  a: {cell: sram-6t, capacity: 64 kib, word: 32 bit, supply: ${supply}}
`;
  const study = readStudy(text, "study.yaml", { tables: studyTables() });
  return resolveDesign(study, "a", new Catalogue(folderLoader())).cautions;
}

it("says that delays are those of the technology's own supply where a study states another", () => {
  expect(cautionsAt("0.6 V").filter((text) => text.includes("own supply of 1 V"))).toHaveLength(1);
});

it("says nothing of the supply within a tenth of the technology's own", () => {
  expect(cautionsAt("1.05 V").filter((text) => text.includes("own supply"))).toHaveLength(0);
});
